import { interpolate } from '../columns'
import type { Outcome } from '../forecast/outcome'
import type { Plan } from '../plan/schema'
import { isInto, windBetween } from '../readings/wind'
import { stationNear } from '../route/nearest'
import type { ClockByPlace } from './that-day'

/** Riding time of the plan less that of the ride, up to a place, s. */
export function gainedBy({ route, columns }: Outcome, { distance, riding }: ClockByPlace): (at: number) => number {
  const places = Float64Array.from(distance)
  // Between two of them only the sum is known.
  const gains = places.map((place, k) => interpolate(route.stations.distance, columns.ridingTime, place) - riding[k]!)
  return (at) => interpolate(places, gains, at)
}

/** A kilometre that rises by so much on the whole is a climb. A choice. */
const climb = 0.02

/** How much slower the plan is than the ride was, s, on kilometres that climb, on others against the wind, and on the rest. */
export function gainedWhere(outcome: Outcome, clock: ClockByPlace): { climbs: number; wind: number; other: number } {
  const { elevation, distance } = outcome.route.stations
  const gained = gainedBy(outcome, clock)
  const wind = windBetween(outcome)
  const sums = { climbs: 0, wind: 0, other: 0 }
  for (let k = 0; k + 1 < clock.distance.length; k++) {
    const [from, to] = [clock.distance[k]!, clock.distance[k + 1]!]
    const rise = interpolate(distance, elevation, to) - interpolate(distance, elevation, from)
    const isClimb = rise >= climb * (to - from)
    const first = stationNear(outcome.route, from)
    const where = isClimb ? 'climbs' : isInto(wind(first, stationNear(outcome.route, to))) ? 'wind' : 'other'
    sums[where] += gained(to) - gained(from)
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
 * Where plan and ride stand for longer or less long, in order of place. Waiting beside a crossing counts as part of that.
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
  const crossings = halts.filter(({ kind }) => kind === 'crossing')
  return places.filter(
    ({ distance, then, now }) =>
      Math.abs(now - then) >= leastDifference &&
      crossings.every((crossing) => Math.abs(crossing.distance - distance) > onePlace),
  )
}
