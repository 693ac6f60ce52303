import { indexAtOrBelow, interpolate, placed } from '../columns'
import { JOINED } from './jumps'
import type { Points } from './points'
import { cruiseBetween, HOLE_BAND, type ProposedPart, recognise } from './recognise'
import { isBeyondRider } from './rider-limit'
import { LONGEST_RIDE } from './times'
import type { Stretch } from './travelled'

/** Why a gap is taken as a crossing, or as ridden: a code with what speaks for it, SI. */
export type GapReason =
  /** A crossing, by its speed; by how long nothing was recorded; for it lies in what looks travelled; for the file breaks off, without times. */
  | { code: 'tooFast'; speed: number }
  | { code: 'silent'; time: number }
  | { code: 'travelled'; kind: ProposedPart['kind']; speed: number }
  | { code: 'brokenOff' }
  /** Ridden: at a speed that riders have, soon; or drawn straight, without times. */
  | { code: 'rideable'; speed: number }
  | { code: 'drawn' }

const RIDDEN: readonly GapReason['code'][] = ['rideable', 'drawn']

/** What the file says nothing of, with what belongs to it: holes next to each other and what was travelled about them. On the whole track. */
export interface GapRead extends Stretch {
  /** Of the holes in it, among all that are told. */
  numbers: number[]
  why: GapReason
  isCrossing: boolean
}

/** Nothing recorded for as long, s, over as far, m, is no tunnel: the recording was off, or below deck. Choices. */
const LONGEST_SILENCE = 10 * 60
const SILENT_LENGTH = 1000
/** Within a part, a step is a hole beyond so many usual ones. */
const UNUSUAL = 10
/** A line is told, though it counts as ridden, from this length on, m. */
const TOLD = 5000
/** Holes with no more than so many points between, and less way than half of either, are one: a stray position in a tunnel. */
const STRAY_POINTS = 10

/** From landing to boarding again, s. A choice. */
const SHORTEST_LANDING = 3 * 60

/** Between two points; `last` is the one behind it, or behind several that are one. */
interface Hole {
  first: number
  last: number
  /** A part ends before it, or it is long: told, whatever is made of it. */
  isTold: boolean
}

/**
 * What is made of the holes of a track. A hole is a crossing only if its speed or its time says so, or what was recorded about it; without times,
 * if the file ends a part there and begins another, while a line drawn within a part counts as ridden.
 *
 * @param points cleaned
 * @param track distance of each from the first, m, ascending
 * @returns gaps in order and apart from each other; and what looks travelled, without holes that tell so
 */
export function readHoles(points: Points, track: Float64Array): { gaps: GapRead[]; proposals: ProposedPart[] } {
  const holes = joinStray(holesOf(points), track).map((hole) => ({ hole, why: reasonFor(points, track, hole) }))
  const isCrossing = ({ why }: { why: GapReason }) => !RIDDEN.includes(why.code)
  const told = holes.filter((one) => one.hole.isTold || isCrossing(one))
  const parts = recognise(
    points,
    track,
    holes.map((one) => ({ ...one.hole, isCrossing: isCrossing(one) })),
  )
  const gaps = told.map((one, number) => ({
    from: track[one.hole.first]!,
    to: track[one.hole.last]!,
    numbers: [number],
    why: one.why,
    isCrossing: isCrossing(one),
  }))
  const proposals: ProposedPart[] = []
  for (const part of parts) {
    const inside = gaps.filter((gap) => gap.from <= part.to && gap.to >= part.from)
    if (inside.length === 0) proposals.push(part)
    else gaps.splice(gaps.indexOf(inside[0]!), inside.length, joined(inside, part))
  }
  return { gaps: joinNear(gaps, points, track), proposals }
}

/** Crossings next to each other are one: between them no one lands, rides and boards again, or all goes on at the speed of both. */
function joinNear(gaps: readonly GapRead[], points: Points, track: Float64Array): GapRead[] {
  const result: GapRead[] = []
  for (const next of gaps) {
    const last = result.at(-1)
    if (last?.isCrossing && next.isCrossing && isOne(last, next, points, track)) {
      last.to = next.to
      last.numbers.push(...next.numbers)
    } else result.push({ ...next, numbers: next.numbers.slice() })
  }
  return result
}

function isOne(one: Stretch, next: Stretch, points: Points, track: Float64Array): boolean {
  const landing = timeBetween(points.time, track, one.to, next.from)
  if (landing === undefined) return false
  if (landing < SHORTEST_LANDING) return true
  const cruise = cruiseBetween(points, track, indexAtOrBelow(track, one.to), indexAtOrBelow(track, next.from)) ?? NaN
  const speedOf = ({ from, to }: Stretch) => (to - from) / (timeBetween(points.time, track, from, to) ?? NaN)
  return [one, next].every((gap) => Math.abs(speedOf(gap) - cruise) <= HOLE_BAND * cruise)
}

function joined(gaps: readonly GapRead[], { from, to, kind, speed }: ProposedPart): GapRead {
  return {
    from: Math.min(from, gaps[0]!.from),
    to: Math.max(to, gaps.at(-1)!.to),
    numbers: gaps.flatMap(({ numbers }) => numbers),
    why: { code: 'travelled', kind, speed },
    isCrossing: true,
  }
}

function holesOf({ step, starts, time }: Points): Hole[] {
  const usual = UNUSUAL * middleStep(step, starts)
  const holes: Hole[] = []
  for (let i = 1; i < step.length; i++) {
    const begins = starts[i]! > 0 && step[i]! > JOINED
    const isLong = step[i]! > Math.max(TOLD, usual)
    const isTimed = !Number.isNaN(time[i]! - time[i - 1]!)
    if (begins || isLong || (isTimed && step[i]! > Math.max(JOINED, usual)))
      holes.push({ first: i - 1, last: i, isTold: begins || isLong })
  }
  return holes
}

function middleStep(step: Float64Array, starts: Uint8Array): number {
  const inside = step.filter((_, i) => i > 0 && starts[i] === 0)
  return placed(inside, inside.length >> 1) ?? 0
}

function joinStray(holes: readonly Hole[], track: Float64Array): Hole[] {
  const result: Hole[] = []
  for (const next of holes) {
    const last = result.at(-1)
    const between = last === undefined ? Infinity : track[next.first]! - track[last.last]!
    const way = (hole: Hole) => track[hole.last]! - track[hole.first]!
    if (last !== undefined && next.first - last.last < STRAY_POINTS && 2 * between < Math.min(way(last), way(next))) {
      last.last = next.last
      last.isTold ||= next.isTold
    } else result.push({ ...next })
  }
  return result
}

function reasonFor({ time, elevation, starts }: Points, track: Float64Array, { first, last }: Hole): GapReason {
  const seconds = time[last]! - time[first]!
  const length = track[last]! - track[first]!
  if (!(seconds > 0 && seconds <= LONGEST_RIDE)) return starts[last] === 1 ? { code: 'brokenOff' } : { code: 'drawn' }
  const speed = length / seconds
  if (isBeyondRider(length, seconds, elevation[last]! - elevation[first]!)) return { code: 'tooFast', speed }
  if (seconds >= LONGEST_SILENCE && length >= SILENT_LENGTH) return { code: 'silent', time: seconds }
  return { code: 'rideable', speed }
}

/** Seconds of the recording between two places of the track, where the file has times about both. */
export function timeBetween(time: Float64Array, track: Float64Array, from: number, to: number): number | undefined {
  const seconds = interpolate(track, time, to) - interpolate(track, time, from)
  return seconds >= 0 ? seconds : undefined
}
