import { indexAtOrBelow, interpolate } from '../columns'
import { departure, leftAfter, type Outcome } from '../forecast/outcome'

/** All that is known of one place of the ride, SI. */
export interface Reading {
  distance: number
  elevation: number
  gradient: number
  speed: number
  riderPower: number
  motorPower: number
  /** Energy taken from the packs so far, J, and usable energy left, J. */
  drained: number
  left: number
  /** Drain of the step here, J/m. */
  drain: number
  /** Seconds since the start on passing. */
  time: number
  state: number
}

/**
 * The ride at a place.
 *
 * @param distance ridden distance, m; held within the route
 */
export function readingAt(outcome: Outcome, distance: number): Reading {
  const { stations } = outcome.route
  const { columns } = outcome
  const at = stations.distance
  const place = Math.min(Math.max(distance, 0), outcome.length)
  let i = indexAtOrBelow(at, place)
  if (i === at.length - 1) i--
  const read = (column: ArrayLike<number>) => interpolate(at, column, place)
  const step = at[i + 1]! - at[i]!
  return {
    distance: place,
    elevation: read(stations.elevation),
    gradient: stations.gradient[i]!,
    speed: read(columns.speed),
    riderPower: powerOf(columns.riderWork, outcome, i),
    motorPower: powerOf(columns.motorWork, outcome, i),
    drained: read(columns.drained),
    left: leftAt(outcome, i, place),
    drain: step > 0 ? (columns.drained[i + 1]! - columns.drained[i]!) / step : 0,
    time: timeAt(outcome, i, place),
    state: columns.state[i]!,
  }
}

/** Mean power of the step from a station to the next, W, by a column of work, J; 0 where nothing is ridden. */
export function powerOf(work: Float64Array, { columns }: Outcome, station: number): number {
  const time = columns.ridingTime[station + 1]! - columns.ridingTime[station]!
  return time > 0 ? (work[station + 1]! - work[station]!) / time : 0
}

/** Linear from the departure at a station to the arrival at the next. */
function fromDeparture(outcome: Outcome, i: number, place: number, start: number, end: number): number {
  const at = outcome.route.stations.distance
  const step = at[i + 1]! - at[i]!
  return step > 0 ? start + ((end - start) * (place - at[i]!)) / step : start
}

function leftAt(outcome: Outcome, i: number, place: number): number {
  const { left } = outcome.columns
  if (place <= outcome.route.stations.distance[i]!) return left[i]!
  return fromDeparture(outcome, i, place, leftAfter(outcome, i), left[i + 1]!)
}

function timeAt(outcome: Outcome, i: number, place: number): number {
  const { time } = outcome.columns
  if (place <= outcome.route.stations.distance[i]!) return time[i]!
  return fromDeparture(outcome, i, place, departure(outcome, i), time[i + 1]!)
}
