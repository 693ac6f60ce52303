import { interpolate } from '../columns'
import type { Outcome } from '../forecast/outcome'
import type { Plan } from '../plan/schema'
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

/** A place at which the plan or the ride stands: ridden distance, m, and for how long then and now, s. */
export interface HaltGained {
  distance: number
  then: number
  now: number
}

/** Halts so near to one another, m, are one halt that was planned a little elsewhere; shorter differences, s, are not worth a word. Choices. */
const onePlace = 2000
const leastDifference = 60

/**
 * Where plan and ride stand for longer or less long, in order of place.
 *
 * @param ridden plan of the day that was ridden, with its halts as stops
 */
export function haltsGained({ halts }: Outcome, ridden: Pick<Plan, 'stops'>): HaltGained[] {
  const all = [
    ...ridden.stops.map(({ distance, duration }) => ({ distance, then: duration, now: 0 })),
    ...halts
      .filter(({ kind }) => kind !== 'crossing')
      .map(({ distance, arrive, depart }) => ({ distance, then: 0, now: depart - arrive })),
  ].sort((a, b) => a.distance - b.distance)
  const places: HaltGained[] = []
  for (const { distance, then, now } of all) {
    const last = places.at(-1)
    if (last === undefined || distance - last.distance > onePlace) places.push({ distance, then, now })
    else {
      last.then += then
      last.now += now
    }
  }
  return places.filter(({ then, now }) => Math.abs(now - then) >= leastDifference)
}
