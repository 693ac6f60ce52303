import { indexAtOrBelow, interpolate } from '../columns'
import { unwrap } from '../geo/scale'
import { mendElevation } from './elevation'
import { JOINED, takeOutJumps } from './jumps'
import type { Part } from './parts'
import { cut, emptyPoints, measureSteps, type Points, without } from './points'
import { type ProposedPart, recognise } from './recognise'
import { ridden } from './ridden'
import type { CleaningCounts, ElevationKnown, Gap } from './route'
import { onRide, type Stretch, type Travelled, travelledOf } from './travelled'

/** Cleaned points in ridden order, one entry a point in every column. */
export interface Cleaned {
  /** Degrees; longitude continuous, so that it may pass 180. */
  latitude: Float64Array
  longitude: Float64Array
  /** m; no entry is unknown: holes are drawn straight. 0 everywhere where the file has none. */
  elevation: Float64Array
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
  /** What looks travelled in the recording, and is counted as ridden. */
  proposals: ProposedPart[]
  elevationKnown: ElevationKnown
  /** Longest stretch drawn straight because the file has no elevation there, m. */
  longestHole: number
  recordedTime: number | undefined
  counts: CleaningCounts
}

/** A gap of the track: proposed as a crossing unless the rider says that it was ridden. */
export interface ProposedGap extends Stretch {
  /** Ridden distance at which it begins, m. */
  distance: number
  /** Geodesic length, m. */
  length: number
  recordedTime: number | undefined
  ridden: boolean
}

/**
 * One line of cleaned points from the parts of a file: repeated, impossible and displaced points taken out, unknown elevations drawn
 * straight, gaps found; all counted.
 *
 * @param parts segments in ridden order
 * @param riddenGaps numbers of the gaps, in their order here, that were ridden in a straight line; the others are left out of the distance
 * @param marked parts that were not ridden; cut exactly where they begin and end, on the straight line between the points there
 * @returns cleaned columns; no stretches where fewer than two points are left, or nothing is ridden
 */
export function clean(parts: Part[], riddenGaps: number[], marked: readonly Stretch[] = []): Cleaned {
  const counts: CleaningCounts = {
    repeatedPoints: 0,
    zeroPoints: 0,
    outOfRangePoints: 0,
    jumps: 0,
    unknownElevations: 0,
    elevationSpikes: 0,
    backwardTimes: 0,
  }
  const points = takeOutJumps(gather(parts, counts), counts)
  counts.backwardTimes = mendTimes(points.time)
  return measure(points, riddenGaps, marked, counts)
}

/** Steps 1 to 3: impossible points, zeros and repetitions taken out. */
function gather(parts: Part[], counts: CleaningCounts): Points {
  const most = parts.reduce((sum, { latitude }) => sum + latitude.length, 0)
  const points = emptyPoints(most)
  const zeroIsReal = nearZero(parts)
  let n = 0
  for (const part of parts) {
    let starts = 1
    for (let i = 0; i < part.latitude.length; i++) {
      const latitude = part.latitude[i]!
      const longitude = part.longitude[i]!
      if (!(Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180)) {
        counts.outOfRangePoints++
        continue
      }
      if (latitude === 0 && longitude === 0 && !zeroIsReal) {
        counts.zeroPoints++
        continue
      }
      const near = n === 0 ? longitude : unwrap(longitude, points.longitude[n - 1]!)
      if (n > 0 && latitude === points.latitude[n - 1] && near === points.longitude[n - 1]) {
        counts.repeatedPoints++
        if (Number.isNaN(points.elevation[n - 1]!)) points.elevation[n - 1] = part.elevation[i]!
        continue
      }
      points.latitude[n] = latitude
      points.longitude[n] = near
      points.elevation[n] = part.elevation[i]!
      points.time[n] = part.time[i]!
      points.starts[n] = starts
      starts = 0
      n++
    }
  }
  return measureSteps(cut(points, n))
}

