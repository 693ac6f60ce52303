import { Ride } from '../forecast/ride'
import { prepare } from '../forecast/prepare'
import { plannedState, stateFrom, type Reading } from '../forecast/start'
import { Tally } from '../forecast/tally'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'

/** The rest of a day from what was read on the way. */
export interface RestOfDay {
  /** What the plan has there: on arrival, s since the start, and usable energy in all packs, J. */
  planned: Reading
  /** Finish, s since the start, with what is done there; and of the rest in motion. */
  finish: number
  ridingTime: number
  /** Usable energy at the finish, J, and of all packs when full; the reserve. */
  left: number
  usable: number
  reserve: number
  /** Ridden distance at which the charge falls below the reserve, and at which the motor stops for good, m; undefined if it does not. */
  reserveAt: number | undefined
  emptyAt: number | undefined
}

const nowhere = new Float64Array()

/**
 * Rides the rest of the day from a reading, by the plan.
 *
 * @param route at least two stations
 * @param plan valid
 * @param distance ridden, m
 * @param read what was read, given what the plan has there and the usable energy of all packs when full, J
 */
export function restOfDay(
  route: Route,
  plan: Plan,
  distance: number,
  read: (planned: Reading & { usable: number }) => Reading,
): RestOfDay {
  const prepared = prepare(route, plan)
  const { usable } = prepared
  const state = plannedState(prepared, distance)
  const ride = new Ride(prepared)
  ride.restore(state)
  const planned = { time: state.time, left: ride.batteries.left() }
  const from = stateFrom(prepared, state, read({ ...planned, usable }))
  const tally = new Tally([], nowhere, nowhere, nowhere)
  tally.run(prepared, ride, from)
  return {
    planned,
    finish: tally.time,
    ridingTime: tally.ridingTime - from.ridingTime,
    left: tally.left,
    usable,
    reserve: plan.battery.reserve * usable,
    reserveAt: ride.reserveAt ?? undefined,
    emptyAt: ride.emptyAt ?? undefined,
  }
}
