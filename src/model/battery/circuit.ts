import { acceptedCurrent, endCurrent } from './charge'
import { drawnFor, givenFor, powerCurve, ratedPower, type Converter, type PowerCurve } from './converter'
import { currentAt, openCircuit, resistance, type Pack } from './pack'

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
  | 'set current'
  | 'converter output'
  | 'converter input'
  | 'source limit'
  | 'source empty'
  | 'pack current'
  | 'cold'
  | 'constant voltage'
  | 'converter out of range'

/** One moment of a transfer, written over by `Circuit.solve`. */
export class Moment {
  limit: TransferLimit = 'set current'
  /** Into the bike's pack, A. 0: nothing flows any more, and nothing is drawn. */
  current = 0
  /** Out of the carried pack, A. */
  sourceCurrent = 0
  /** Resistance of the carried pack, ohm. */
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

/** Fills in currents, voltages and powers. */
function fill(
  into: Moment,
  current: number,
  outputVoltage: number,
  drawn: number,
  sourceCurrent: number,
  sourceOpen: number,
  sourceOhm: number,
): void {
  into.current = current
  into.outputVoltage = outputVoltage
  into.given = current * outputVoltage
  into.drawn = drawn
  into.sourceCurrent = sourceCurrent
  into.inputVoltage = sourceOpen - sourceOhm * sourceCurrent
}

/** Carried pack, cable, converter, cable and the bike's pack: what flows for given charges of the two. Everything that stands still is worked out once. */
export class Circuit {
  /** Voltage that the converter holds at the most, V: as set, never above the pack's full voltage. */
  readonly voltage: number
  /** From the converter's output to the cells of the bike's pack, ohm. */
  readonly outputResistance: number
  /** Charging is done when the held voltage drives less than this, A. */
  readonly endCurrent: number
  private readonly curve: PowerCurve
  private readonly steadyCurrent: number
  private readonly steadyLimit: TransferLimit
  private readonly mostGiven: number
  private readonly inputCurrent: number
  private readonly inputLimit: TransferLimit
  private readonly emptyCurrent: number
  /** Resistance of the carried pack above the charge from which it no longer changes, ohm. */
  private readonly steadyInner: number
  /** By `limitInput`: the greatest input current, A, what sets it, and whether that is a lowest voltage, which it nears ever more slowly. */
  private most = 0
  private mostLimit: TransferLimit = 'converter input'
  private falling = false

  constructor(
    private readonly source: Pack,
    private readonly line: Line,
    private readonly pack: Pack,
  ) {
    const { converter } = line
    this.steadyInner = resistance(source, 1)
    this.voltage = Math.min(converter.voltage, pack.series * pack.chemistry.chargeLimitVoltage)
    this.outputResistance = pack.chargeResistance + line.outputCable
    this.endCurrent = endCurrent(pack)
    this.curve = powerCurve(converter, source.series * source.chemistry.nominalVoltage)
    const accepted = acceptedCurrent(pack)
    this.steadyCurrent = Math.min(converter.current, converter.outputCurrent, accepted.current)
    this.steadyLimit =
      this.steadyCurrent === converter.current
        ? 'set current'
        : this.steadyCurrent === converter.outputCurrent
          ? 'converter output'
          : accepted.limit
    this.mostGiven = ratedPower(converter)
    this.inputCurrent = Math.min(converter.inputCurrent, source.dischargeCurrent)
    this.inputLimit = this.inputCurrent === converter.inputCurrent ? 'converter input' : 'source limit'
    this.emptyCurrent = emptyRate * source.spec.capacityAh
  }

  /**
   * Currents, voltages and the binding limit at a moment: the greatest current into the bike's pack that no limit forbids.
   *
   * The source's own lowest voltage is respected by less current, as a rider does who turns the converter down; a protection board that opens
   * instead ends the charge somewhat sooner.
   *
   * @param into written over
   * @param charge of the bike's pack, 0 to 1
   * @param sourceCharge of the carried pack, 0 to 1
   */
  solve(into: Moment, charge: number, sourceCharge: number): void {
    const { curve, source, outputResistance: ohm } = this
    const { converter, sourceCable } = this.line
    const open = openCircuit(this.pack, charge)
    const sourceOpen = openCircuit(source, sourceCharge)
    const steady = sourceCharge >= source.chemistry.lowChargeAbove
    const inner = steady ? this.steadyInner : resistance(source, sourceCharge)
    const sourceOhm = inner + sourceCable
    into.sourceResistance = inner

    let current = this.steadyCurrent
    let limit = this.steadyLimit
    const held = (this.voltage - open) / ohm
    if (held < current) {
      current = held > 0 ? held : 0
      limit = 'constant voltage'
    }
    if (current * (open + ohm * current) > this.mostGiven) {
      current = currentInto(open, ohm, this.mostGiven)
      limit = 'converter output'
    }

    this.limitInput(sourceCharge, sourceOpen, inner, sourceOhm)
    const { most } = this
    const mostDrawn = most * (sourceOpen - most * sourceOhm)
    let drawn = current > 0 ? drawnFor(curve, current * (open + ohm * current)) + converter.standby : 0
    if (drawn > mostDrawn) {
      const left = mostDrawn - converter.standby
      const done = left <= 0 || (this.falling && most < this.emptyCurrent)
      current = done ? 0 : currentInto(open, ohm, givenFor(curve, left))
      drawn = done ? 0 : mostDrawn
      limit = this.mostLimit
      fill(into, current, open + ohm * current, drawn, done ? 0 : most, sourceOpen, sourceOhm)
    } else {
      fill(into, current, open + ohm * current, drawn, currentAt(sourceOpen, sourceOhm, drawn), sourceOpen, sourceOhm)
    }
    into.limit = limit
    if (current > 0) this.keepInRange(into, open, sourceOpen, sourceOhm)
  }

