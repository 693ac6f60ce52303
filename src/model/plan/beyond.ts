import type { Plan } from './schema'

/** Rounding of a route that is read anew, m. */
const same = 1

/**
 * What of a plan lies beyond the finish of a route, as where it was made for another.
 *
 * @param length of the route, m
 * @returns how many stops, controls, stretches, readings and places of the weather, and where the farthest is, m; undefined if none
 */
export function placesBeyond(plan: Plan, length: number): { count: number; farthest: number } | undefined {
  const places = [
    ...[...plan.stops, ...plan.controls, ...plan.weather.table, ...plan.readings].map(({ distance }) => distance),
    ...plan.stretches.map(({ end }) => end),
  ].filter((place) => place > length + same)
  return places.length === 0 ? undefined : { count: places.length, farthest: Math.max(...places) }
}
