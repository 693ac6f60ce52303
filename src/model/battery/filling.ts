import type { ChargeGoal } from './charge'
import type { TransferRun } from './transfer-run'

/** A source joined to a pack of the bike, all that stands still worked out: it may charge that pack again and again, from any charge. */
export interface Filling {
  /** After `fill` or `run`: how long it took, s, and the charges of the bike's pack and of the source then, 0 to 1. */
  readonly time: number
  readonly charge: number
  readonly sourceCharge: number
  /**
   * Charges and keeps only where it ends, allocating nothing.
   *
   * @param sourceCharge of the source, 0 to 1: `chargeAfterStorage`, or what an earlier charge left; mains stay at 1
   * @param charge of the bike's pack, 0 to 1
   * @param longest time after which to stop, s; may be Infinity
   * @param until charge at which to stop, 0 to 1
   * @throws RangeError where one is out of range
   */
  fill(sourceCharge: number, charge: number, longest: number, until: number): void
  /**
   * The same with its course: what set the current from when, why it ended, where the energy went.
   *
   * @param goal where to stop short of full; `{}` charges until nothing flows
   * @throws RangeError where a charge or the goal is out of range
   */
  run(sourceCharge: number, charge: number, goal: ChargeGoal): TransferRun
}
