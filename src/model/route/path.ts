import { interpolate } from '../columns'
import { heading, scaleAt } from '../geo/scale'
import { noiseBetween, wavelengthForCurvature } from './noise'
import { type Grid, penalties, sumsOf, weightsByLength } from './smooth'

/** Shortest half-gain wavelength of the path, m. What lies between it and twice it is taken for jitter: a quarter of the way no road bends so. */
const SHORTEST = 30
/** Longest, m. */
const LONGEST = 200
/** Standard deviation that jitter may leave in curvature, 1/m: three of them are a bend for 56 km/h at 2.2 m/s². */
const QUIET = 0.003
/** Length of the windows in which jitter is estimated, m. */
const WINDOW = 1000
/** A quarter of normal deviates are smaller than so many standard deviations. */
const QUARTILE = 0.3186
/**
 * Length of way over which a turn is read as curvature, m: half a circle of 5 m radius, 12 km/h at 2.2 m/s². Tighter bends are not ridden
 * slower, but across the lane's width: a radius of 3.1 m at 15.5 km/h, one of 6.1 m at 20 (FHWA-HRT-04-103, table 19).
 */
const ARC = 15

/** Points of a ridden section, one entry a point. */
export interface Track {
  /** Ridden distance from the section's first point, m, ascending. */
  at: Float64Array
  /** Degrees; longitude continuous. */
  latitude: Float64Array
  longitude: Float64Array
}

/** The smoothed way of a section, one entry a node of an even grid. */
export interface Path {
  /** Distance between nodes, m. */
  spacing: number
  /** Degrees; longitude continuous. */
  latitude: Float64Array
  longitude: Float64Array
  /** Of the step from each node to the next, radians clockwise from north, continuous; one entry less than nodes. */
  direction: Float64Array
}

/**
 * The way of a section with the jitter of its recording smoothed away. In each kilometre the jitter's density is taken from the lower quartile
 * of what lies across the way between wavelengths of 30 and 60 m, above which the bends of a town or a pass are, and the half-gain wavelength
 * is that at which such jitter leaves a standard deviation of 0.003 1/m in curvature: 30 m where points are exact, which keeps their bends,
 * about 50 m in recordings of one point a second, 100 m under white jitter of 3 m.
 *
 * @param track at least two points
 * @param step of the grid to aim at, m
 */
export function smoothPath(track: Track, step: number): Path {
  const { at, latitude, longitude } = track
  const length = at[at.length - 1]!
  const nodes = Math.max(1, Math.round(length / step)) + 1
  const grid: Grid = { nodes, spacing: length / (nodes - 1) }
  const weight = weightsByLength(at, grid.spacing)
  const northSums = sumsOf({ at, value: latitude, weight }, grid, latitude[0])
  const eastSums = sumsOf({ at, value: longitude, weight }, grid, longitude[0])
  const line = (lambda: Float64Array): Line => ({ north: northSums.solve(lambda), east: eastSums.solve(lambda) })

  const coarse = line(penalties(grid, 2 * SHORTEST))
  const beside = across(line(penalties(grid, SHORTEST)), coarse, latitude[0]!)
  const { north, east } = line(penalties(grid, wavelengthAlong(beside, length)))
  return {
    spacing: grid.spacing,
    latitude: north.map((degrees) => latitude[0]! + degrees),
    longitude: east.map((degrees) => longitude[0]! + degrees),
    direction: directions({ north, east }, latitude[0]!),
  }
}

/** Degrees north and east of the first point, one entry a node. */
interface Line {
  north: Float64Array
  east: Float64Array
}

/** How far one line lies beside another across the other's way, m; at every second node, which are close enough. */
function across(one: Line, { north, east }: Line, latitude: number): Float64Array {
  const beside = new Float64Array(north.length >> 1)
  for (let k = 0; k < beside.length; k++) {
    const i = 2 * k
    const scale = scaleAt(latitude + north[i]!)
    const wayNorth = (north[i + 1]! - north[i]!) * scale.north
    const wayEast = (east[i + 1]! - east[i]!) * scale.east
    const toNorth = (one.north[i]! - north[i]!) * scale.north
    const toEast = (one.east[i]! - east[i]!) * scale.east
    const way = Math.sqrt(wayNorth * wayNorth + wayEast * wayEast)
    beside[k] = way > 0 ? (toNorth * wayEast - toEast * wayNorth) / way : 0
  }
  return beside
}

/** Direction of each step of a line, radians clockwise from north, continuous. */
function directions({ north, east }: Line, latitude: number): Float64Array {
  const direction = new Float64Array(north.length - 1)
  let last = 0
  for (let i = 0; i < direction.length; i++) {
    const scale = scaleAt(latitude + north[i]!)
    const angle = Math.atan2((east[i + 1]! - east[i]!) * scale.east, (north[i + 1]! - north[i]!) * scale.north)
    last = angle + 2 * Math.PI * Math.round((last - angle) / (2 * Math.PI))
    direction[i] = last
  }
  return direction
}

/** Half-gain wavelength, m, by the place in m from the start, for what lies across a way of some length, m. */
function wavelengthAlong(beside: Float64Array, length: number): (place: number) => number {
  const count = Math.max(1, Math.floor(length / WINDOW))
  const middle = Float64Array.from({ length: count }, (_, k) => ((k + 0.5) * length) / count)
  const wavelength = middle.map((_, k) => {
    const share = beside.length / count
    const sizes = beside
      .slice(Math.floor(k * share), Math.floor((k + 1) * share))
      .map(Math.abs)
      .sort()
    const deviation = (sizes[sizes.length >> 2] ?? 0) / QUARTILE
    const density = deviation ** 2 / noiseBetween(SHORTEST, 2 * SHORTEST)
    return Math.min(LONGEST, Math.max(SHORTEST, wavelengthForCurvature(density, QUIET)))
  })
  return (place) => interpolate(middle, wavelength, place)
}

/**
 * Heading from one place of a path to another.
 *
 * @param from m from the path's first node
 * @param to the same
 * @returns radians clockwise from north, 0 to 2π
 */
export function headingBetween({ spacing, latitude, longitude }: Path, from: number, to: number): number {
  return heading(
    valueAt(latitude, from / spacing),
    valueAt(longitude, from / spacing),
    valueAt(latitude, to / spacing),
    valueAt(longitude, to / spacing),
  )
}

/**
 * Curvature of a path: the turn over 15 m of the way about a place, by that length.
 *
 * @param place m from the path's first node
 * @returns 1/m, from 0 to π / 15
 */
export function curvatureAt({ spacing, direction }: Path, place: number): number {
  const before = valueAt(direction, (place - ARC / 2) / spacing - 0.5)
  const after = valueAt(direction, (place + ARC / 2) / spacing - 0.5)
  const turns = (after - before) / (2 * Math.PI)
  return (2 * Math.PI * Math.abs(turns - Math.round(turns))) / ARC
}

/** Linear between entries, held at both ends. */
function valueAt(column: Float64Array, index: number): number {
  const last = column.length - 1
  if (index <= 0) return column[0]!
  if (index >= last) return column[last]!
  const i = Math.floor(index)
  return column[i]! + (column[i + 1]! - column[i]!) * (index - i)
}
