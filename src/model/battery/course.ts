import { Moment, type Circuit } from './circuit'
import type { Pack } from './pack'

/** Error of a step in the charge of either pack, 0 to 1, that is let pass. */
const stepError = 1e-7

/** A change of the limit is placed to this, s. No step is cut shorter for its error. */
const shortest = 0.5

/**
 * Greatest change of the current within a step, share. The error formula is blind to a decay over exactly its own time constant, and that is just
 * how long the last knot seems away when the voltage is held.
 */
const mostChange = 0.25

/** Targets in charge are met to this. */
export const atTarget = 1e-12

/**
 * A transfer on its way: both charges, integrated in steps by Bogacki and Shampine's pair of second and third order. It makes no objects on the way.
 *
 * @see Bogacki and Shampine 1989, Appl. Math. Lett. 2:321-325
 */
export class Course {
  /** From the start, s, and charges of the two packs now, 0 to 1. */
  time = 0
  charge = 0
  sourceCharge = 0
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
  /** Length of the step being tried, s. */
  private length = 0
  /** Next step by the error of the last, s, and a time by which the limit is known to change. */
  private suggested = Infinity
  private changeBy = Infinity
  /** Time not to be passed and greatest step, s. */
  private endTime = Infinity
  private greatest = Infinity
  private readonly perCoulomb: number
  private readonly perSourceCoulomb: number

  constructor(
    private readonly circuit: Circuit,
    private readonly source: Pack,
    pack: Pack,
  ) {
    this.perCoulomb = pack.chemistry.coulombicEfficiency / pack.capacity
    this.perSourceCoulomb = -1 / source.capacity
  }

  /**
   * Begins anew.
   *
   * @param sourceCharge 0 to 1
   * @param charge 0 to 1
   * @param endTime time not to be passed, s
   * @param greatest step, s
   */
  begin(sourceCharge: number, charge: number, endTime: number, greatest: number): void {
    this.time = 0
    this.charge = charge
    this.sourceCharge = sourceCharge
    this.endTime = endTime
    this.greatest = greatest
    this.sourceLoss = 0
    this.sourceSquared = 0
    this.squared = 0
    this.inConverter = 0
    this.suggested = Infinity
    this.changeBy = Infinity
    this.now.charge = charge
    this.now.sourceCharge = sourceCharge
    this.circuit.solve(this.now)
  }

  /**
   * Advances by one step.
   *
   * @param target charge of the bike's pack not to be passed, above the present one
   * @returns whether another limit binds after it
   */
  step(target: number): boolean {
    const { circuit, source, now, next, endTime } = this
    const knot = circuit.side.timeToKnot(this.charge, this.perCoulomb * now.current)
    const sourceKnot = circuit.sourceSide.timeToKnot(this.sourceCharge, this.perSourceCoulomb * now.sourceCurrent)
    const half = Math.max((this.changeBy - this.time) / 2, shortest)
    this.length = Math.min(endTime - this.time, this.greatest, knot, sourceKnot, half, this.suggested)
    while (!this.stands(target));
    this.count()
    this.time = this.length === endTime - this.time ? endTime : this.time + this.length
    this.charge = next.charge > target ? target : next.charge
    this.sourceCharge = next.sourceCharge > source.floor ? next.sourceCharge : source.floor
    const changed = next.limit !== now.limit
    if (changed) this.suggested = Infinity
    if (changed || this.time >= this.changeBy) this.changeBy = Infinity
    this.now = next
    this.next = now
    return changed
  }

  /** Tries a step of `length`; where it must not stand, `length` is shorter after. */
  private stands(target: number): boolean {
    const { circuit, source, now, middle, late, next, charge, sourceCharge, length, perCoulomb, perSourceCoulomb } =
      this
    middle.charge = charge + 0.5 * length * perCoulomb * now.current
    middle.sourceCharge = sourceCharge + 0.5 * length * perSourceCoulomb * now.sourceCurrent
    circuit.solve(middle)
    late.charge = charge + 0.75 * length * perCoulomb * middle.current
    late.sourceCharge = sourceCharge + 0.75 * length * perSourceCoulomb * middle.sourceCurrent
    circuit.solve(late)
    next.charge = charge + length * perCoulomb * mean(now.current, middle.current, late.current)
    next.sourceCharge =
      sourceCharge + length * perSourceCoulomb * mean(now.sourceCurrent, middle.sourceCurrent, late.sourceCurrent)
    if (next.charge > target + atTarget) {
      this.length *= (target - charge) / (next.charge - charge)
      return false
    }
    if (next.sourceCharge < source.floor - atTarget) {
      this.length *= (sourceCharge - source.floor) / (sourceCharge - next.sourceCharge)
      return false
    }
    circuit.solve(next)
    if (length <= shortest) return true
    const changed = next.limit !== now.limit
    if (changed) this.changeBy = this.time + length
    if (changed || Math.abs(next.current - now.current) > mostChange * now.current) {
      this.length = Math.max(length / 2, shortest)
      return false
    }
    return this.isExact()
  }

  /** Whether the error of the step tried may pass; where not, `length` is shorter after. */
  private isExact(): boolean {
    const { now, middle, late, next, length } = this
    const off = difference(now.current, middle.current, late.current, next.current)
    const sourceOff = difference(now.sourceCurrent, middle.sourceCurrent, late.sourceCurrent, next.sourceCurrent)
    const error = length * Math.max(Math.abs(this.perCoulomb * off), Math.abs(this.perSourceCoulomb * sourceOff))
    const factor = 0.9 * Math.cbrt(stepError / error)
    this.suggested = length * Math.min(5, factor)
    if (error <= stepError) return true
    this.length = Math.max(length * Math.max(0.2, factor), shortest)
    return false
  }

  /** Adds up what the step lost. */
  private count(): void {
    const { now, middle, late, length } = this
    const first = (2 / 9) * length
    const second = (1 / 3) * length
    const third = (4 / 9) * length
    const square = first * now.sourceCurrent ** 2
    const middleSquare = second * middle.sourceCurrent ** 2
    const lateSquare = third * late.sourceCurrent ** 2
    this.sourceLoss +=
      now.sourceResistance * square + middle.sourceResistance * middleSquare + late.sourceResistance * lateSquare
    this.sourceSquared += square + middleSquare + lateSquare
    this.squared += first * now.current ** 2 + second * middle.current ** 2 + third * late.current ** 2
    this.inConverter +=
      first * (now.drawn - now.given) + second * (middle.drawn - middle.given) + third * (late.drawn - late.given)
  }
}

/** Mean over a step by its third-order formula, from the values at its beginning, middle and three quarters. */
function mean(now: number, middle: number, late: number): number {
  return (2 / 9) * now + (1 / 3) * middle + (4 / 9) * late
}

/** That mean less the one by the second-order formula. */
function difference(now: number, middle: number, late: number, next: number): number {
  return (-5 / 72) * now + (1 / 12) * middle + (1 / 9) * late - (1 / 8) * next
}
