import { stationNear } from '../route/nearest'
import type { Prepared } from './prepare'
import { Ride } from './ride'
import type { RideState } from './state'

/** The state of a day's ride at its start, on arrival there. */
export const startState = (prepared: Prepared): RideState => new Ride(prepared).state()

/** A place on the way, as the rider reads it from clock and display. */
export interface Reading {
  /** Ridden distance, m; taken at the nearest station. */
  distance: number
  /** Since the start, s, and of it in motion. */
  time: number
  ridingTime: number
  /** Charge of each pack, 0 to 1, and index of the one in use. */
  charges: readonly number[]
  active: number
}

/**
 * A state on the way: standing at a place, with all that happens there still to come.
 *
 * @param tiredness see `tirednessAfter`
 * @throws RangeError where there is not one charge for each pack
 */
export function stateAt(prepared: Prepared, reading: Reading, tiredness: number): RideState {
  const { distance, time, ridingTime, charges, active } = reading
  const start = startState(prepared)
  if (charges.length !== start.packs.length) throw new RangeError('One charge is needed for each pack.')
  return {
    ...start,
    station: stationNear(prepared.route, distance),
    time,
    ridingTime,
    tiredness,
    packs: start.packs.map((pack, k) => ({ ...pack, charge: charges[k]! })),
    active,
  }
}