  /** Finds the greatest current that the converter may draw at the source's present voltage. */
  private limitInput(sourceCharge: number, sourceOpen: number, inner: number, sourceOhm: number): void {
    const { source } = this
    const { inputVoltageLeast } = this.line.converter
    let most = this.inputCurrent
    this.mostLimit = this.inputLimit
    this.falling = false
    const spare = sourceOpen - source.cutOffVoltage
    if (spare < most * inner) {
      most = spare / inner
      this.falling = true
      this.mostLimit = most < this.emptyCurrent ? 'source empty' : 'source limit'
    }
    if (sourceOpen - most * sourceOhm < inputVoltageLeast) {
      most = (sourceOpen - inputVoltageLeast) / sourceOhm
      this.falling = true
      this.mostLimit = 'converter out of range'
    }
    // Beyond half the voltage more current is less power.
    if (most * sourceOhm > 0.5 * sourceOpen) {
      most = (0.5 * sourceOpen) / sourceOhm
      this.mostLimit = 'source limit'
    }
    if (sourceCharge <= source.floor) {
      most = 0
      this.mostLimit = 'source empty'
    }
    this.most = most > 0 ? most : 0
  }

  /** Fills in what follows from a current into the bike's pack. */
  private settle(into: Moment, current: number, open: number, sourceOpen: number, sourceOhm: number): void {
    const outputVoltage = open + this.outputResistance * current
    const drawn = current > 0 ? drawnFor(this.curve, current * outputVoltage) + this.line.converter.standby : 0
    fill(into, current, outputVoltage, drawn, currentAt(sourceOpen, sourceOhm, drawn), sourceOpen, sourceOhm)
  }

  /**
   * What the kind of converter does to a current. A step-down whose output would come too close to its input lets less current through; a step-up
   * whose input is too high, and any converter below its least output voltage, cannot hold the current at all, so nothing is charged.
   */
  private keepInRange(into: Moment, open: number, sourceOpen: number, sourceOhm: number): void {
    const { kind, headroom, outputVoltageLeast } = this.line.converter
    const above = into.inputVoltage - into.outputVoltage
    const bare = kind === 'step-down' && above < headroom
    if (bare) {
      this.settle(into, this.dropOut(into, open, sourceOpen, sourceOhm), open, sourceOpen, sourceOhm)
      into.limit = 'converter out of range'
    }
    const stuck = bare && into.current < Math.min(this.endCurrent, this.steadyCurrent)
    if (stuck || (kind === 'step-up' && above > -headroom) || into.outputVoltage < outputVoltageLeast) {
      this.settle(into, 0, open, sourceOpen, sourceOhm)
      into.limit = 'converter out of range'
    }
  }

  /** Current at which a step-down's output is its headroom below its input, A, between 0 and the one that is too much: regula falsi (Illinois). */
  private dropOut(into: Moment, open: number, sourceOpen: number, sourceOhm: number): number {
    const { headroom } = this.line.converter
    let low = 0
    let below = sourceOpen - open - headroom
    if (below <= 0) return 0
    let high = into.current
    let above = into.inputVoltage - into.outputVoltage - headroom
    let side = 0
    for (let k = 0; k < 60 && high - low > 1e-13 * high; k++) {
      const middle = (low * above - high * below) / (above - below)
      this.settle(into, middle, open, sourceOpen, sourceOhm)
      const room = into.inputVoltage - into.outputVoltage - headroom
      if (Math.abs(room) < 1e-12) return middle
      if (room > 0) {
        low = middle
        below = room
        if (side === 1) above /= 2
        side = 1
      } else {
        high = middle
        above = room
        if (side === -1) below /= 2
        side = -1
      }
    }
    return low
  }
}
