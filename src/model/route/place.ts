import type { RoutePoints, Section } from './route'
import { scaleAt, unwrap } from '../geo/scale'

/** What of a Route a place needs. */
export interface Placed {
  points: RoutePoints
  sections: Section[]
}

export interface Place {
  /** Ridden distance, m. */
  distance: number
  /** From the place asked for to the route, m. */
  offset: number
}

/** Only places whose ridden distance lies within `reach` of `around`, both m, are looked at. */
export interface Window {
  around: number
  reach: number
}

/**
 * The nearest place on the ridden route, exact on the straight lines between its points, in the metric at the asked latitude.
 * With a window a drag stays on its own pass of a route that crosses itself, and the search costs only what the window holds.
 *
 * @param route points and sections
 * @param latitude degrees
 * @param longitude degrees; may be any number of turns away
 * @param window ridden distances to look at, m; all where absent. Held to the ends of the route
 * @returns ridden distance and offset, m; of equally near places the first
 */
export function nearestPlace(route: Placed, latitude: number, longitude: number, window?: Window): Place {
  const { points } = route
  const length = points.distance[points.distance.length - 1]!
  const around = Math.min(Math.max(window?.around ?? 0, 0), length)
  const reach = window?.reach ?? Infinity
  const [from, to] = [around - reach, around + reach]
  const scale = scaleAt(latitude)
  const below = lastBelow(points.distance, from)
  let least = Infinity
  let at = 0
  for (const section of route.sections) {
    const first = Math.max(section.firstPoint, below)
    for (let i = first; i < section.lastPoint && points.distance[i]! <= to; i++) {
      const near = unwrap(longitude, points.longitude[i]!)
      const x = (near - points.longitude[i]!) * scale.east
      const y = (latitude - points.latitude[i]!) * scale.north
      const east = (points.longitude[i + 1]! - points.longitude[i]!) * scale.east
      const north = (points.latitude[i + 1]! - points.latitude[i]!) * scale.north
      const start = points.distance[i]!
      const step = points.distance[i + 1]! - start
      const squared = east * east + north * north
      let share = squared === 0 ? 0 : (x * east + y * north) / squared
      if (share > 1) share = 1
      if (start + share * step > to) share = (to - start) / step
      if (share < 0) share = 0
      if (start + share * step < from) share = (from - start) / step
      const offset = (x - share * east) ** 2 + (y - share * north) ** 2
      if (offset < least) {
        least = offset
        at = start + share * step
      }
    }
  }
  return { distance: at, offset: Math.sqrt(least) }
}

/**
 * The place at a ridden distance, on the straight line between the points around it. At a crossing it is the end before it.
 *
 * @param route points and sections
 * @param distance ridden distance, m; held to the ends of the route
 * @returns degrees; the longitude is continuous along the route and may pass 180
 */
export function positionAt(route: Placed, distance: number): { latitude: number; longitude: number } {
  const { points } = route
  const i = lastBelow(points.distance, distance)
  const j = Math.min(i + 1, points.distance.length - 1)
  const step = points.distance[j]! - points.distance[i]!
  const share = step > 0 ? Math.min(Math.max((distance - points.distance[i]!) / step, 0), 1) : 0
  return {
    latitude: points.latitude[i]! * (1 - share) + points.latitude[j]! * share,
    longitude: points.longitude[i]! * (1 - share) + points.longitude[j]! * share,
  }
}

/** Index of the last entry less than a value; 0 where there is none. So of two entries equal to it, the step found ends at the first. */
function lastBelow(column: Float64Array, value: number): number {
  let low = 0
  let high = column.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (column[middle]! < value) low = middle
    else high = middle - 1
  }
  return low
}
