import type { CleaningCounts, ElevationKnown } from './route'
import { medianAbsolute } from './smooth'

/** Elevations outside these, m, are marks for 'unknown'; no road is outside them. */
export const LOWEST = -500
export const HIGHEST = 9000
/** A zero next to an elevation above this, m, with no road between that could lead down to it, is no sea level. */
const CLEARLY_ABOVE_SEA = 15
const NO_ROAD = 0.3
/** A hole longer than this, m, is told to the rider. */
const LONG_HOLE = 1000
/** Steeper than any road. */
const WALL_SLOPE = 0.35
/** Lowest step that is taken for an error, m; more where the file is noisy. */
const LOWEST_WALL = 8
/** Cliffs of a bridge or tunnel are looked for within this, m, and are at least this share of its length high. */
const LONGEST_BRIDGE = 3000
const BRIDGE_HEIGHT = 0.02
const STEEPEST_BRIDGE = 0.12

/**
 * Elevations of a file, NaN where unknown: marks for 'unknown' and zeros among heights taken out, and all where none is known.
 *
 * @param elevation m, NaN where unknown; one entry a point
 * @param distance ridden distance of each point, m, ascending
 */
export function ownElevation(elevation: Float64Array, distance: Float64Array): Float64Array {
  const e = elevation.map((h) => (h > LOWEST && h < HIGHEST ? h : NaN))
  takeOutZeros(e, distance)
  const known = e.reduce((sum, h) => sum + (Number.isNaN(h) ? 0 : 1), 0)
  return known < 2 || e.every((h) => Number.isNaN(h) || h === 0) ? e.fill(NaN) : e
}

/**
 * Elevations with every entry known: marks for 'unknown', zeros among heights and the walls of DEM holes (bridges, tunnels, spikes) taken
 * out, and what is missing drawn straight between its neighbours by distance.
 *
 * @param elevation m, NaN where unknown; one entry a point
 * @param distance ridden distance of each point, m, ascending
 * @param counts where unknown elevations and spikes are counted
 */
export function mendElevation(
  elevation: Float64Array,
  distance: Float64Array,
  counts: CleaningCounts,
): { elevation: Float64Array; elevationKnown: ElevationKnown; longestHole: number } {
  const e = ownElevation(elevation, distance)
  const n = e.length
  const unknown = e.reduce((sum, h) => sum + (Number.isNaN(h) ? 1 : 0), 0)
  if (unknown === n) {
    return { elevation: new Float64Array(n), elevationKnown: 'none', longestHole: distance[n - 1] ?? 0 }
  }
  counts.unknownElevations = unknown
  const longestHole = unknown === 0 ? 0 : drawStraight(e, distance)
  const wall = Math.max(LOWEST_WALL, 7 * noiseOf(e))
  counts.elevationSpikes = takeOutSpikes(e, distance, wall)
  drawStraight(e, distance)
  counts.elevationSpikes += takeOutHoles(e, distance, wall)
  drawStraight(e, distance)
  return { elevation: e, elevationKnown: longestHole > LONG_HOLE ? 'part' : 'all', longestHole }
}

/** A run of exact zeros is unknown if on both its sides, or the only one, no road could lead down to it. */
function takeOutZeros(e: Float64Array, distance: Float64Array): void {
  for (let i = 0; i < e.length; i++) {
    if (e[i] !== 0) continue
    let end = i
    while (e[end + 1] === 0 || Number.isNaN(e[end + 1])) end++
    const before = i - 1
    const after = end + 1
    const sides: boolean[] = []
    if (before >= 0) sides.push(isNoSea(e[before]!, distance[i]! - distance[before]!))
    if (after < e.length) sides.push(isNoSea(e[after]!, distance[after]! - distance[end]!))
    if (sides.length > 0 && sides.every(Boolean)) e.fill(NaN, i, end + 1)
    i = end
  }
}

function isNoSea(neighbour: number, run: number): boolean {
  return Number.isNaN(neighbour) || (Math.abs(neighbour) > CLEARLY_ABOVE_SEA && Math.abs(neighbour) > NO_ROAD * run)
}

