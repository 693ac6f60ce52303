import { chargeAtOpenCircuit } from './chemistry'
import type { ChargeGoal } from './charge'
import { Circuit, type Line } from './circuit'
import { atTarget, Course } from './course'
import type { Filling } from './filling'
import { energyBetween, type Pack } from './pack'
import { transferRefusal } from './refusal'
import { Rows, type TransferColumns, type TransferEnd, type TransferRun } from './transfer-run'

const isShare = (value: number) => value >= 0 && value <= 1

/**
 * A carried pack joined to a bike's through a converter, both sides with their resistances; the source sags under what the converter draws. The
 * current at each moment is the greatest that no limit forbids (`Circuit.solve`). Temperatures stand still.
 *
 * Steps end at the knots of both open-circuit tables, at changes of the limit (to half a second) and at the goal. Losses are summed by the same
 * formula as the charges, apart from the energies stored and drawn, so that the books show the error of the integration.
 */
export class Transfer implements Filling {
  time = 0
  charge = 0
  sourceCharge = 0
  private readonly course: Course
  /** Whether the held voltage fills the bike's pack, and the charge at which it drives the end current. */
  private readonly fills: boolean
  private readonly tapered: number

  /**
   * @param source the carried pack, at its temperature
   * @param pack the bike's pack, at its temperature
   * @throws RangeError where `transferRefusal` finds a reason, with its code
   */
  constructor(
    private readonly source: Pack,
    private readonly line: Line,
    private readonly pack: Pack,
  ) {
    const refusal = transferRefusal(source, line.converter, pack)
    if (refusal !== undefined) throw new RangeError(`Such a transfer is refused: ${refusal.code}.`)
    const { chemistry, series } = pack
    const circuit = new Circuit(source, line, pack)
    this.course = new Course(circuit, source, pack)
    this.fills = circuit.voltage >= series * chemistry.chargeLimitVoltage
    const atEndCurrent = (circuit.voltage - circuit.endCurrent * circuit.outputResistance) / series
    this.tapered = chargeAtOpenCircuit(chemistry, atEndCurrent)
  }

  fill(sourceCharge: number, charge: number, longest: number, until: number): void {
    this.go(sourceCharge, charge, longest, until, Infinity)
  }

  run(sourceCharge: number, charge: number, goal: ChargeGoal): TransferRun {
    return this.report(sourceCharge, charge, goal, Infinity)
  }

  /**
   * The same with a row for each step on the way.
   *
   * @param every greatest time between two rows, s
   */
  trace(
    sourceCharge: number,
    charge: number,
    goal: ChargeGoal,
    every: number,
  ): { run: TransferRun; columns: TransferColumns } {
    if (!(every > 0)) throw new RangeError('The time between two rows must be above 0.')
    const rows = new Rows(this.pack)
    return { run: this.report(sourceCharge, charge, goal, every, rows), columns: rows.columns() }
  }

  /**
   * Goes on until something ends it.
   *
   * @param every greatest step, s
   * @param phases what set the current until when, added to
   * @returns why it ended
   */
  private go(
    sourceCharge: number,
    charge: number,
    longest: number,
    until: number,
    every: number,
    phases?: TransferRun['phases'],
    rows?: Rows,
  ): TransferEnd {
    const { course, tapered } = this
    if (!(isShare(charge) && isShare(sourceCharge) && isShare(until))) throw new RangeError('Charges must be 0 to 1.')
    if (!(longest >= 0)) throw new RangeError('The time to charge for must not be negative.')
    course.begin(sourceCharge, charge, longest, every)
    rows?.add(0, course.now, charge, sourceCharge)
    let end = this.ended(longest, until)
    while (end === undefined) {
      const { limit } = course.now
      const changed = course.step(course.charge < tapered ? Math.min(until, tapered) : until)
      rows?.add(course.time, course.now, course.charge, course.sourceCharge)
      end = this.ended(longest, until)
      if (changed || end !== undefined) phases?.push({ limit, until: course.time })
    }
    this.time = course.time
    this.charge = course.charge
    this.sourceCharge = course.sourceCharge
    return end
  }

  private ended(longest: number, until: number): TransferEnd | undefined {
    const { time, charge, now } = this.course
    if (until < 1 && charge >= until - atTarget) return 'until'
    if (charge >= 1 - atTarget) return 'full'
    if (now.limit === 'constantVoltage' && charge >= this.tapered - atTarget)
      return this.fills ? 'full' : 'chargerVoltage'
    if (now.current === 0) return now.limit === 'outOfRange' ? now.limit : 'sourceEmpty'
    return time >= longest ? 'time' : undefined
  }

  private report(sourceCharge: number, charge: number, goal: ChargeGoal, every: number, rows?: Rows): TransferRun {
    const { source, pack, line, course } = this
    const { time: longest = Infinity, charge: until = 1 } = goal
    const phases: TransferRun['phases'] = []
    const end = this.go(sourceCharge, charge, longest, until, every, phases, rows)
    const { time, squared, sourceSquared } = course
    const stored = energyBetween(pack, charge, course.charge)
    const coulombic = stored / pack.chemistry.coulombicEfficiency - stored
    const packLoss = pack.chargeResistance * squared
    const standby = line.converter.standby * time
    return {
      time,
      charge: course.charge,
      sourceCharge: course.sourceCharge,
      stored,
      delivered: stored + coulombic + packLoss,
      drawn: energyBetween(source, course.sourceCharge, sourceCharge),
      losses: {
        source: course.sourceLoss,
        sourceCable: line.sourceCable * sourceSquared,
        converter: course.inConverter - standby,
        standby,
        outputCable: line.outputCable * squared,
        pack: packLoss,
        coulombic,
      },
      phases,
      end,
    }
  }
}
