import { distance, heading, scaleAt } from '../geo/scale'
import { JOINED } from './jumps'
import type { Points } from './points'
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

/** Slower than this over half a minute, m/s, is standing: a receiver at rest wanders by about 10 m. */
const STANDING = 0.7
const STANDING_WINDOW = 30
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

/** What goes faster than this needs, W, for three minutes is no rider: a trained one gives half of it. */
const RIDER_LIMIT = 700
/** A strong motor helps up to its speed limit and a little more: W, m/s. */
const MOTOR_HELP = { power: 600, until: 7.5 }
/** In the rider's favour: low drag, good tyres, light where it goes up and heavy where it goes down; kg, m². */
const FAVOUR = { dragArea: 0.4, rolling: 0.004, light: 75, heavy: 150, airDensity: 1.2, gravity: 9.81 }
/** Where the elevation is not known the road may fall this steeply. */
const UNKNOWN_SLOPE = -0.1
const FAST_WINDOW = 3
/** A train is fast over at least this share of its way from stop to stop, and stands no longer than this between, s. */
const FAST_SHARE = 0.5
const STATION_STOP = 10 * 60

/**
 * Parts of a recording that look travelled rather than ridden. Only proposals: nothing is left out for them.
 *
 * A ferry: after a halt of 3 minutes or more, at least 10 minutes without standing, steady in speed as an engine is and no wind-blown rider,
 * level as water within the noise of a receiver, without the turns of a road, up to the next standing. A short passage, one in a strong
 * tide, and a ride behind a motor at its speed limit on a straight dead-level path are not told apart by this.
 *
 * A train or car: from stop to stop, with at least three minutes and half the way at a speed for which a rider in the most favourable
 * position would need more than 700 W (by Martin et al. 1998, without wind), which is 50 km/h on the level. Slower ones are not found.
 *
 * Linear in the points.
 *
 * @param points of the whole track; without times there are no proposals
 * @param track distance of each from the first, m, ascending
 * @returns parts in order, on the track, that begin and end at points
 */