/** Draws unknown entries straight by distance and returns the longest hole, m. Needs at least one known entry. */
function drawStraight(e: Float64Array, distance: Float64Array): number {
  const n = e.length
  let longest = 0
  for (let i = 0; i < n; i++) {
    if (!Number.isNaN(e[i]!)) continue
    let after = i
    while (Number.isNaN(e[after])) after++
    const from = i - 1
    const length = distance[Math.min(after, n - 1)]! - distance[Math.max(from, 0)]!
    longest = Math.max(longest, length)
    for (; i < after; i++) {
      const share = from < 0 ? 1 : after === n || length === 0 ? 0 : (distance[i]! - distance[from]!) / length
      e[i] = (share < 1 ? e[from]! * (1 - share) : 0) + (share > 0 ? e[after]! * share : 0)
    }
  }
  return longest
}

/** A stretch of steps all steeper than a road can be, and together high enough not to be noise. */
interface Cliff {
  from: number
  to: number
  rise: number
}

/** Makes unknown what stands out from the median of the five points about it farther than a road could. Returns how many points. */
function takeOutSpikes(e: Float64Array, distance: Float64Array, wall: number): number {
  const spikes: number[] = []
  const about = new Float64Array(5)
  for (let i = 0; i < e.length && e.length >= 5; i++) {
    const from = Math.min(Math.max(i - 2, 0), e.length - 5)
    if (Math.abs(e[i]! - e[from]!) < wall && Math.abs(e[i]! - e[from + 4]!) < wall) continue
    about.set(e.subarray(from, from + 5))
    const middle = about.sort()[2]!
    const reach = Math.max(distance[from + 4]! - distance[i]!, distance[i]! - distance[from]!)
    if (Math.abs(e[i]! - middle) > wall + WALL_SLOPE * reach) spikes.push(i)
  }
  for (const i of spikes) e[i] = NaN
  return spikes.length
}

/**
 * Makes unknown what lies between two opposite cliffs whose outer ends a road could join, all to one side of that road: a bridge or a
 * tunnel in a terrain model. Returns how many points.
 */
function takeOutHoles(e: Float64Array, distance: Float64Array, wall: number): number {
  const cliffs = cliffsOf(e, distance, wall)
  let count = 0
  for (let k = 0; k < cliffs.length; k++) {
    const one = cliffs[k]!
    for (let j = k + 1; j < cliffs.length; j++) {
      const other = cliffs[j]!
      const length = distance[other.to]! - distance[one.from]!
      if (length > LONGEST_BRIDGE) break
      if (!isHole(e, distance, one, other, wall)) continue
      e.fill(NaN, one.from + 1, other.to)
      count += other.to - one.from - 1
      break
    }
  }
  return count
}

function isHole(e: Float64Array, distance: Float64Array, one: Cliff, other: Cliff, wall: number): boolean {
  const start = distance[one.from]!
  const length = distance[other.to]! - start
  const rise = e[other.to]! - e[one.from]!
  const height = Math.min(Math.abs(one.rise), Math.abs(other.rise))
  if (one.rise * other.rise > 0 || height < BRIDGE_HEIGHT * length) return false
  if (Math.abs(rise) > STEEPEST_BRIDGE * length + wall / 2) return false
  let beside = 0
  for (let i = one.from + 1; i < other.to; i++) {
    const road = e[one.from]! + (rise * (distance[i]! - start)) / length
    if ((e[i]! - road) * Math.sign(one.rise) > height / 4) beside++
  }
  return beside >= 0.8 * (other.to - one.from - 1)
}

function cliffsOf(e: Float64Array, distance: Float64Array, wall: number): Cliff[] {
  const cliffs: Cliff[] = []
  let from = 0
  const slope = (i: number) => {
    const rise = e[i]! - e[i - 1]!
    return Math.abs(rise) > WALL_SLOPE * (distance[i]! - distance[i - 1]!) ? Math.sign(rise) : 0
  }
  for (let i = 1; i <= e.length; i++) {
    if (slope(i - 1) !== slope(i)) {
      const rise = e[i - 1]! - e[from]!
      if (slope(i - 1) !== 0 && Math.abs(rise) >= wall) cliffs.push({ from, to: i - 1, rise })
      from = i - 1
    }
  }
  return cliffs
}

/** Standard deviation of noise from the median of second differences, which for white noise are √6 of it; m. */
function noiseOf(e: Float64Array): number {
  const second = new Float64Array(e.length - 2)
  for (let i = 0; i < second.length; i++) second[i] = e[i]! - 2 * e[i + 1]! + e[i + 2]!
  return medianAbsolute(second) / 0.6745 / Math.sqrt(6)
}
