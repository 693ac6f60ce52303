import { interpolate } from '../columns'
import type { Prepared } from '../forecast/prepare'
import { rideOn, type Sink } from '../forecast/forecast'
import { Ride } from '../forecast/ride'
import type { RideState } from '../forecast/state'
import { crossingsFor } from '../plan/crossings'
import { charges } from '../plan/stop-goal'
import { stationNear } from '../route/nearest'
import type { Passage } from './chain'

/** Where on a day the packs are charged, and where the clock decides: a timetable, a control that opens. */
export interface Turns {
  charging: Set<number>
  clocked: Set<number>
}

/** Stations of such places. */
export function turnsOf({ route, plan }: Prepared): Turns {
  const charging = new Set(
    plan.stops.filter((stop) => charges(plan, stop)).map(({ distance }) => stationNear(route, distance)),
  )
  const clocked = new Set(
    plan.controls
      .filter(({ opens }) => opens !== null)
      .map(({ distance }) => stationNear(route, Math.min(distance, route.length))),
  )
  crossingsFor(route, plan).forEach(({ timetable, source }, gap) => {
    const station = route.sections[route.crossings[gap]!.after]!.last
    if (source !== null) charging.add(station)
    if (timetable.kind !== 'duration') clocked.add(station)
  })
  return { charging, clocked }
}

const unwritten: Sink = { arrive: () => undefined, leave: () => undefined, rode: () => undefined }
const tried = 33

/**
 * What happens at a station, as the forecast does it: with other charge and at another time, all else as on a day that was ridden. Where only the charge
 * counts it is asked for some charges, and straight lines are drawn between; where only the clock does, each sailing is asked for once.
 *
 * @param arrive state on arrival there, on that day
 */
export function passageAt(prepared: Prepared, arrive: RideState, { charging, clocked }: Turns): Passage {
  const { station } = arrive
  const ride = new Ride(prepared)
  const exact = (left: number, time: number) => {
    ride.restore(arrive)
    ride.time = time
    ride.batteries.holdLeft(left)
    rideOn(prepared, ride, { station, leaving: true }, unwritten)
    return { left: ride.batteries.left(), time: ride.time }
  }
  if (clocked.has(station)) {
    if (charging.has(station)) return exact
    const leave = remembered((time) => exact(prepared.usable, time).time)
    return (left, time) => ({ left, time: leave(time) })
  }
  const at = Float64Array.from({ length: tried }, (_, k) => (k * prepared.usable) / (tried - 1))
  const asked = Array.from(at, (left) => exact(left, arrive.time))
  const lefts = asked.map(({ left }) => left)
  const stays = asked.map(({ time }) => time - arrive.time)
  return (left, time) => ({ left: interpolate(at, lefts, left), time: time + interpolate(at, stays, left) })
}

/**
 * A passage for what is foretold: a sailing that would be caught by little counts as missed.
 *
 * @param inHand by less, s
 */
export const withInHand =
  (passage: Passage, inHand: number): Passage =>
  (left, time) => {
    const [now, later] = [passage(left, time), passage(left, time + inHand)]
    return later.time - now.time > inHand + 1 ? later : now
  }

/** Times so near are the same but for rounding, s. */
const alike = 1e-6

/** Clock on leaving, as asked before where on both sides of a time it was the same, or as long after. */
function remembered(ask: (time: number) => number): (time: number) => number {
  const times: number[] = []
  const leaves: number[] = []
  return (time) => {
    let after = 0
    while (after < times.length && times[after]! < time) after++
    const [earlier, later] = [leaves[after - 1], leaves[after]]
    if (earlier !== undefined && later !== undefined) {
      if (later - earlier < alike) return later
      const stay = later - times[after]!
      if (Math.abs(earlier - times[after - 1]! - stay) < alike) return time + stay
    }
    const leave = ask(time)
    times.splice(after, 0, time)
    leaves.splice(after, 0, leave)
    return leave
  }
}
