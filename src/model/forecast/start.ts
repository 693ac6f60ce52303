import { stationNear } from '../route/nearest'
import { forecast, type Sink } from './forecast'
import type { Prepared } from './prepare'
import { Ride } from './ride'
import type { RideState } from './state'

/** The state of a day's ride at its start, on arrival there. */
export const startState = (prepared: Prepared): RideState => new Ride(prepared).state()

const unwritten: Sink = { arrive: () => undefined, leave: () => undefined, rode: () => undefined }

/**
 * The state of a day's ride as it is planned, on arrival at a place.
 *
 * @param distance ridden, m; taken at the station nearest to it
 */
export const plannedState = (prepared: Prepared, distance: number): RideState =>
  forecast(
    prepared,
    startState(prepared),
    { station: stationNear(prepared.route, distance), leaving: false },
    unwritten,
  )

/** What a rider reads on the way: the clock, s since the start, and the usable energy left in all packs, J. */
export interface Reading {
  time: number
  left: number
}

/**
 * A state made of a reading, to ride on from. What a reading does not tell, such as the speed, how tired the rider is and what carried packs hold, is
 * as planned; where more or less is left than planned, the pack in use makes up for it as far as it can, then the others in turn.
 *
 * @param planned the state on arrival at the place, from `plannedState`
 */
export function stateFrom(prepared: Prepared, planned: RideState, { time, left }: Reading): RideState {
  const ride = new Ride(prepared)
  ride.restore({ ...planned, time, reserveAt: null, emptyAt: null })
  ride.batteries.holdLeft(left)
  return ride.state()
}
