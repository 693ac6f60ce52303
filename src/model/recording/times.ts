import { interpolate } from '../columns'
import type { Route } from '../route/route'
import type { RecordedCrossing, RecordedHalt, Span } from './recording'
import type { Stood } from './standing'

/** Nothing recorded for as long, s, and for so many usual steps, while the rider moved: what happened there is not known. Choices. */
const longestSilence = 60
const unusual = 10
/** Who moves comes farther than this, m. */
const moved = 30

/** What the times of a recording say of its way. */
export interface Clocked {
  /** Riding time since the start at each point of the route, s: without halts and crossings; drawn straight where unknown. */
  riding: Float64Array
  halts: RecordedHalt[]
  crossings: RecordedCrossing[]
  untrusted: Span[]
  dropOuts: { count: number; length: number; time: number }
}

/**
 * Lays the times of a recording out along its way.
 *
 * @param route made of it
 * @param time Unix time of each of the route's points, s; NaN where unknown
 * @param stood halts in order; those while something was travelled are none of the ride
 */
export function clocked(route: Route, time: Float64Array, stood: readonly Stood[]): Clocked {
  const { distance } = route.points
  const riding = new Float64Array(time.length)
  const untrusted: Span[] = []
  const dropOuts = { count: 0, length: 0, time: 0 }
  const crossed = crossedTimes(route, time, stood)
  const halts = stood.filter(({ arrive }) => !crossed.some(({ from, to }) => arrive > from + 1 && arrive < to))
  const longest = Math.max(longestSilence, unusual * usualStep(time))
  const placeAt = placesBy(route, time)
  let now = 0
  for (const { firstPoint, lastPoint } of route.sections) {
    let before = -1
    for (let i = firstPoint; i <= lastPoint; i++) {
      if (Number.isNaN(time[i]!) && i < lastPoint) continue
      const from = before < 0 ? firstPoint : before
      const step = time[i]! - time[from]! - stoodBetween(halts, time[from]!, time[i]!)
      const length = distance[i]! - distance[from]!
      if (length > moved && !(step >= 0 && step <= longest)) {
        untrusted.push({ from: distance[from]!, to: distance[i]! })
        if (step > 0) {
          dropOuts.count++
          dropOuts.length += length
          dropOuts.time += step
        }
      }
      const took = step > 0 ? step : 0
      for (let k = from; k <= i; k++)
        riding[k] = now + (length > 0 ? (took * (distance[k]! - distance[from]!)) / length : k === i ? took : 0)
      now += took
      before = i
    }
  }
  return {
    riding,
    halts: halts.map((halt) => ({ distance: placeAt(halt.arrive), ...halt })),
    crossings: route.crossings.map(({ distance, length }, k) => ({ distance, length, time: crossed[k]!.time })),
    untrusted,
    dropOuts,
  }
}

/** Of each crossing the time at its two ends, and how long it took without the halt before it. */
function crossedTimes({ sections }: Route, time: Float64Array, stood: readonly Stood[]) {
  return sections.slice(1).map(({ firstPoint }, k) => {
    const from = time[sections[k]!.lastPoint]!
    const to = time[firstPoint]!
    const halt = stood.find(({ arrive }) => arrive >= from && arrive <= from + 1)
    return { from, to, time: to - from - (halt === undefined ? 0 : Math.min(halt.time, to - from)) }
  })
}

/** How long the rider stood between two times, s. */
function stoodBetween(halts: readonly Stood[], from: number, to: number): number {
  let low = 0
  let high = halts.length
  // The first that ends after `from`.
  while (low < high) {
    const middle = (low + high) >> 1
    if (halts[middle]!.arrive + halts[middle]!.time <= from) low = middle + 1
    else high = middle
  }
  let sum = 0
  for (let k = low; k < halts.length && halts[k]!.arrive < to; k++) {
    const { arrive, time } = halts[k]!
    sum += Math.min(arrive + time, to) - Math.max(arrive, from)
  }
  return sum
}

function usualStep(time: Float64Array): number {
  const steps = time.subarray(1).map((t, i) => t - time[i]!)
  const known = steps.filter((step) => step > 0).sort()
  return known[known.length >> 1] ?? 0
}

/** Ridden distance at a time, m. */
function placesBy({ points }: Route, time: Float64Array): (at: number) => number {
  const isKnown = (_: number, i: number) => !Number.isNaN(time[i]!)
  const times = time.filter(isKnown)
  const places = points.distance.filter(isKnown)
  return (at) => interpolate(times, places, at)
}
