import { movesOf, readMinutes, timedRuns, type Minute, type Move, type Run } from './moves'
import type { Points } from './points'
import { isBeyondRider } from './rider-limit'
import type { Stretch } from './travelled'

/** A part of a recorded track that looks travelled, not ridden. */
export interface ProposedPart extends Stretch {
  /** Steady and level as water; or too fast for a rider on such a slope. */
  kind: 'level' | 'fast'
  /** s, from end to end. */
  time: number
  /** m/s: of the steady minutes; or the mean from end to end. */
  speed: number
  /** How long the rider stood before it, s. */
  halt: number
}

// All numbers below are choices, set so that rides as recorded give no false proposal.

/** Who boards a ferry waits at least this long, s. */
const BOARDING = 3 * 60
/** Shorter passages, s, are not told from a good road: a rider may hold a speed within 1 % for five minutes, but hardly for ten. */
const SHORTEST_PASSAGE = 10 * 60
/** A ship's engine holds its speed: of the minutes this share, in one run, is within the band about the median; the rest casts off and lands. */
const CRUISING = 0.7
const CRUISING_BAND = 0.1
/**
 * Standard deviation over mean of the speed in such minutes, with 1 % or so from the receiver. Riders on level roads have more over ten
 * minutes, for wind, bends and junctions: 0.027 at the least in the rides tried, 0.03 to 0.1 as a rule.
 */
const STEADY = 0.025
const STEADY_WITNESSED = 0.05
const FEWEST_MINUTES = 5
/** Holes that say nothing by themselves are passed at the same speed, within this share. */
export const HOLE_BAND = 0.3
/** m/s; from a rope ferry to a fast catamaran. */
const SHIP_SPEEDS = { least: 2, most: 25 }
/** Height of water as a receiver sees it, m: nine tenths within a band for its ±5 m that drift by minutes, the first and last third near each other. */
const LEVEL_BAND = 15
const LEVEL_RISE = 8
/** A ship under way seldom turns by more than this from one minute to the next, radians; roads do. */
const TURN = Math.PI / 6
const TURNS = 0.1
/** Where the receiver was silent for longer while it moved, s, nothing is known of how it went. */
const LONGEST_SILENCE = 120

const FAST_WINDOW = 3
/** A train is fast over at least this share of its way from stop to stop, and stands no longer than this between, s. */
const FAST_SHARE = 0.5
const STATION_STOP = 10 * 60

/** A hole of the recording, from point to point. */
export interface PassedHole extends Run {
  /** By its speed or its time. */
  isCrossing: boolean
  /** Whatever is made of it, the rider is told. */
  isTold: boolean
}

/**
 * Parts of a recording that look travelled rather than ridden.
 *
 * A ferry: after a halt of 3 minutes or more, at least 10 minutes without standing, steady in speed as an engine is and no wind-blown rider,
 * level as water within the noise of a receiver, without the turns of a road, up to the next standing. A short passage, one in a strong
 * tide, and a ride behind a motor at its speed limit on a straight dead-level path are not told apart by this. With a hole on the way that is
 * a crossing by itself less is asked for.
 *
 * A train or car: from stop to stop, with at least three minutes and half the way at a speed for which a rider in the most favourable
 * position would need more than 700 W. Slower ones are not found.
 *
 * Linear in the points.
 *
 * @param points of the whole track; without times there are no such parts
 * @param track distance of each from the first, m, ascending
 * @param holes of the track, in order
 * @returns parts in order, on the track, that begin and end at points
 */
export function recognise(points: Points, track: Float64Array, holes: readonly PassedHole[]): ProposedPart[] {
  const found: ProposedPart[] = []
  let lastMove: Move | undefined
  let next = 0
  for (const move of timedRuns(points).flatMap((run) => movesOf(points, run))) {
    while (next < holes.length && holes[next]!.last <= move.first) next++
    const passed: PassedHole[] = []
    for (let k = next; k < holes.length && holes[k]!.first < move.last; k++) passed.push(holes[k]!)
    const part = partOf(points, track, move, passed)
    if (part === undefined) continue
    const last = found.at(-1)
    if (
      part.kind === 'fast' &&
      last?.kind === 'fast' &&
      lastMove?.last === move.haltFirst &&
      part.halt < STATION_STOP
    ) {
      last.to = part.to
      last.time += part.halt + part.time
      last.speed = (last.to - last.from) / last.time
    } else found.push(part)
    lastMove = move
  }
  return found
}

function partOf(
  points: Points,
  track: Float64Array,
  move: Move,
  passed: readonly PassedHole[],
): ProposedPart | undefined {
  if (isSilent(points, move, passed)) return undefined
  const minutes: Minute[] = []
  let first = move.first
  for (const hole of [...passed, { first: move.last, last: move.last }]) {
    readMinutes(minutes, points, track, { first, last: hole.first })
    first = Math.max(first, hole.last)
  }
  return level(points, track, move, minutes, passed) ?? fast(points, track, move, minutes, passed)
}