/** Whether the file's other points lie about latitude 0, longitude 0, so that a point there is no missing fix. */
function nearZero(parts: Part[]): boolean {
  for (const { latitude, longitude } of parts) {
    for (let i = 0; i < latitude.length; i++) {
      if (latitude[i] === 0 && longitude[i] === 0) continue
      if (Math.abs(latitude[i]!) < 0.5 && Math.abs(longitude[i]!) < 0.5) return true
    }
  }
  return false
}

/**
 * Takes out times that run backwards: a single wrong one becomes unknown, a clock that was set back and goes on is left from there.
 * Returns how many places there were.
 */
function mendTimes(time: Float64Array): number {
  let places = 0
  let last = -1
  let beforeLast = -1
  for (let i = 0; i < time.length; i++) {
    if (Number.isNaN(time[i]!)) continue
    if (last >= 0 && time[i]! < time[last]!) {
      places++
      let next = i + 1
      while (next < time.length && Number.isNaN(time[next]!)) next++
      const goesOn = next < time.length && time[next]! >= time[i]! && time[next]! < time[last]!
      if (!goesOn) {
        time[i] = NaN
        continue
      }
      // Either the one before was too late, or the clock was set back for good.
      if (beforeLast >= 0 && time[beforeLast]! <= time[i]!) time[last] = NaN
    }
    beforeLast = last
    last = i
  }
  return places
}

/** Steps 5 and 6: distance, gaps, what is not ridden, and elevation. */
function measure(all: Points, riddenGaps: number[], marked: readonly Stretch[], counts: CleaningCounts): Cleaned {
  const points = withoutLonePoints(all, counts)
  const track = cumulate(points.step)
  const gaps = gapsOf(points, track, riddenGaps)
  const travelled = travelledOf(
    gaps.filter(({ ridden }) => !ridden),
    marked,
    track[track.length - 1] ?? 0,
  )
  const { latitude, longitude, elevation, time, distance, stretches } = ridden(points, track, travelled)
  const between = travelled.filter(({ place }) => place === 'between')
  return {
    latitude,
    longitude,
    ...mendElevation(elevation, distance, counts),
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
    proposals: recognise(points, track).filter(
      (part) => !travelled.some(({ from, to }) => part.from < to && part.to > from),
    ),
    recordedTime: totalTime(time),
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

function gapsOf(points: Points, track: Float64Array, riddenGaps: number[]): Omit<ProposedGap, 'distance'>[] {
  const gaps: Omit<ProposedGap, 'distance'>[] = []
  for (let i = 1; i < track.length; i++) {
    if (!isAfterGap(points, i)) continue
    const time = points.time[i]! - points.time[i - 1]!
    gaps.push({
      from: track[i - 1]!,
      to: track[i]!,
      length: points.step[i]!,
      recordedTime: time >= 0 ? time : undefined,
      ridden: riddenGaps.includes(gaps.length),
    })
  }
  return gaps
}

/** Seconds of the recording between two places of the track, where the file has times about both. */
function timeBetween(time: Float64Array, track: Float64Array, from: number, to: number): number | undefined {
  const seconds = interpolate(track, time, to) - interpolate(track, time, from)
  return seconds >= 0 ? seconds : undefined
}

/** A point far from the one before that begins a part. */
function isAfterGap({ starts, step }: Points, i: number): boolean {
  return i > 0 && i < step.length && starts[i] === 1 && step[i]! > JOINED
}

/** A single point between two gaps is no stretch. */
function withoutLonePoints(points: Points, counts: CleaningCounts): Points {
  const n = points.step.length
  const drop = new Uint8Array(n)
  for (let i = 0; i < n; i++) {
    const begins = i === 0 || isAfterGap(points, i)
    const ends = i === n - 1 || isAfterGap(points, i + 1)
    if (begins && ends) drop[i] = 1
  }
  if (n > 1) counts.jumps += drop.reduce((sum, d) => sum + d, 0)
  return n > 1 ? without(points, drop) : points
}

function totalTime(time: Float64Array): number | undefined {
  const first = time.find((t) => !Number.isNaN(t))
  const last = time.findLast((t) => !Number.isNaN(t))
  return first !== undefined && last !== undefined && last > first ? last - first : undefined
}
