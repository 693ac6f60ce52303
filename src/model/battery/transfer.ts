import { chargeAtOpenCircuit } from './chemistry'
import type { ChargeGoal } from './charge'
import { Circuit, Moment, type Line } from './circuit'
import { energyBetween, type Pack } from './pack'
import { refusal } from './refusal'
import { Rows, type TransferEnd, type TransferRun } from './transfer-run'

/** Error of a step in the charge of either pack, 0 to 1, that is let pass. */
const stepError = 1e-7

/** A change of the limit is placed to this, s. No step is cut shorter for its error. */
const shortest = 0.5

/**
 * Greatest change of the current within a step, share. The error formula is blind to a decay over exactly its own time constant, and that is just
 * how long the last knot seems away when the voltage is held.
 */
const mostChange = 0.25

/** A knot of an open-circuit table that is closer than this share of charge is stepped over. */
const atKnot = 5e-4

/** Targets in charge are met to this. */
const atTarget = 1e-12

/** Time until a pack's charge rises, or falls, at a rate, 1/s, to the next knot of its open-circuit table, s. */
function timeToKnot(pack: Pack, charge: number, rate: number): number {
  const { charge: knots, start } = pack.chemistry.openCircuit
  const last = knots.length - 1
  let k = start[(charge * 100) | 0]!
  if (rate >= 0) {
    while (k < last && knots[k]! < charge + atKnot) k++
    return Math.max(knots[k]! - charge, atKnot) / rate
  }
  while (k < last && knots[k + 1]! < charge) k++
  while (k > 0 && knots[k]! > charge - atKnot) k--
  return Math.max(charge - knots[k]!, atKnot) / -rate
}

/**
 * A transfer on its way: both charges, integrated in steps by Bogacki and Shampine's pair of second and third order.
 *
 * @see Bogacki and Shampine 1989, Appl. Math. Lett. 2:321-325
 */
class Course {
  time = 0
  /** Now; the other moments are those of the step being tried. */
  now = new Moment()
  /** ∫ R I² dt in the source's cells and wiring, J, and ∫ I² dt on either side, A² s. */
  sourceLoss = 0
  sourceSquared = 0
  squared = 0
  /** ∫ (drawn − given) dt, J. */
  inConverter = 0
  private middle = new Moment()
  private late = new Moment()
  private next = new Moment()
  /** Next step by the error of the last, s, and a time by which the limit is known to change. */
  private suggested = Infinity
  private changeBy = Infinity
  private readonly perCoulomb: number
  private readonly perSourceCoulomb: number

  constructor(
    private readonly circuit: Circuit,
    private readonly source: Pack,
    private readonly pack: Pack,
    public sourceCharge: number,
    public charge: number,
  ) {
    this.perCoulomb = pack.chemistry.coulombicEfficiency / pack.capacity
    this.perSourceCoulomb = -1 / source.capacity
    circuit.solve(this.now, charge, sourceCharge)
  }

  /**
   * Advances by one step.
   *
   * @param target charge of the bike's pack not to be passed, above the present one
   * @param endTime time not to be passed, s
   * @param every greatest step, s
   * @returns whether another limit binds after it
   */
  step(target: number, endTime: number, every: number): boolean {
    const { circuit, source, pack, now, middle, late, next, charge, sourceCharge } = this
    const rate = this.perCoulomb * now.current
    const sourceRate = this.perSourceCoulomb * now.sourceCurrent
    const knot = Math.min(timeToKnot(pack, charge, rate), timeToKnot(source, sourceCharge, sourceRate))
    const half = Math.max((this.changeBy - this.time) / 2, shortest)
    let step = Math.min(endTime - this.time, every, knot, half, this.suggested)
    let after: number
    let sourceAfter: number
    for (;;) {
      circuit.solve(middle, charge + 0.5 * step * rate, sourceCharge + 0.5 * step * sourceRate)
      const lateRate = this.perCoulomb * middle.current
      const lateSourceRate = this.perSourceCoulomb * middle.sourceCurrent
      circuit.solve(late, charge + 0.75 * step * lateRate, sourceCharge + 0.75 * step * lateSourceRate)
      after = charge + step * this.perCoulomb * mean(now.current, middle.current, late.current)
      const sourceMean = mean(now.sourceCurrent, middle.sourceCurrent, late.sourceCurrent)
      sourceAfter = sourceCharge + step * this.perSourceCoulomb * sourceMean
      if (after > target + atTarget) {
        step *= (target - charge) / (after - charge)
        continue
      }
      if (sourceAfter < source.floor - atTarget) {
        step *= (sourceCharge - source.floor) / (sourceCharge - sourceAfter)
        continue
      }
      circuit.solve(next, after, sourceAfter)
      if (step <= shortest) break
      if (next.limit !== now.limit) {
        this.changeBy = this.time + step
        step = Math.max(step / 2, shortest)
        continue
      }
      if (Math.abs(next.current - now.current) > mostChange * now.current) {
        step = Math.max(step / 2, shortest)
        continue
      }
      const error =
        step *
        Math.max(
          Math.abs(this.perCoulomb * off(now.current, middle.current, late.current, next.current)),
          Math.abs(
            this.perSourceCoulomb *
              off(now.sourceCurrent, middle.sourceCurrent, late.sourceCurrent, next.sourceCurrent),
          ),
        )
      const factor = 0.9 * Math.cbrt(stepError / error)
      this.suggested = step * Math.min(5, factor)
      if (error <= stepError) break
      step = Math.max(step * Math.max(0.2, factor), shortest)
    }

    this.count(now, (2 / 9) * step)
    this.count(middle, (1 / 3) * step)
    this.count(late, (4 / 9) * step)
    this.time = step === endTime - this.time ? endTime : this.time + step
    this.charge = after > target ? target : after
    this.sourceCharge = sourceAfter > source.floor ? sourceAfter : source.floor
    const changed = next.limit !== now.limit
    if (changed) this.suggested = Infinity
    if (changed || this.time >= this.changeBy) this.changeBy = Infinity
    this.now = next
    this.next = now
    return changed
  }

