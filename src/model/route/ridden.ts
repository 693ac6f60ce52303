import { interpolate } from '../columns'
import type { Points } from './points'
import type { Stretch } from './travelled'

/** The points of what is ridden, one entry a point in every column. */
export interface Ridden {
  latitude: Float64Array
  longitude: Float64Array
  elevation: Float64Array
  time: Float64Array
  /** Ridden distance, m; equal for the two points beside what is left out. */
  distance: Float64Array
  /** First and last point of each ridden stretch, inclusive. */
  stretches: { first: number; last: number }[]
}

/**
 * The points without what is not ridden, cut exactly where that begins and ends: where no point is there, one is put on the straight
 * line between its neighbours.
 *
 * @param points of the whole track
 * @param track distance of each from the first, m, ascending
 * @param travelled what is left out, in order and apart from each other, m on the track
 */
export function ridden(points: Points, track: Float64Array, travelled: readonly Stretch[]): Ridden {
  const n = track.length
  const most = n + 2 * travelled.length
  const column = () => new Float64Array(most)
  const to = { latitude: column(), longitude: column(), elevation: column(), time: column(), distance: column() }
  const stretches: Ridden['stretches'] = []
  let count = 0

  /** A point between two of the track. */
  const cutAt = (place: number, distance: number) => {
    for (const key of ['latitude', 'longitude', 'elevation', 'time'] as const)
      to[key][count] = interpolate(track, points[key], place)
    to.distance[count++] = distance
  }
  let i = 0
  for (const stretch of between(travelled, track[n - 1] ?? 0)) {
    const first = count
    const start = first === 0 ? 0 : to.distance[first - 1]!
    const left = stretch.from - start
    while (track[i]! < stretch.from) i++
    if (track[i]! > stretch.from) cutAt(stretch.from, start)
    const from = i
    while (i < n && track[i]! <= stretch.to) i++
    for (const key of ['latitude', 'longitude', 'elevation', 'time'] as const)
      to[key].set(points[key].subarray(from, i), count)
    for (let k = from; k < i; k++) to.distance[count++] = track[k]! - left
    if (track[i - 1]! < stretch.to) cutAt(stretch.to, stretch.to - left)
    to.distance[first] = start
    stretches.push({ first, last: count - 1 })
  }
  return {
    latitude: to.latitude.slice(0, count),
    longitude: to.longitude.slice(0, count),
    elevation: to.elevation.slice(0, count),
    time: to.time.slice(0, count),
    distance: to.distance.slice(0, count),
    stretches,
  }
}

/** What lies before, between and behind stretches of a track. */
function between(stretches: readonly Stretch[], length: number): Stretch[] {
  const froms = [0, ...stretches.map(({ to }) => to)]
  const tos = [...stretches.map(({ from }) => from), length]
  return froms.map((from, k) => ({ from, to: tos[k]! })).filter(({ from, to }) => to > from)
}
