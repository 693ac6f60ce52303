import { acceptedCurrent, endCurrent } from './charge'
import { drawnFor, givenFor, powerCurve, ratedPower, type Converter, type PowerCurve } from './converter'
import { currentAt, type Pack } from './pack'
import { Side } from './side'

/** What stands between the carried pack and the bike's. */
export interface Line {
  /** From the carried pack to the converter, there and back, ohm. */
  sourceCable: number
  converter: Converter
  /** From the converter to the bike's pack, there and back, ohm. */
  outputCable: number
}

/** What sets the current at a moment. */
export type TransferLimit =
  | 'setCurrent'
  | 'converterOutput'
  | 'converterInput'
  | 'sourceLimit'
  | 'sourceEmpty'
  | 'packCurrent'
  | 'cold'
  | 'constantVoltage'
  | 'outOfRange'

/** One moment of a transfer: the charges are given, the rest is written over by `Circuit.solve`. */
export class Moment {
  /** Of the bike's pack and of the carried one, 0 to 1. */
  charge = 0
  sourceCharge = 0
  limit: TransferLimit = 'setCurrent'
  /** Into the bike's pack, A. 0: nothing flows any more, and nothing is drawn. */
  current = 0
  /** Out of the carried pack, A. */
  sourceCurrent = 0
  /** Open-circuit voltages of the bike's pack and of the carried one, V, and resistance of the latter, ohm. */
  open = 0
  sourceOpen = 0
  sourceResistance = 0
  /** At the converter's two sides, V. */
  inputVoltage = 0
  outputVoltage = 0
  /** Drawn by the converter, standby included, and given by it, W. */
  drawn = 0
  given = 0
}

/** The source counts as empty when its lowest voltage, or the converter's, lets less current flow than this share of its rated Ah, 1/h, as charging ends. */
const emptyRate = 0.05

/** Current that puts a power into a voltage behind a resistance, A: the root of I (V + R I) = P. */
function currentInto(voltage: number, ohm: number, power: number): number {
  return (2 * power) / (voltage + Math.sqrt(voltage * voltage + 4 * ohm * power))
}

/** Carried pack, cable, converter, cable and the bike's pack: what flows for given charges of the two. Everything that stands still is worked out once. */
export class Circuit {
  /** Voltage that the converter holds at the most, V: as set, never above the pack's full voltage. */
  readonly voltage: number
  readonly side: Side
  readonly sourceSide: Side
  /** From the converter's output to the cells of the bike's pack, ohm. */
  readonly outputResistance: number
  /** Charging is done when the held voltage drives less than this, A. */
  readonly endCurrent: number
  private readonly converter: Converter
  private readonly inputVoltageLeast: number
  private readonly curve: PowerCurve
  private readonly steadyCurrent: number
  private readonly steadyLimit: TransferLimit
  private readonly mostGiven: number
  private readonly inputCurrent: number
  private readonly inputLimit: TransferLimit
  private readonly emptyCurrent: number
  /** Drawn besides what the efficiency takes, W. */
  private readonly standby: number
  private readonly sourceCable: number
  /** Whether there are voltages, at any charge, between which this kind of converter does not work. */
  private readonly narrow: boolean
  /** By `findMost`: the greatest input current, A, what sets it, and whether that is a lowest voltage, which it nears ever more slowly. */
  private most = 0
  private mostLimit: TransferLimit = 'converterInput'
  private falling = false

  constructor(
    private readonly source: Pack,
    { converter, sourceCable, outputCable }: Line,
    pack: Pack,
  ) {
    this.converter = converter
    this.inputVoltageLeast = converter.inputVoltageLeast
    this.side = new Side(pack)
    this.sourceSide = new Side(source)
    this.standby = converter.standby
    this.sourceCable = sourceCable
    const least = pack.series * pack.chemistry.openCircuit.voltage[0]!
    this.narrow = converter.kind !== 'step-up-down' || least < converter.outputVoltageLeast
    this.voltage = Math.min(converter.voltage, pack.series * pack.chemistry.chargeLimitVoltage)
    this.outputResistance = pack.chargeResistance + outputCable
    this.endCurrent = endCurrent(pack)
    this.curve = powerCurve(converter, source.series * source.chemistry.nominalVoltage)
    const accepted = acceptedCurrent(pack)
    this.steadyCurrent = Math.min(converter.current, converter.outputCurrent, accepted.current)
    this.steadyLimit =
      this.steadyCurrent === converter.current
        ? 'setCurrent'
        : this.steadyCurrent === converter.outputCurrent
          ? 'converterOutput'
          : accepted.limit
    this.mostGiven = ratedPower(converter)
    this.inputCurrent = Math.min(converter.inputCurrent, source.dischargeCurrent)
    this.inputLimit = this.inputCurrent === converter.inputCurrent ? 'converterInput' : 'sourceLimit'
    this.emptyCurrent = emptyRate * source.spec.capacityAh
  }

  /**
   * Currents, voltages and the binding limit at a moment: the greatest current into the bike's pack that no limit forbids.
   *
   * The source's own lowest voltage is respected by less current, as a rider does who turns the converter down; a protection board that opens
   * instead ends the charge somewhat sooner.
   *
   * @param into at its charges; the rest is written over. It is handed on from part to part, since numbers handed on cost more than all else here
   */
  solve(into: Moment): void {
    this.rest(into)
    this.limitOutput(into)
    this.settle(into)
    this.findMost(into)
    if (into.sourceCurrent > this.most) this.limitInput(into)
    if (this.narrow && into.current > 0) this.keepInRange(into)
  }

