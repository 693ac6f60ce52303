import { distance, unwrap } from '../geo/scale'
import type { PlaceName } from '../place-name'
import type { Route } from './route'

/** A waypoint as near as this to where a crossing begins is its quay or platform, m. A choice. */
const atTheQuay = 500

/** Latitude farther off than this, degrees, is farther than that: a degree is 110.6 km at least (WGS84). */
const latitudeAtMost = 0.005

const known = new WeakMap<Route, PlaceName[]>()

/**
 * What a crossing is called: by the file's waypoint where it begins, else by its number, if there are several. Looked up once a route.
 *
 * @param index of the route's crossing
 */
export function crossingName(route: Route, index: number): PlaceName {
  let names = known.get(route)
  if (names === undefined) known.set(route, (names = route.crossings.map((_, i) => nameOf(route, i))))
  return names[index]!
}

function nameOf({ stations, sections, crossings, waypoints }: Route, index: number): PlaceName {
  const quay = sections[crossings[index]!.after]!.last
  const [north, east] = [stations.latitude[quay]!, stations.longitude[quay]!]
  let found: string | undefined
  let least = atTheQuay
  for (const { name, latitude, longitude } of waypoints) {
    if (name === '' || Math.abs(latitude - north) > latitudeAtMost) continue
    const metres = distance(north, east, latitude, unwrap(longitude, east))
    if (metres < least || (metres === least && found === undefined)) {
      found = name
      least = metres
    }
  }
  if (found !== undefined) return { code: 'crossingFrom', name: found }
  return crossings.length === 1 ? { code: 'onlyCrossing' } : { code: 'crossing', number: index + 1 }
}
