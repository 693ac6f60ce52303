import { indexAtOrBelow } from '../columns'
import { mendElevation, ownElevation } from './elevation'
import { fillFromGround, type Heights, lackingIn } from './fill'
import type { Ground, Lacking } from './ground'
import { type GapRead, readHoles, timeBetween } from './holes'
import { takeOutJumps, takeOutLonePoints } from './jumps'
import type { Part } from './parts'
import { gather, type Points, takeOutRepeated } from './points'
import type { ProposedPart } from './recognise'
import { ridden } from './ridden'
import type { CleaningCounts, ElevationKnown, Gap } from './route'
import { mendTimes, takeOutImpossibleTimes, totalTime } from './times'
import { onRide, type Stretch, type Travelled, travelledOf } from './travelled'

/** Cleaned points in ridden order, one entry a point in every column. */
export interface Cleaned {
  /** Degrees; longitude continuous, so that it may pass 180. */
  latitude: Float64Array
  longitude: Float64Array
  /** Seconds since 1970 began; NaN where unknown. */
  time: Float64Array
  /** No elevation is unknown: holes are drawn straight. 0 everywhere where there is none. */
  heights: Heights
  /** Pieces of points on which the file has no elevation. */
  lacking: Lacking[]
  /** On so much of them it is the ground's, m. */
  fromGround: number
  /** Ridden distance, m; equal for the two points at a gap's ends. */
  distance: Float64Array
  /** First and last point of each ridden stretch, inclusive. */
  stretches: { first: number; last: number }[]
  /** All gaps of the track, in order, ridden or not. */
  gaps: ProposedGap[]
  /** What is not ridden, in order. */
  travelled: Travelled[]
  /** What of it lies between ridden stretches: crossing k between stretches k and k + 1. */
  crossings: Gap[]
  /** What looks travelled in the recording, with no hole that tells so, and is counted as ridden. */
  proposals: ProposedPart[]
  elevationKnown: ElevationKnown
  /** Longest stretch drawn straight because the file has no elevation there, m. */
  longestHole: number
  /** From the first to the last time; undefined without times, or where they are too far apart to be one ride. */
  recordedTime: number | undefined
  /** How far those are apart, s. */
  timesApart: number | undefined
  counts: CleaningCounts
}

/** A gap of the track, and what is made of it: as the rider said, else as read. */
export interface ProposedGap extends GapRead {
  /** Ridden distance at which it begins, m. */
  distance: number
  recordedTime: number | undefined
  ridden: boolean
}

/** What is taken out or mended, one after the other; each step counts what it did. */
const steps: readonly ((points: Points, counts: CleaningCounts) => Points)[] = [
  takeOutRepeated,
  takeOutImpossibleTimes,
  takeOutJumps,
  mendTimes,
  takeOutLonePoints,
]

/**
 * One line of cleaned points from the parts of a file: repeated, impossible and displaced points taken out, unknown elevations drawn
 * straight, gaps found; all counted.
 *
 * @param parts segments in ridden order
 * @param riddenGaps numbers of the gaps, in their order here, that were ridden in a straight line; the others are left out of the distance
 * @param marked parts that were not ridden; cut exactly where they begin and end, on the straight line between the points there
 * @param ground heights of the land, for where the file has no elevation
 * @param settle one more step, of a recording: what it takes out where the rider stood
 * @returns cleaned columns; no stretches where fewer than two points are left, or nothing is ridden
 */
export function clean(
  parts: Part[],
  riddenGaps: number[],
  marked: readonly Stretch[] = [],
  ground?: Ground,
  settle: (points: Points) => Points = (points) => points,
): Cleaned {
  const counts: CleaningCounts = {
    repeatedPoints: 0,
    zeroPoints: 0,
    outOfRangePoints: 0,
    jumps: 0,
    unknownElevations: 0,
    elevationSpikes: 0,
    impossibleTimes: 0,
    backwardTimes: 0,
  }
  const points = steps.reduce((points, step) => step(points, counts), gather(parts, counts))
  return measure(settle(points), riddenGaps, marked, counts, ground)
}

/** Distance, gaps, what is not ridden, and elevation. */
function measure(
  points: Points,
  riddenGaps: number[],
  marked: readonly Stretch[],
  counts: CleaningCounts,
  ground: Ground | undefined,
): Cleaned {
  const track = cumulate(points.step)
  const read = readHoles(points, track)
  const gaps = read.gaps.map((gap) => ({
    ...gap,
    ridden: !gap.isCrossing || gap.numbers.some((number) => riddenGaps.includes(number)),
    recordedTime: timeBetween(points.time, track, gap.from, gap.to),
  }))
  const travelled = travelledOf(
    gaps.filter(({ ridden }) => !ridden),
    marked,
    track[track.length - 1] ?? 0,
  )
  const { latitude, longitude, elevation, time, distance, stretches } = ridden(points, track, travelled)
  const own = { latitude, longitude, elevation: ownElevation(elevation, distance), distance, stretches }
  const lacking = lackingIn(own)
  const { fromGround, ...heights } =
    ground === undefined ? { ...own, fromGround: 0 } : fillFromGround(own, lacking, ground)
  const { elevation: mended, ...known } = mendElevation(heights.elevation, heights.distance, counts)
  const between = travelled.filter(({ place }) => place === 'between')
  return {
    latitude,
    longitude,
    time,
    heights: { distance: heights.distance, elevation: mended, stretches: heights.stretches },
    ...known,
    ...{ lacking, fromGround },
    distance,
    stretches,
    gaps: gaps.map((gap) => ({ ...gap, distance: onRide(travelled, gap.from) })),
    travelled,
    crossings: between.map(({ from, to }, after) => ({
      after,
      distance: distance[stretches[after]!.last]!,
      length: to - from,
      recordedTime: timeBetween(points.time, track, from, to),
      ...wayBetween(points, track, from, to),
    })),
    proposals: read.proposals.filter((part) => !travelled.some(({ from, to }) => part.from < to && part.to > from)),
    ...totalTime(time),
    counts,
  }
}

/** The points strictly between two places of the track, where there are any. */
function wayBetween({ latitude, longitude }: Points, track: Float64Array, from: number, to: number): Pick<Gap, 'way'> {
  const first = indexAtOrBelow(track, from) + 1
  let last = first
  while (last < track.length && track[last]! < to) last++
  if (last === first) return {}
  return { way: { latitude: latitude.slice(first, last), longitude: longitude.slice(first, last) } }
}

function cumulate(step: Float64Array): Float64Array {
  const sum = new Float64Array(step.length)
  for (let i = 1; i < step.length; i++) sum[i] = sum[i - 1]! + step[i]!
  return sum
}