  /** What the charges decide. */
  private rest(into: Moment): void {
    into.open = this.side.voltageAt(into.charge)
    into.sourceOpen = this.sourceSide.voltageAt(into.sourceCharge)
    into.sourceResistance = this.sourceSide.resistanceAt(into.sourceCharge)
  }

  /** The current that the converter's output and the bike's pack allow. */
  private limitOutput(into: Moment): void {
    const ohm = this.outputResistance
    const { open } = into
    let current = this.steadyCurrent
    let limit = this.steadyLimit
    const held = (this.voltage - open) / ohm
    if (held < current) {
      current = held > 0 ? held : 0
      limit = 'constantVoltage'
    }
    if (current * (open + ohm * current) > this.mostGiven) {
      current = currentInto(open, ohm, this.mostGiven)
      limit = 'converterOutput'
    }
    into.current = current
    into.limit = limit
  }

  /** Fills in what follows from the current into the bike's pack. */
  private settle(into: Moment): void {
    const { current, sourceOpen } = into
    const sourceOhm = into.sourceResistance + this.sourceCable
    into.outputVoltage = into.open + this.outputResistance * current
    into.given = current * into.outputVoltage
    into.drawn = current > 0 ? drawnFor(this.curve, into.given) + this.standby : 0
    into.sourceCurrent = currentAt(sourceOpen, sourceOhm, into.drawn)
    into.inputVoltage = sourceOpen - sourceOhm * into.sourceCurrent
  }

  /** Finds the greatest current that the converter may draw at the source's present voltage. */
  private findMost({ sourceCharge, sourceOpen, sourceResistance: inner }: Moment): void {
    const { source, inputVoltageLeast } = this
    const sourceOhm = inner + this.sourceCable
    let most = this.inputCurrent
    this.mostLimit = this.inputLimit
    this.falling = false
    const spare = sourceOpen - source.cutOffVoltage
    if (spare < most * inner) {
      most = spare / inner
      this.falling = true
      this.mostLimit = most < this.emptyCurrent ? 'sourceEmpty' : 'sourceLimit'
    }
    if (sourceOpen - most * sourceOhm < inputVoltageLeast) {
      most = (sourceOpen - inputVoltageLeast) / sourceOhm
      this.falling = true
      this.mostLimit = 'outOfRange'
    }
    // Beyond half the voltage more current is less power.
    if (most * sourceOhm > 0.5 * sourceOpen) {
      most = (0.5 * sourceOpen) / sourceOhm
      this.mostLimit = 'sourceLimit'
    }
    if (sourceCharge <= source.floor) {
      most = 0
      this.mostLimit = 'sourceEmpty'
    }
    this.most = most > 0 ? most : 0
  }

  /** Lets only the current through for which that greatest one is drawn; nothing where the charge is done. */
  private limitInput(into: Moment): void {
    const { most } = this
    const sourceOhm = into.sourceResistance + this.sourceCable
    const drawn = most * (into.sourceOpen - most * sourceOhm)
    const left = drawn - this.standby
    const done = left <= 0 || (this.falling && most < this.emptyCurrent)
    into.current = done ? 0 : currentInto(into.open, this.outputResistance, givenFor(this.curve, left))
    into.limit = this.mostLimit
    into.outputVoltage = into.open + this.outputResistance * into.current
    into.given = into.current * into.outputVoltage
    into.drawn = done ? 0 : drawn
    into.sourceCurrent = done ? 0 : most
    into.inputVoltage = into.sourceOpen - sourceOhm * into.sourceCurrent
  }

  /**
   * What the kind of converter does to a current. A step-down whose output would come too close to its input lets less current through; a step-up
   * whose input is too high, and any converter below its least output voltage, cannot hold the current at all, so nothing is charged.
   */
  private keepInRange(into: Moment): void {
    const { kind, headroom, outputVoltageLeast } = this.converter
    const above = into.inputVoltage - into.outputVoltage
    const bare = kind === 'step-down' && above < headroom
    if (bare) {
      this.dropOut(into, headroom)
      into.limit = 'outOfRange'
    }
    const stuck = bare && into.current < Math.min(this.endCurrent, this.steadyCurrent)
    if (stuck || (kind === 'step-up' && above > -headroom) || into.outputVoltage < outputVoltageLeast) {
      into.current = 0
      into.limit = 'outOfRange'
      this.settle(into)
    }
  }

  /** Lowers a current that is too much to that at which a step-down's output is its headroom below its input: regula falsi (Illinois). */
  private dropOut(into: Moment, headroom: number): void {
    let low = 0
    let below = into.sourceOpen - into.open - headroom
    let high = into.current
    let above = into.inputVoltage - into.outputVoltage - headroom
    let side = 0
    for (let k = 0; k < 60 && below > 0 && high - low > 1e-13 * high; k++) {
      into.current = (low * above - high * below) / (above - below)
      this.settle(into)
      const room = into.inputVoltage - into.outputVoltage - headroom
      if (Math.abs(room) < 1e-12) return
      if (room > 0) {
        low = into.current
        below = room
        if (side === 1) above /= 2
        side = 1
      } else {
        high = into.current
        above = room
        if (side === -1) below /= 2
        side = -1
      }
    }
    into.current = low
    this.settle(into)
  }
}
