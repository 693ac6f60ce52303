import { distance, unwrap } from '../geo/scale'
import type { PlaceName } from '../place-name'
import type { Route } from './route'

/** A waypoint as near as this to where a crossing begins is its quay or platform, m. A choice. */
const atTheQuay = 500

/**
 * What a crossing is called: by the file's waypoint where it begins, else by its number, if there are several.
 *
 * @param index of the route's crossing
 */
export function crossingName(route: Route, index: number): PlaceName {
  const { stations, sections, crossings, waypoints } = route
  const quay = sections[crossings[index]!.after]!.last
  const [north, east] = [stations.latitude[quay]!, stations.longitude[quay]!]
  const [nearest] = waypoints
    .map(({ name, latitude, longitude }) => ({
      name,
      metres: distance(north, east, latitude, unwrap(longitude, east)),
    }))
    .filter(({ name, metres }) => name !== '' && metres <= atTheQuay)
    .sort((a, b) => a.metres - b.metres)
  if (nearest !== undefined) return { code: 'crossingFrom', name: nearest.name }
  return crossings.length === 1 ? { code: 'onlyCrossing' } : { code: 'crossing', number: index + 1 }
}
