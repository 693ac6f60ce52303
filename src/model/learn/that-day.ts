import { interpolate } from '../columns'
import { defaultStop } from '../plan/defaults'
import { most, type Plan } from '../plan/schema'
import { crossingParameters, riderParameters, stopParameters } from '../plan/parameters'
import type { RecordedHalt, Recording } from '../recording/recording'
import { nearestPlace, positionAt } from '../route/place'
import type { Route } from '../route/route'
import { localAt, zoneOfRoute } from '../world/zone'
import { knownOf, type Posterior } from './posterior'
import { longestSmall } from './small-halts'
import { planKnowing } from './unknowns'

/** Places are compared so far apart, looked for so far to either side, and taken for the same road so close, m. Choices. */
const every = 1000
const reach = 1500
const sameRoad = 150
/** So much of the way has to be the same road. */
const sameWay = 0.85

/** Places of a route, ridden distance, m, and how long a recorded ride had been riding there, s. */
export interface ClockByPlace {
  distance: number[]
  riding: number[]
}

/** A recorded ride laid over a route by place. */
export interface LaidOver {
  clock: ClockByPlace
  /** Ridden distance on the route of one on the recording, m. */
  onRoute: (distance: number) => number
}

/**
 * Lays a recorded ride over a route: each place is looked for about where the ride should be by then, so that a road that is passed twice is met in
 * order.
 *
 * @returns undefined where less than 85 % of the route was ridden
 */
export function laidOver(route: Route, recording: Recording): LaidOver | undefined {
  const count = Math.max(2, Math.round(route.length / every))
  const places: number[] = []
  const ridden: number[] = []
  let from = { place: 0, ridden: 0 }
  let missed = 0
  for (let k = 0; k <= count; k++) {
    const place = (k / count) * route.length
    const { latitude, longitude } = positionAt(route, place)
    // What was missed may be longer or shorter than the route.
    const window = { around: from.ridden + place - from.place, reach: reach * (1 + missed) }
    const near = nearestPlace(recording.route, latitude, longitude, window)
    if (near.offset > sameRoad || near.distance < from.ridden) missed++
    else {
      places.push(place)
      ridden.push(near.distance)
      from = { place, ridden: near.distance }
      missed = 0
    }
  }
  if (places.length < sameWay * (count + 1)) return undefined
  const [there, here] = [Float64Array.from(ridden), Float64Array.from(places)]
  return {
    clock: {
      distance: places,
      riding: ridden.map((distance) => interpolate(recording.route.points.distance, recording.riding, distance)),
    },
    onRoute: (distance) => interpolate(there, here, distance),
  }
}

/**
 * The plan of a day that was ridden, on the route that it is laid over: rider, bike and weather as they most likely were, halts of five minutes and
 * more as stops, shorter ones as small halts.
 *
 * @param ofDay with the stated figures
 * @param ride number of the ride among those learnt from
 */
export function planOfRide(
  { z }: Posterior,
  ofDay: Plan,
  ride: number,
  recording: Recording,
  { onRoute }: LaidOver,
): Plan {
  const { halts, crossings, start, route } = recording
  const known = planKnowing(ofDay, knownOf(z, ride))
  const sum = (some: readonly RecordedHalt[]) => some.reduce((total, { time }) => total + time, 0)
  const small = sum(halts.filter(({ time }) => time <= longestSmall))
  const stops = halts
    .filter(({ time }) => time > longestSmall)
    .slice(0, most.stops)
    .map(({ distance, time }, k) => ({
      ...defaultStop(`halt-${k + 1}`, '', onRoute(distance), null),
      duration: Math.min(stopParameters.duration.max, time),
    }))
  return {
    ...known,
    start: localAt(start, ofDay.zone ?? zoneOfRoute(route)),
    rider: { ...known.rider, smallHalts: Math.min(riderParameters.smallHalts.max, (small / route.length) * 100_000) },
    stops,
    crossings: crossings.map(({ time }) => ({
      timetable: { kind: 'duration', duration: Math.min(crossingParameters.duration.max, time || 0) },
      source: null,
      fillFirst: 'most',
    })),
    controls: [],
    stretches: [],
    goal: null,
    learnt: null,
  }
}
