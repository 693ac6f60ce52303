import type { Prepared } from './prepare'
import { Ride } from './ride'
import type { RideState } from './state'

/** The state of a day's ride at its start, on arrival there. */
export const startState = (prepared: Prepared): RideState => new Ride(prepared).state()
