import { interpolate } from '../columns'
import type { Route } from '../route/route'
import type { Recording } from './recording'

/** Speed is compared over stretches of so many metres, if there are as many. */
const stretch = 200
const fewest = 50
/** Speed on a stretch differs by more than this from that on the two whose slope is nearest, in most of the ways that someone rode. A choice. */
const unevenness = 0.01

/**
 * Whether the times of a recording were made by a planner: no one halts, and on stretches of about the same slope the speed is the same.
 *
 * @param route made of the recording
 */
export function isMadeUp(
  { points, stations, length }: Route,
  { riding, halts }: Pick<Recording, 'riding' | 'halts'>,
): boolean {
  const count = Math.floor(length / stretch)
  if (halts.length > 0 || count < fewest) return false
  const pieces = Array.from({ length: count }, (_, k) => {
    const [from, to] = [k * stretch, (k + 1) * stretch]
    const took = interpolate(points.distance, riding, to) - interpolate(points.distance, riding, from)
    const rise =
      interpolate(stations.distance, stations.elevation, to) - interpolate(stations.distance, stations.elevation, from)
    return { rise, speed: stretch / took }
  }).sort((a, b) => a.rise - b.rise)
  const off = pieces
    .slice(1, -1)
    .map(({ rise, speed }, k) => {
      const [before, after] = [pieces[k]!, pieces[k + 2]!]
      const share = after.rise > before.rise ? (rise - before.rise) / (after.rise - before.rise) : 0.5
      return Math.abs(Math.log(speed / (before.speed + share * (after.speed - before.speed))))
    })
    .sort((a, b) => a - b)
  return off[off.length >> 1]! < unevenness
}
