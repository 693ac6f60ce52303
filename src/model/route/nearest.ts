import { indexAtOrBelow } from '../columns'
import type { Route } from './route'

/**
 * Index of the station nearest to a ridden distance; before a crossing that lies there.
 *
 * @param distance m
 */
export function stationNear(route: Route, distance: number): number {
  const at = route.stations.distance
  const below = indexAtOrBelow(at, distance)
  const i = below + 1 < at.length && at[below + 1]! - distance < distance - at[below]! ? below + 1 : below
  return i > 0 && at[i - 1] === at[i] ? i - 1 : i
}

/** Things with a place, by the station nearest to each, in their order. */
export function byStation<T extends { distance: number }>(route: Route, things: readonly T[]): Map<number, T[]> {
  const found = new Map<number, T[]>()
  for (const thing of things) {
    const station = stationNear(route, thing.distance)
    const there = found.get(station)
    if (there === undefined) found.set(station, [thing])
    else there.push(thing)
  }
  return found
}
