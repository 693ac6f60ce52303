import { distance } from '../geo/scale'
import type { LineSummary } from './survey'
import { hasVariants, type Surveyed } from './variants'

/** Why the rider is asked which of the lines to ride: other days, variants of one ride, far apart, or together more than a day's ride. */
export type Question = 'days' | 'variants' | 'apart' | 'long'

/** Lines that make one ride, by their numbers, in order. */
export interface Ride {
  lines: number[]
  /** Of its lines, m. */
  length: number
  /** From the end of each of its lines to the beginning of the next, together, m. */
  between: number
}

export interface Arrangement {
  /** What could be ridden by itself, in order. */
  rides: Ride[]
  /** All of it, one after the other. */
  all: Ride
  /** Which of these is to be ridden unless the rider says otherwise. */
  proposed: Ride
  /** Undefined where nothing is to be asked. */
  question: Question | undefined
}

// All numbers below are choices.

/** A shorter line, m, is a stub: it is not ridden where there is a longer one. */
const STUB = 100
/** Another kind of line is ridden only if its longest is longer than the tracks by this factor. */
const FAR_LONGER = 2
/** Recordings with as long between them, s, are other days. */
const OTHER_DAY = 6 * 3600
/** Farther apart, m, lines are not joined without asking. */
export const APART = 10_000
/** Together longer, m, lines without times are no day's ride. */
const LONGEST_DAY = 600_000
/** Reordered only if it saves as much, m. */
const WORTH = 300
/** Rides that lie apart are one only if there is no more to cross than this share of what is ridden. */
export const CROSSED = 0.5
/** More lines than this are neither compared with each other nor put in another order. */
const MOST_COMPARED = 60

/**
 * Which lines of a file make a ride, and whether to ask.
 *
 * Tracks before routes and other lines, unless those are far longer. Lines with times are put in their order, and are other rides where a night
 * lies between; lines without are put in the order that leaves least to cross. Of other days and of variants the longest is proposed; what lies
 * more than 10 km apart is one ride only if there is little to cross.
 *
 * @param surveyed all lines of the file, at least one
 */
export function arrange(surveyed: readonly Surveyed[]): Arrangement {
  const lines = surveyed.map(({ summary }) => summary)
  const pool = poolOf(lines)
  const isTimed = pool.every((line) => lines[line]!.times !== undefined)
  const isSimultaneous = isTimed && overlaps(pool, lines)
  const order = isTimed ? byTime(pool, lines) : byEnds(pool, lines)
  const areChoices =
    isSimultaneous || (pool.length <= MOST_COMPARED && !isTimed && hasVariants(pool.map((line) => surveyed[line]!)))
  const { rides, question } = areChoices
    ? { rides: pool.map((line) => [line]), question: 'variants' as const }
    : split(order, lines)
  const made = rides.map((ride) => rideOf(ride, lines))
  const all = rideOf(order, lines)
  const isOne = made.length === 1 || (question === 'apart' && all.between <= CROSSED * all.length)
  const longest = made.reduce((best, ride) => (ride.length > best.length ? ride : best))
  return { rides: made, all, proposed: isOne ? all : longest, question }
}

/** Numbers of the lines that count. */
function poolOf(lines: readonly LineSummary[]): number[] {
  const numbers = lines.map((_, i) => i)
  const usable = numbers.filter((i) => lines[i]!.length >= STUB)
  const longest = numbers.reduce((best, i) => (lines[i]!.length > lines[best]!.length ? i : best), 0)
  if (usable.length === 0) return [longest]
  const tracks = usable.filter((i) => lines[i]!.kind === 'track')
  const length = tracks.reduce((sum, i) => sum + lines[i]!.length, 0)
  const { kind } = lines[longest]!
  if (tracks.length > 0 && lines[longest]!.length <= FAR_LONGER * length) return tracks
  return usable.filter((i) => lines[i]!.kind === kind)
}

function rideOf(numbers: number[], lines: readonly LineSummary[]): Ride {
  return {
    lines: numbers,
    length: numbers.reduce((sum, i) => sum + lines[i]!.length, 0),
    between: numbers.slice(1).reduce((sum, line, k) => sum + between(lines[numbers[k]!]!, lines[line]!), 0),
  }
}

/** From the end of a line to the beginning of another, m. */
export function between(line: LineSummary, next: LineSummary): number {
  const from = line.outline.at(-1)
  const to = next.outline[0]
  return from === undefined || to === undefined
    ? Infinity
    : distance(from.latitude, from.longitude, to.latitude, to.longitude)
}

function byTime(pool: readonly number[], lines: readonly LineSummary[]): number[] {
  return pool.slice().sort((a, b) => lines[a]!.times!.first - lines[b]!.times!.first)
}

/** Whether one line was recorded while another was. */
function overlaps(pool: readonly number[], lines: readonly LineSummary[]): boolean {
  const order = byTime(pool, lines)
  return order.some((line, k) => k > 0 && lines[line]!.times!.first < lines[order[k - 1]!]!.times!.last)
}

/** In the order of the file, or in that which goes on at the nearest beginning, whichever leaves less to cross. */
function byEnds(pool: readonly number[], lines: readonly LineSummary[]): number[] {
  if (pool.length > MOST_COMPARED) return pool.slice()
  let best = pool.slice()
  let least = rideOf(best, lines).between - WORTH
  for (const start of pool) {
    const left = new Set(pool)
    const order = [start]
    left.delete(start)
    while (left.size > 0) {
      const end = lines[order.at(-1)!]!
      const next = [...left].reduce((a, b) => (between(end, lines[b]!) < between(end, lines[a]!) ? b : a))
      order.push(next)
      left.delete(next)
    }
    const total = rideOf(order, lines).between
    if (total < least) {
      best = order
      least = total
    }
  }
  return best
}

/** Cuts an order into rides where it must not go on without asking. */
function split(
  order: readonly number[],
  lines: readonly LineSummary[],
): { rides: number[][]; question: Question | undefined } {
  let question: Question | undefined
  const rides: number[][] = [[order[0]!]]
  order.slice(1).forEach((line, k) => {
    const last = lines[order[k]!]!
    const next = lines[line]!
    const isOtherDay =
      last.times !== undefined && next.times !== undefined && next.times.first - last.times.last >= OTHER_DAY
    const isApart = between(last, next) > APART
    if (isOtherDay) question = 'days'
    else if (isApart) question ??= 'apart'
    if (isOtherDay || isApart) rides.push([line])
    else rides.at(-1)!.push(line)
  })
  if (question !== undefined) return { rides, question }
  const isLong =
    order.length > 1 && rideOf(order.slice(), lines).length > LONGEST_DAY && lines[order[0]!]!.times === undefined
  return isLong ? { rides: order.map((line) => [line]), question: 'long' } : { rides, question }
}
