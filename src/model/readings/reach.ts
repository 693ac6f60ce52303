import { indexAtOrBelow } from '../columns'
import { readingAt } from './at'
import { chargesUpTo } from './charged'
import { leftAfter, leftAtFinish, type Halt, type Outcome } from '../forecast/outcome'

/** How far the charge lasts from a place, down to the reserve. */
export interface Reach {
  /** Usable energy at the place, J. */
  left: number
  /** Ridden distance at which the reserve is reached, m; undefined where the charge lasts to the finish. */
  until: number | undefined
  /** Metres from the place to there, or to the finish. */
  length: number
  /** Usable energy above the reserve at the finish, J; 0 where it does not last. */
  spare: number
  /** Metres that the spare would add at the route's mean drain; 0 where it does not last, undefined where nothing is drained. */
  spareLength: number | undefined
}

/**
 * Reach from a place with the plan as it stands.
 *
 * @param outcome the forecast
 * @param distance ridden distance, m; at a stop this is on arrival, with the stop's charge still to come
 */
export function reachFrom(outcome: Outcome, distance: number): Reach {
  const at = outcome.route.stations.distance
  const below = indexAtOrBelow(at, distance)
  const first = below > 0 && at[below - 1] === at[below] ? below - 1 : below
  const left = at[below] === distance ? outcome.columns.left[first]! : readingAt(outcome, distance).left
  const station = at[below]! < distance && below + 1 < at.length ? below + 1 : first
  return walk(outcome, distance, station, left, left, (_halt) => true)
}

/**
 * Reach from a stop as if nothing were charged there, and with what the plan charges there.
 * Without the charge, what is drained further on is taken from the forecast; what later stops add is as planned,
 * and those that charge up to a share make up for the difference.
 *
 * @param station the stop's station
 */
export function reachAtStop(outcome: Outcome, station: number): { before: Reach; after: Reach } {
  const distance = outcome.route.stations.distance[station]!
  const arrival = outcome.columns.left[station]!
  const elsewhere = (halt: Halt) => halt.station !== station
  return {
    before: walk(outcome, distance, station, arrival, arrival, elsewhere),
    after: walk(outcome, distance, station, leftAfter(outcome, station), arrival, elsewhere),
  }
}

/** Energy, J, that counts as none: a pack at its cut-off voltage gives ever less and never quite nothing. */
const nothing = 1

/**
 * @param station first station at or beyond the place
 * @param energy usable energy at the place, J
 * @param forecast what the forecast has there, J
 * @param counts whether what a halt charges is added
 */
function walk(
  outcome: Outcome,
  distance: number,
  station: number,
  energy: number,
  forecast: number,
  counts: (halt: Halt) => boolean,
): Reach {
  const { columns, route, reserve, halts, emptyAt } = outcome
  const at = route.stations.distance
  const endAt = (until: number): Reach => ({
    left: energy,
    until,
    length: until - distance,
    spare: 0,
    spareLength: 0,
  })
  let left = energy
  let before = forecast
  let halt = halts.findIndex((halt) => halt.station >= station)
  if (halt < 0) halt = halts.length
  for (let i = station; i < at.length; i++) {
    if ((left < reserve || left < nothing) && (i > station || at[i]! > distance)) return endAt(distance)
    if (at[i]! > distance) {
      const taken = before - columns.left[i]!
      if (left - taken < reserve) {
        const place = Math.max(at[i - 1]!, distance)
        return endAt(place + (at[i]! - place) * ((left - reserve) / taken))
      }
      left -= taken
      before = columns.left[i]!
    }
    for (; halt < halts.length && halts[halt]!.station === i; halt++) {
      const { leftBefore, leftAfter } = halts[halt]!
      before = leftAfter
      if (!counts(halts[halt]!)) continue
      const upTo = chargesUpTo(outcome, halts[halt]!)
      left = upTo === undefined ? left + leftAfter - leftBefore : Math.max(left, upTo)
    }
    // A motor that stops above the reserve: with no reserve, or by the pack's cut-off voltage.
    if (at[i] === emptyAt) return endAt(at[i]!)
  }
  if (left < reserve || left < nothing) return endAt(distance)
  const spare = left - reserve
  const drain = columns.drained[at.length - 1]! / outcome.length
  return {
    left: energy,
    until: undefined,
    length: outcome.length - distance,
    spare,
    spareLength: drain > 0 ? spare / drain : undefined,
  }
}

/** Whether and with what margin the charge lasts. */
export interface Margin {
  /** 'reserve': the finish is reached under power, but below the reserve. */
  verdict: 'lasts' | 'reserve' | 'empty'
  /** Usable energy at the finish less the reserve, J. Negative where it does not suffice. */
  margin: number
  /** Where the reserve is reached and where the motor stops for good, m. */
  reserveAt: number | undefined
  emptyAt: number | undefined
  /** Metres ridden without the motor. */
  withoutMotor: number
}

/** The least usable energy on arrival anywhere, J, and its ridden distance, m. */
export function leastCharge({ columns: { left }, route }: Outcome): { left: number; distance: number } {
  let lowest = 0
  for (let i = 1; i < left.length; i++) if (left[i]! < left[lowest]!) lowest = i
  return { left: left[lowest]!, distance: route.stations.distance[lowest]! }
}

/** The answer in numbers. */
export function marginOf(outcome: Outcome): Margin {
  const { emptyAt, reserveAt, reserve } = outcome
  const margin = leftAtFinish(outcome) - reserve
  const verdict = emptyAt !== undefined ? 'empty' : reserveAt !== undefined ? 'reserve' : 'lasts'
  return { verdict, margin, reserveAt, emptyAt, withoutMotor: emptyAt === undefined ? 0 : unpowered(outcome) }
}

function unpowered({ columns, route }: Outcome): number {
  const { distance } = route.stations
  let sum = 0
  for (let i = 0; i + 1 < distance.length; i++) if (columns.left[i] === 0) sum += distance[i + 1]! - distance[i]!
  return sum
}
