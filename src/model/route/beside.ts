import { inSpace } from '../geo/scale'
import { nearestPlace, type Place, type Placed } from './place'
import type { Stations } from './route'

/** Places farther from the route than this, m, are not on it. */
const BESIDE = 500
/** Where the route passes again and again: of the stations in a cube of so many metres no more than so many, the first, are looked at. */
const FINE = 25
const MOST = 12

/**
 * Ridden distance of the nearest place of the route to each of some places, m; undefined where it is farther than 500 m away. Where the route
 * passes one spot more than twice, later passes may be left out. Straight in the number of stations and of places: looks only around stations
 * that are near, found by cubes of space, and only at so many of them.
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
  const at = route.stations.distance
  const finder = new StationFinder(route.stations, spacing)
  return places.map(({ latitude, longitude }) => {
    let near: Place = { distance: NaN, offset: BESIDE }
    for (const { first, last } of runsOf(finder.near(latitude, longitude))) {
      const window = { around: (at[first]! + at[last]!) / 2, reach: (at[last]! - at[first]!) / 2 + spacing }
      const place = nearestPlace(route, latitude, longitude, window)
      if (place.offset < near.offset) near = place
    }
    return Number.isNaN(near.distance) ? undefined : near.distance
  })
}

/** Finds stations by where they are. */
class StationFinder {
  /** Three entries a station, m. */
  private readonly space: Float64Array
  private readonly size: number
  private readonly cubes = new Map<number, number[]>()

  constructor(
    { latitude, longitude }: Stations,
    private readonly spacing: number,
  ) {
    this.space = new Float64Array(3 * latitude.length)
    this.size = BESIDE + spacing
    const parts = Math.ceil(this.size / FINE)
    const counts = new Map<number, number>()
    for (let station = 0; station < latitude.length; station++) {
      const place = inSpace(latitude[station]!, longitude[station]!)
      this.space.set(place, 3 * station)
      const [x, y, z] = place.map((metres) => metres / this.size) as [number, number, number]
      const cube = cubeNumber(Math.floor(x), Math.floor(y), Math.floor(z))
      const there = this.cubes.get(cube) ?? []
      this.cubes.set(cube, there)
      const part = (share: number) => Math.floor((share - Math.floor(share)) * parts)
      // The first station of a cube names it, with no more digits than a number has.
      const fine = (((there[0] ?? station) * parts + part(x)) * parts + part(y)) * parts + part(z)
      const count = counts.get(fine) ?? 0
      if (count === MOST) continue
      counts.set(fine, count + 1)
      there.push(station)
    }
  }

  /** In order, the stations next to which the nearest place of the route can lie: no more than half a step farther away than the nearest station. */
  near(latitude: number, longitude: number): number[] {
    const [x, y, z] = inSpace(latitude, longitude)
    const { size, space, spacing } = this
    // Between two crossings the step may be half as much again.
    const more = 0.75 * spacing
    const [i, j, k] = [Math.floor(x / size), Math.floor(y / size), Math.floor(z / size)]
    const found: number[] = []
    const squares: number[] = []
    let least = Infinity
    for (let cube = 0; cube < 27; cube++) {
      const there = this.cubes.get(
        cubeNumber(i - 1 + (cube % 3), j - 1 + (Math.floor(cube / 3) % 3), k - 1 + Math.floor(cube / 9)),
      )
      for (const station of there ?? []) {
        const dx = x - space[3 * station]!
        const dy = y - space[3 * station + 1]!
        const dz = z - space[3 * station + 2]!
        const square = dx * dx + dy * dy + dz * dz
        found.push(station)
        squares.push(square)
        least = Math.min(least, square)
      }
    }
    const most = (Math.sqrt(least) + more) ** 2
    return found.filter((_, n) => squares[n]! <= most).sort((a, b) => a - b)
  }
}

const cubeNumber = (i: number, j: number, k: number): number => (i * 2 ** 16 + j) * 2 ** 16 + k

/** Ascending numbers as runs without a hole. */
function runsOf(numbers: readonly number[]): { first: number; last: number }[] {
  const runs: { first: number; last: number }[] = []
  for (const number of numbers) {
    const run = runs.at(-1)
    if (run?.last === number - 1) run.last = number
    else runs.push({ first: number, last: number })
  }
  return runs
}