function level(
  points: Points,
  track: Float64Array,
  move: Move,
  minutes: readonly Minute[],
  passed: readonly PassedHole[],
): ProposedPart | undefined {
  const { first, last, halt } = move
  const time = points.time[last]! - points.time[first]!
  const isWitnessed = passed.some(({ isCrossing }) => isCrossing)
  if ((halt < BOARDING && !isWitnessed) || time < SHORTEST_PASSAGE) return undefined
  const speed = cruiseOf(minutes, isWitnessed ? STEADY_WITNESSED : STEADY)
  if (speed === undefined || !isLevel(points, move, isWitnessed)) return undefined
  const isAlike = (hole: Run) => Math.abs(speedOver(points, track, hole) - speed) <= HOLE_BAND * speed
  if (!passed.every((hole) => hole.isCrossing || isAlike(hole))) return undefined
  return { from: track[first]!, to: track[last]!, kind: 'level', time, speed, halt }
}

/** The steady speed of a ship, m/s, that most of some minutes have without the turns of a road. */
function cruiseOf(minutes: readonly Minute[], steady: number): number | undefined {
  if (minutes.length < FEWEST_MINUTES) return undefined
  const all = minutes.map(({ speed }) => speed)
  const cruise = longestRun(all, middle(all))
  const speeds = all.slice(cruise.first, cruise.last)
  if (speeds.length < CRUISING * all.length) return undefined
  const speed = mean(speeds)
  if (speed < SHIP_SPEEDS.least || speed > SHIP_SPEEDS.most) return undefined
  if (Math.sqrt(mean(speeds.map((v) => (v - speed) ** 2))) > steady * speed) return undefined
  return turns(minutes, cruise) > TURNS * speeds.length ? undefined : speed
}

/**
 * The speed of a ship, m/s, where all that was recorded between two holes could be aboard: steady, level if the height is known, without the
 * turns of a road; else undefined.
 */
export function cruiseBetween(points: Points, track: Float64Array, first: number, last: number): number | undefined {
  const minutes: Minute[] = []
  readMinutes(minutes, points, track, { first, last })
  return isLevel(points, { first, last }, true) ? cruiseOf(minutes, STEADY_WITNESSED) : undefined
}

function speedOver({ time }: Points, track: Float64Array, { first, last }: Run): number {
  return (track[last]! - track[first]!) / (time[last]! - time[first]!)
}

/** Whether the receiver was silent on the way, but for holes of which the rider is told. */
function isSilent({ time }: Points, { first, last }: Run, passed: readonly PassedHole[]): boolean {
  let next = 0
  for (let i = first; i < last; i++) {
    if (time[i + 1]! - time[i]! <= LONGEST_SILENCE) continue
    while (next < passed.length && passed[next]!.last <= i) next++
    const hole = passed[next]
    if (hole === undefined || hole.first > i || !(hole.isTold || hole.isCrossing)) return true
  }
  return false
}

/** The longest run of minutes within the band about a speed; `last` is behind it. */
function longestRun(speed: readonly number[], about: number): Run {
  let longest = { first: 0, last: 0 }
  let first = 0
  for (let k = 0; k <= speed.length; k++) {
    if (Math.abs(speed[k]! - about) <= CRUISING_BAND * about) continue
    if (k - first > longest.last - longest.first) longest = { first, last: k }
    first = k + 1
  }
  return longest
}

/** How often the way turns from one minute to the next. */
function turns(minutes: readonly Minute[], { first, last }: Run): number {
  let count = 0
  for (let k = first + 1; k < last; k++) {
    const turn = Math.abs(minutes[k]!.heading - minutes[k - 1]!.heading)
    if (Math.min(turn, 2 * Math.PI - turn) > TURN) count++
  }
  return count
}

/** Whether nine tenths of the elevations lie as close together as on water, and the way neither rises nor falls; where little is known, as assumed. */
function isLevel({ elevation }: Points, { first, last }: Run, assumed: boolean): boolean {
  const known = elevation.slice(first, last + 1).filter((h) => !Number.isNaN(h))
  if (known.length < (last - first) / 2) return assumed
  const third = Math.ceil(known.length / 3)
  const rise = middle(known.subarray(-third)) - middle(known.subarray(0, third))
  const sorted = known.slice().sort()
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))]!
  return at(0.95) - at(0.05) <= LEVEL_BAND && Math.abs(rise) <= LEVEL_RISE
}

function fast(
  points: Points,
  track: Float64Array,
  move: Move,
  minutes: readonly Minute[],
  passed: readonly PassedHole[],
): ProposedPart | undefined {
  const { first, last, halt } = move
  const time = points.time[last]! - points.time[first]!
  const isFast = new Uint8Array(minutes.length)
  for (let k = 0; k + FAST_WINDOW <= minutes.length; k++) {
    let length = 0
    let rise = 0
    for (let i = k; i < k + FAST_WINDOW; i++) {
      length += minutes[i]!.length
      rise += minutes[i]!.rise
    }
    if (isBeyondRider(length, 60 * FAST_WINDOW, rise)) isFast.fill(1, k, k + FAST_WINDOW)
  }
  let way = minutes.reduce((sum, { length }, k) => sum + isFast[k]! * length, 0)
  if (way === 0) return undefined
  for (const hole of passed) if (hole.isCrossing) way += track[hole.last]! - track[hole.first]!
  const length = track[last]! - track[first]!
  if (way < FAST_SHARE * length) return undefined
  return { from: track[first]!, to: track[last]!, kind: 'fast', time, speed: length / time, halt }
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

const middle = (values: ArrayLike<number>): number => Float64Array.from(values).sort()[values.length >> 1]!
