/** One pack as the ride goes on. */
export interface PackLevel {
  /** 0 to 1. */
  charge: number
  /** Energy taken from inside so far, J, and what of it became heat in the resistance. */
  drained: number
  loss: number
}

/**
 * All that a ride is at a station: a plain record of finite numbers and plain arrays, which may be cloned, kept as JSON, and ridden on from to the
 * same bits.
 */
export interface RideState {
  station: number
  /** Whether all that happens at the station is done; else the rider has just arrived. */
  leaving: boolean
  /** Since the start, s; and of it in motion. */
  time: number
  ridingTime: number
  /** m/s; how much it changed in the step before, m/s, and how fast it settled, 1/m, with which the next step is begun. */
  speed: number
  change: number
  settling: number
  /** See `freshnessAfter`; 1 when fresh. */
  freshness: number
  /** Work so far, J. */
  riderWork: number
  motorWork: number
  /** From the packs so far, J: for the motor with its losses, and for electronics and lights. */
  motorEnergy: number
  electronics: number
  packs: PackLevel[]
  /** Index of the pack in use. */
  active: number
  /** Charge of each carried pack, 0 to 1, by the id of its source. */
  sources: Record<string, number>
  /** Ridden distance at which the reserve was passed, and the motor stopped for good, m; null as long as it was not. */
  reserveAt: number | null
  emptyAt: number | null
}
