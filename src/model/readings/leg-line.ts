import { bbox, distance, lineSliceAlong, lineString } from '@turf/turf'
import type { Feature, LineString } from 'geojson'
import { indexAtOrBelow } from '../columns'
import type { Route } from '../route/route'

/**
 * The line of a leg on the ground, cut from the route's points by turf. Turf measures on a sphere, so the leg's ends, known by their
 * distance on the ellipsoid, are carried over through the points around them; only the shape comes from turf, never a length.
 *
 * @param route the route
 * @param start ridden distance of the leg's start, m
 * @param end ridden distance of its end, m, within the same ridden section
 * @returns longitude and latitude in degrees; longitudes may pass 180
 */
export function legLine(route: Route, start: number, end: number): Feature<LineString> {
  const { points, sections } = route
  const section = sections.findLast(({ firstPoint }) => points.distance[firstPoint]! <= start) ?? sections[0]!
  const first = Math.max(section.firstPoint, indexAtOrBelow(points.distance, start) - 1)
  const last = Math.min(section.lastPoint, indexAtOrBelow(points.distance, end) + 1)
  const line = lineString(
    Array.from({ length: last - first + 1 }, (_, i) => [points.longitude[first + i]!, points.latitude[first + i]!]),
  )
  const onSphere = sphericalAt(line, points.distance.subarray(first, last + 1))
  return lineSliceAlong(line, onSphere(start), onSphere(end), { units: 'meters' })
}

/** West, south, east and north of a leg, degrees. */
export function legBounds(route: Route, start: number, end: number): [number, number, number, number] {
  const [west, south, east, north] = bbox(legLine(route, start, end))
  return [west!, south!, east!, north!] as [number, number, number, number]
}

/** From distance on the ellipsoid to turf's along the same line, m. */
function sphericalAt({ geometry }: Feature<LineString>, ellipsoidal: Float64Array): (place: number) => number {
  const spherical = new Float64Array(ellipsoidal.length)
  for (let i = 1; i < spherical.length; i++)
    spherical[i] =
      spherical[i - 1]! + distance(geometry.coordinates[i - 1]!, geometry.coordinates[i]!, { units: 'meters' })
  return (place) => {
    const i = Math.min(indexAtOrBelow(ellipsoidal, place), ellipsoidal.length - 2)
    const step = ellipsoidal[i + 1]! - ellipsoidal[i]!
    const share = step > 0 ? (place - ellipsoidal[i]!) / step : 0
    return spherical[i]! + Math.min(1, Math.max(0, share)) * (spherical[i + 1]! - spherical[i]!)
  }
}
