import { distance, inSpace } from '../geo/scale'
import { nearestPlace, type Place, type Placed } from './place'
import type { Stations } from './route'

/** Places farther from the route than this, m, are not on it. */
const BESIDE = 500
/** Looked around are every so many stations. */
const STRIDE = 50

/**
 * Ridden distance of the nearest place of the route to each of some places, m; undefined where it is farther than 500 m away. Straight in the
 * number of stations and of places: looks only around stations that are near, found by cells of space.
 *
 * @param route its points and stations
 * @param places degrees
 * @param spacing of the stations, m
 */
export function distancesBeside(
  route: Placed & { stations: Stations },
  places: readonly { latitude: number; longitude: number }[],
  spacing: number,
): (number | undefined)[] {
  if (places.length === 0) return []
  const { stations } = route
  const reach = 1.5 * STRIDE * spacing
  const size = BESIDE + reach
  const cells = new Map<number, number[]>()
  for (const { first, last } of route.sections) {
    for (let i = first; i < last + STRIDE; i += STRIDE) {
      const station = Math.min(i, last)
      const [cell] = cellsAbout(stations.latitude[station]!, stations.longitude[station]!, size, 0)
      const there = cells.get(cell!)
      if (there === undefined) cells.set(cell!, [station])
      else there.push(station)
    }
  }
  return places.map(({ latitude, longitude }) => {
    let near: Place = { distance: NaN, offset: BESIDE }
    for (const cell of cellsAbout(latitude, longitude, size, 1)) {
      for (const i of cells.get(cell) ?? []) {
        if (distance(latitude, longitude, stations.latitude[i]!, stations.longitude[i]!) > size) continue
        const place = nearestPlace(route, latitude, longitude, { around: stations.distance[i]!, reach })
        if (place.offset < near.offset) near = place
      }
    }
    return Number.isNaN(near.distance) ? undefined : near.distance
  })
}

/** Numbers of the cube of space of some size, m, in which a place lies, and of those up to `around` beside it in each direction. */
function cellsAbout(latitude: number, longitude: number, size: number, around: 0 | 1): number[] {
  const [x, y, z] = inSpace(latitude, longitude).map((metres) => Math.floor(metres / size)) as [number, number, number]
  const cells: number[] = []
  for (let i = x - around; i <= x + around; i++)
    for (let j = y - around; j <= y + around; j++)
      for (let k = z - around; k <= z + around; k++) cells.push((i * 2 ** 16 + j) * 2 ** 16 + k)
  return cells
}