export function recognise(points: Points, track: Float64Array): ProposedPart[] {
  const found: ProposedPart[] = []
  let lastMove: Move | undefined
  for (const move of timedRuns(points).flatMap((run) => movesOf(points, run))) {
    if (points.time[move.last]! - points.time[move.first]! < 60 * FAST_WINDOW || isSilent(points, move)) continue
    const minutes = minutesOf(points, track, move)
    const part = level(points, track, move, minutes) ?? fast(points, track, move, minutes)
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

interface Run {
  first: number
  last: number
}

/** Points from one standing to the next, inclusive; the standing before begins at haltFirst and lasts halt seconds, 0 at the start of a run. */
interface Move extends Run {
  haltFirst: number
  halt: number
}

/** Runs of points that all have a time, without a gap of the track. */
function timedRuns({ time, starts, step }: Points): Run[] {
  const runs: Run[] = []
  let first = 0
  for (let i = 0; i <= time.length; i++) {
    const known = i < time.length && !Number.isNaN(time[i]!)
    if (known && !(starts[i] === 1 && step[i]! > JOINED)) continue
    if (i - first > 1) runs.push({ first, last: i - 1 })
    first = known ? i : i + 1
  }
  return runs
}

function movesOf(points: Points, { first, last }: Run): Move[] {
  const moves: Move[] = []
  const { time } = points
  let haltFirst = first
  let from = first
  let ahead = first
  let standsUntil = first
  for (let i = first; i < last; i++) {
    if (ahead <= i) ahead = i + 1
    while (ahead < last && time[ahead]! - time[i]! < STANDING_WINDOW) ahead++
    if (chord(points, i, ahead) < STANDING * (time[ahead]! - time[i]!)) {
      if (standsUntil < i || i === first) {
        if (i > from) moves.push({ first: from, last: i, haltFirst, halt: time[from]! - time[haltFirst]! })
        haltFirst = i
      }
      standsUntil = ahead
    }
    if (i < standsUntil) from = i + 1
  }
  if (last > from) moves.push({ first: from, last, haltFirst, halt: time[from]! - time[haltFirst]! })
  return moves
}

/** Straight distance, m, good for short ones. */
function chord({ latitude, longitude }: Points, from: number, to: number): number {
  const scale = scaleAt(latitude[from]!)
  const north = (latitude[to]! - latitude[from]!) * scale.north
  const east = (longitude[to]! - longitude[from]!) * scale.east
  return Math.sqrt(north * north + east * east)
}

/** A move's columns read once a minute. */
interface Minutes {
  /** m/s, straight from end to end of each whole minute, so that the wander of a receiver is no speed. */
  speed: number[]
  /** m on the track and degrees, at the ends of the minutes: one more than these. */
  at: number[]
  latitude: number[]
  longitude: number[]
  /** m; NaN where unknown. */
  elevation: number[]
}

function minutesOf(points: Points, track: Float64Array, { first, last }: Run): Minutes {
  const { time } = points
  const minutes: Minutes = { speed: [], at: [], latitude: [], longitude: [], elevation: [] }
  let i = first
  for (let clock = time[first]!; clock <= time[last]!; clock += 60) {
    while (i + 1 < last && time[i + 1]! <= clock) i++
    const share = (clock - time[i]!) / (time[i + 1]! - time[i]! || 1)
    const read = (column: Float64Array) =>
      share === 0 ? column[i]! : column[i]! + share * (column[i + 1]! - column[i]!)
    minutes.at.push(read(track))
    for (const key of ['latitude', 'longitude', 'elevation'] as const) minutes[key].push(read(points[key]))
  }
  const { latitude, longitude } = minutes
  for (let k = 0; k + 1 < latitude.length; k++)
    minutes.speed.push(distance(latitude[k]!, longitude[k]!, latitude[k + 1]!, longitude[k + 1]!) / 60)
  return minutes
}

function level(points: Points, track: Float64Array, move: Move, minutes: Minutes): ProposedPart | undefined {
  const { first, last, halt } = move
  const time = points.time[last]! - points.time[first]!
  if (halt < BOARDING || time < SHORTEST_PASSAGE) return undefined
  const cruise = longestRun(minutes.speed, middle(minutes.speed))
  const speeds = minutes.speed.slice(cruise.first, cruise.last)
  if (speeds.length < CRUISING * minutes.speed.length) return undefined
  const speed = mean(speeds)
  if (speed < SHIP_SPEEDS.least || speed > SHIP_SPEEDS.most) return undefined
  if (Math.sqrt(mean(speeds.map((v) => (v - speed) ** 2))) > STEADY * speed) return undefined
  if (turns(minutes, cruise) > TURNS * speeds.length || !isLevel(points, move)) return undefined
  return { from: track[first]!, to: track[last]!, kind: 'level', time, speed, halt }
}

function isSilent({ time }: Points, { first, last }: Run): boolean {
  for (let i = first; i < last; i++) if (time[i + 1]! - time[i]! > LONGEST_SILENCE) return true
  return false
}

/** The longest run of minutes within the band about a speed; `last` is behind it. */
function longestRun(speed: readonly number[], about: number): Run {
  let longest = { first: 0, last: 0 }
  let first = 0
  for (let k = 0; k <= speed.length; k++) {
    if (k < speed.length && Math.abs(speed[k]! - about) <= CRUISING_BAND * about) continue
    if (k - first > longest.last - longest.first) longest = { first, last: k }
    first = k + 1
  }
  return longest
}

/** How often the way turns from one minute to the next. */
function turns({ latitude, longitude }: Minutes, { first, last }: Run): number {
  let count = 0
  let before: number | undefined
  for (let k = first; k < last; k++) {
    const now = heading(latitude[k]!, longitude[k]!, latitude[k + 1]!, longitude[k + 1]!)
    const turn = before === undefined ? 0 : Math.abs(now - before)
    if (Math.min(turn, 2 * Math.PI - turn) > TURN) count++
    before = now
  }
  return count
}

/** Whether nine tenths of the elevations lie as close together as on water, and the way neither rises nor falls; not where none is known. */
function isLevel({ elevation }: Points, { first, last }: Run): boolean {
  const known = elevation.slice(first, last + 1).filter((h) => !Number.isNaN(h))
  if (known.length < (last - first) / 2) return false
  const third = Math.ceil(known.length / 3)
  const rise = middle(known.subarray(-third)) - middle(known.subarray(0, third))
  const sorted = known.slice().sort()
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))]!
  return at(0.95) - at(0.05) <= LEVEL_BAND && Math.abs(rise) <= LEVEL_RISE
}

function fast(points: Points, track: Float64Array, move: Move, { at, elevation }: Minutes): ProposedPart | undefined {
  const { first, last, halt } = move
  const time = points.time[last]! - points.time[first]!
  const isFast = new Uint8Array(at.length)
  for (let k = 0; k + FAST_WINDOW < at.length; k++) {
    const length = at[k + FAST_WINDOW]! - at[k]!
    const rise = elevation[k + FAST_WINDOW]! - elevation[k]!
    const speed = length / (60 * FAST_WINDOW)
    const limit = RIDER_LIMIT + (speed < MOTOR_HELP.until ? MOTOR_HELP.power : 0)
    if (powerFor(speed, Number.isNaN(rise) ? UNKNOWN_SLOPE : rise / length) > limit) isFast.fill(1, k, k + FAST_WINDOW)
  }
  let way = 0
  for (let k = 0; k + 1 < at.length; k++) if (isFast[k] === 1) way += at[k + 1]! - at[k]!
  const length = track[last]! - track[first]!
  if (way === 0 || way < FAST_SHARE * length) return undefined
  return { from: track[first]!, to: track[last]!, kind: 'fast', time, speed: length / time, halt }
}

/** Power at the wheel that a rider in the most favourable position needs, W. */
function powerFor(speed: number, slope: number): number {
  const { dragArea, rolling, light, heavy, airDensity, gravity } = FAVOUR
  const mass = slope < 0 ? heavy : light
  return mass * gravity * (slope + rolling) * speed + (airDensity / 2) * dragArea * speed ** 3
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

const middle = (values: ArrayLike<number>): number => Float64Array.from(values).sort()[values.length >> 1]!
