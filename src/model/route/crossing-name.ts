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
  if (names === undefined) known.set(route, (names = namesOf(route)))
  return names[index]!
}

function namesOf({ stations, sections, crossings, waypoints }: Route): PlaceName[] {
  const byLatitude = waypoints.filter(({ name }) => name !== '').sort((a, b) => a.latitude - b.latitude)
  const latitudes = Float64Array.from(byLatitude, ({ latitude }) => latitude)
  return crossings.map(({ after }, index) => {
    const quay = sections[after]!.last
    const [north, east] = [stations.latitude[quay]!, stations.longitude[quay]!]
    const first = firstFrom(latitudes, north - latitudeAtMost)
    const end = firstFrom(latitudes, north + latitudeAtMost)
    const [nearest] = byLatitude
      .slice(first, end)
      .map(({ name, latitude, longitude }) => ({
        name,
        metres: distance(north, east, latitude, unwrap(longitude, east)),
      }))
      .filter(({ metres }) => metres <= atTheQuay)
      .sort((a, b) => a.metres - b.metres)
    if (nearest !== undefined) return { code: 'crossingFrom', name: nearest.name }
    return crossings.length === 1 ? { code: 'onlyCrossing' } : { code: 'crossing', number: index + 1 }
  })
}

/** Index of the first that is not below a value. @param ascending */
function firstFrom(ascending: Float64Array, value: number): number {
  let [low, high] = [0, ascending.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (ascending[middle]! < value) low = middle + 1
    else high = middle
  }
  return low
}
