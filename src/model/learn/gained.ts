import { interpolate } from '../columns'
import type { Outcome } from '../forecast/outcome'
import type { Leg } from '../readings/legs'
import { isInto } from '../readings/wind'
import type { ClockByPlace } from './that-day'

/** Riding time of the plan less that of the ride, up to a place, s. */
export function gainedBy({ route, columns }: Outcome, { distance, riding }: ClockByPlace): (at: number) => number {
  const places = Float64Array.from(distance)
  // Between two of them only the sum is known.
  const gains = places.map((place, k) => interpolate(route.stations.distance, columns.ridingTime, place) - riding[k]!)
  return (at) => interpolate(places, gains, at)
}

/** A leg that rises by so much on the whole is a climb. A choice. */
const climb = 0.02

/** How much slower the plan is than the ride was, s, on legs that climb, on others against the wind, and on the rest. */
export function gainedWhere(
  outcome: Outcome,
  clock: ClockByPlace,
  legs: readonly Leg[],
): { climbs: number; wind: number; other: number } {
  const gained = gainedBy(outcome, clock)
  const sums = { climbs: 0, wind: 0, other: 0 }
  for (const { start, end, meanGradient, wind } of legs) {
    const where = meanGradient >= climb ? 'climbs' : isInto(wind) ? 'wind' : 'other'
    sums[where] += gained(end) - gained(start)
  }
  return sums
}
