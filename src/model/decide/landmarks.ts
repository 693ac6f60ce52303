import type { Plan } from '../plan/schema'
import { terrainRuns } from '../readings/terrain'
import type { Route } from '../route/route'

/** By what a rider knows a place of the route: a name that someone gave, a crossing, the foot or top of a climb, or its distance alone, m. */
export type Landmark = { distance: number } & (
  { code: 'named'; name: string } | { code: 'crossing' | 'foot' | 'top' | 'at' | 'finish' }
)

/** So near a place is meant, m: a choice. */
const near = 300

/**
 * By what a rider knows each of some places: what has a name before what has none.
 *
 * @param places ridden distances, m
 */
export function landmarksAt(route: Route, plan: Plan, places: readonly number[]): Landmark[] {
  const { distance } = route.stations
  const climbs = route.sections
    .flatMap(({ first, last }) => terrainRuns(route, first, last))
    .filter(({ terrain }) => terrain === 'climb')
  const known: Landmark[][] = [
    [{ code: 'finish', distance: route.length }],
    [...plan.stops, ...plan.controls, ...route.waypoints].flatMap(({ name, distance }) =>
      distance === undefined || name.trim() === '' ? [] : [{ code: 'named', name: name.trim(), distance }],
    ),
    route.crossings.map(({ distance }) => ({ code: 'crossing', distance })),
    climbs.flatMap(({ first, last }): Landmark[] => [
      { code: 'foot', distance: distance[first]! },
      { code: 'top', distance: distance[last]! },
    ]),
  ]
  return places.map((place) => {
    const away = (one: Landmark) => Math.abs(one.distance - place)
    for (const some of known) {
      const nearest = some.reduce<Landmark | undefined>(
        (best, one) => (away(one) <= near && (best === undefined || away(one) < away(best)) ? one : best),
        undefined,
      )
      if (nearest !== undefined) return { ...nearest, distance: place }
    }
    return { code: 'at', distance: place }
  })
}