  private count(moment: Moment, time: number): void {
    const { current, sourceCurrent } = moment
    const square = sourceCurrent * sourceCurrent * time
    this.sourceLoss += moment.sourceResistance * square
    this.sourceSquared += square
    this.squared += current * current * time
    this.inConverter += (moment.drawn - moment.given) * time
  }
}

/** Mean over a step by its third-order formula, from the values at its beginning, middle and three quarters. */
function mean(now: number, middle: number, late: number): number {
  return (2 / 9) * now + (1 / 3) * middle + (4 / 9) * late
}

/** That mean less the one by the second-order formula. */
function off(now: number, middle: number, late: number, next: number): number {
  return (-5 / 72) * now + (1 / 12) * middle + (1 / 9) * late - (1 / 8) * next
}

/**
 * Charges a bike's pack from a carried pack through a converter, in time, both sides with their resistances; the source sags under what the
 * converter draws. The current at each moment is the greatest that no limit forbids (`Circuit.solve`). Temperatures stand still.
 *
 * Steps end at the knots of both open-circuit tables, at changes of the limit (to half a second) and at the goal. Losses are summed by the same
 * formula as the charges, apart from the energies stored and drawn, so that the books show the error of the integration.
 *
 * @param source the carried pack, at its temperature
 * @param sourceCharge 0 to 1
 * @param pack the bike's pack, at its temperature
 * @param charge 0 to 1
 * @param goal where to stop short of full; `{}` charges until nothing flows
 * @param every greatest time between two rows of `columns`, s; none are made where it is not given
 * @throws RangeError where `refusal` refuses, with its sentence, or where a charge or the goal is out of range
 */
export function transfer(
  source: Pack,
  sourceCharge: number,
  line: Line,
  pack: Pack,
  charge: number,
  goal: ChargeGoal,
  every?: number,
): TransferRun {
  const fault = refusal(source, line.converter, pack)
  if (fault !== undefined) throw new RangeError(fault)
  const { time: endTime = Infinity, charge: until = 1 } = goal
  for (const share of [charge, sourceCharge, until]) {
    if (!(share >= 0 && share <= 1)) throw new RangeError('Charges must be 0 to 1.')
  }
  if (!(endTime >= 0)) throw new RangeError('The time to charge for must not be negative.')
  if (every !== undefined && !(every > 0)) throw new RangeError('The time between two rows must be above 0.')

  const { chemistry, series } = pack
  const circuit = new Circuit(source, line, pack)
  const course = new Course(circuit, source, pack, sourceCharge, charge)
  const fills = circuit.voltage >= series * chemistry.chargeLimitVoltage
  /** Charge at which the held voltage drives the end current. */
  const atEndCurrent = (circuit.voltage - circuit.endCurrent * circuit.outputResistance) / series
  const tapered = chargeAtOpenCircuit(chemistry, atEndCurrent)
  const ended = (): TransferEnd | undefined => {
    const { limit, current } = course.now
    if (until < 1 && course.charge >= until - atTarget) return 'until'
    if (course.charge >= 1 - atTarget) return 'full'
    if (limit === 'constant voltage' && course.charge >= tapered - atTarget) return fills ? 'full' : 'charger voltage'
    if (current === 0) return limit === 'converter out of range' ? limit : 'source empty'
    return course.time >= endTime ? 'time' : undefined
  }

  const rows = every === undefined ? undefined : new Rows(pack)
  const addRow = () => rows?.add(course.time, course.now, course.now.limit, course.charge, course.sourceCharge)
  const phases: TransferRun['phases'] = []
  let end = ended()
  addRow()
  while (end === undefined) {
    const { limit } = course.now
    const target = course.charge < tapered ? Math.min(until, tapered) : until
    const changed = course.step(target, endTime, every ?? Infinity)
    addRow()
    end = ended()
    if (changed || end !== undefined) phases.push({ limit, until: course.time })
  }

  const { time, charge: after, sourceCharge: sourceAfter, squared, sourceSquared } = course
  const stored = energyBetween(pack, charge, after)
  const coulombic = stored / chemistry.coulombicEfficiency - stored
  const packLoss = pack.chargeResistance * squared
  const standby = line.converter.standby * time
  return {
    time,
    charge: after,
    sourceCharge: sourceAfter,
    stored,
    delivered: stored + coulombic + packLoss,
    drawn: energyBetween(source, sourceAfter, sourceCharge),
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
    ...(rows && { columns: rows.columns() }),
  }
}
