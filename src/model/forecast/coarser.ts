import { remembered } from './remembered'
import type { Plan } from '../plan/schema'
import type { Route, Section } from '../route/route'

/** Steps become one up to about so long, m: five of them. A choice: on a hilly day of 165 km it moves a ride by 4 s and 0.5 Wh, where days differ by an hour and 90 Wh. */
const merged = 45

/**
 * A route with fewer stations, for many rides: steps become one where no bend limits the speed; each has the mean gradient of those it is made of and the
 * heading that they lead to. Places on it are those of the route, to half a step.
 *
 * @param bike with its lateral acceleration, m/s², and top speed, m/s: what it can't ride at that speed is a bend
 */
export function coarser(route: Route, bike: Plan['bike']): Route {
  const { lateralAcceleration, topSpeed } = bike
  return remembered(route, 'coarser', [lateralAcceleration, topSpeed], () => coarserWith(route, bike, []).road)
}

/**
 * As `coarser`, with some stations that stay.
 *
 * @param staying stations, ascending
 * @returns the route, and the station that each of its own was
 */
export function coarserWith(
  route: Route,
  { lateralAcceleration, topSpeed }: Plan['bike'],
  staying: readonly number[],
): { road: Route; kept: number[] } {
  const sharp = lateralAcceleration / (topSpeed * topSpeed)
  const { stations } = route
  const isBend = (station: number) => stations.curvature[station]! > sharp
  const stays = new Set(staying)
  const kept: number[] = []
  const isFar = (station: number) => stations.distance[station]! - stations.distance[kept.at(-1)!]! >= merged
  const sections = route.sections.map((section): Section => {
    const first = kept.length
    for (let i = section.first; i <= section.last; i++) {
      const isEnd = i === section.first || i === section.last || stays.has(i)
      if (isEnd || isFar(i) || isBend(i) || isBend(i - 1) || isBend(i + 1)) kept.push(i)
    }
    return { ...section, first, last: kept.length - 1 }
  })
  const picked = (column: Float64Array) => Float64Array.from(kept, (station) => column[station]!)
  const over = (of: (from: number, to: number) => number) =>
    Float64Array.from(kept, (station, k) => of(station, kept[k + 1] ?? station))
  const { distance, elevation, heading } = stations
  return {
    kept,
    road: {
      ...route,
      sections,
      stations: {
        distance: picked(distance),
        latitude: picked(stations.latitude),
        longitude: picked(stations.longitude),
        elevation: picked(elevation),
        gradient: over((from, to) => {
          const length = distance[to]! - distance[from]!
          return length > 0 ? (elevation[to]! - elevation[from]!) / length : 0
        }),
        heading: over((from, to) => {
          if (distance[to]! === distance[from]!) return heading[from]!
          let [east, north] = [0, 0]
          for (let i = from; i < to; i++) {
            east += Math.sin(heading[i]!)
            north += Math.cos(heading[i]!)
          }
          return Math.atan2(east, north)
        }),
        curvature: picked(stations.curvature),
      },
    },
  }
}
