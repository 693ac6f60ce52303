import { distance, heading, scaleAt } from '../geo/scale'
import type { Points } from './points'

/** Slower than this over half a minute, m/s, is standing: a receiver at rest wanders by about 10 m. */
const STANDING = 0.7
const STANDING_WINDOW = 30

/** From point to point. */
export interface Run {
  first: number
  last: number
}

/** Points from one standing to the next, inclusive; the standing before begins at haltFirst and lasts halt seconds, 0 at the start of a run. */
export interface Move extends Run {
  haltFirst: number
  halt: number
}

/** Runs of points that all have a time. */
export function timedRuns({ time }: Points): Run[] {
  const runs: Run[] = []
  let first = 0
  for (let i = 0; i <= time.length; i++) {
    if (i < time.length && !Number.isNaN(time[i]!)) continue
    if (i - first > 1) runs.push({ first, last: i - 1 })
    first = i + 1
  }
  return runs
}

/** Moves of a run, in order. */
export function movesOf(points: Points, { first, last }: Run): Move[] {
  const moves: Move[] = []
  const { time } = points
  let haltFirst = first
  let from = first
  let ahead = first
  let standsUntil = first
  for (let i = first; i < last; i++) {
    while (ahead < last && time[ahead]! - time[i]! < STANDING_WINDOW) ahead++
    if (chord(points, i, ahead) < STANDING * (time[ahead]! - time[i]!)) {
      if (standsUntil < i || i === first) {
        moves.push({ first: from, last: i, haltFirst, halt: time[from]! - time[haltFirst]! })
        haltFirst = i
      }
      standsUntil = ahead
    }
    if (i < standsUntil) from = i + 1
  }
  moves.push({ first: from, last, haltFirst, halt: time[from]! - time[haltFirst]! })
  return moves
}

/** Straight distance, m, good for short ones. */
function chord({ latitude, longitude }: Points, from: number, to: number): number {
  const scale = scaleAt(latitude[from]!)
  const north = (latitude[to]! - latitude[from]!) * scale.north
  const east = (longitude[to]! - longitude[from]!) * scale.east
  return Math.sqrt(north * north + east * east)
}

/** A whole minute of a move. */
export interface Minute {
  /** m/s and radians, straight from end to end, so that the wander of a receiver is no speed. */
  speed: number
  heading: number
  /** Along the track, m. */
  length: number
  /** m; NaN where unknown. */
  rise: number
}

/** Reads the whole minutes between two points. @param minutes takes them, behind those that are there */
export function readMinutes(minutes: Minute[], points: Points, track: Float64Array, { first, last }: Run): void {
  const { time } = points
  let i = first
  let before: Record<'at' | 'latitude' | 'longitude' | 'elevation', number> | undefined
  for (let clock = time[first]!; clock <= time[last]!; clock += 60) {
    while (i + 1 < last && time[i + 1]! <= clock) i++
    const share = (clock - time[i]!) / (time[i + 1]! - time[i]! || 1)
    const read = (column: Float64Array) =>
      share === 0 ? column[i]! : column[i]! + share * (column[i + 1]! - column[i]!)
    const now = {
      at: read(track),
      latitude: read(points.latitude),
      longitude: read(points.longitude),
      elevation: read(points.elevation),
    }
    if (before !== undefined) {
      const ends = [before.latitude, before.longitude, now.latitude, now.longitude] as const
      minutes.push({
        speed: distance(...ends) / 60,
        heading: heading(...ends),
        length: now.at - before.at,
        rise: now.elevation - before.elevation,
      })
    }
    before = now
  }
}
