import { coarserWith } from '../forecast/coarser'
import { OtherDays } from '../forecast/another-day'
import { rideOn, type Sink } from '../forecast/forecast'
import type { Prepared } from '../forecast/prepare'
import { Ride } from '../forecast/ride'
import type { RideState } from '../forecast/state'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import type { AssistTable } from './frontier'

/** How a day went that was ridden with some assist. */
export interface Ridden {
  /** Motor power for each watt of the rider, one entry a station, for the step from it to the next. */
  ratios: Float64Array
  /** At the finish, with what is done there, s since the start; and of it in motion. */
  time: number
  ridingTime: number
  riderWork: number
  /** Usable energy at the finish, J. */
  left: number
  /** Never below the reserve, and the motor never out of charge. */
  lasts: boolean
}

/** A day ridden with some assist, and its state at the ends of all stretches. */
export interface AssistedRide extends Ridden {
  /** At each end of a stretch, on arrival and on leaving it. */
  arrive: RideState[]
  leave: RideState[]
  /** Usable energy there, J. */
  leftOnArrival: Float64Array
  leftOnLeaving: Float64Array
}

const unwritten: Sink = { arrive: () => undefined, leave: () => undefined, rode: () => undefined }

/** Rides a day. @param ratios motor power for each watt of the rider, one entry a station, for the step from it to the next */
export function rideBy(days: OtherDays, ratios: Float64Array): Ridden {
  const prepared = days.assisted(ratios)
  const ride = new Ride(prepared)
  rideOn(prepared, ride, { station: ratios.length - 1, leaving: true }, unwritten)
  return wentBy(ride, ratios)
}

const wentBy = (ride: Ride, ratios: Float64Array): Ridden => ({
  ratios,
  time: ride.time,
  ridingTime: ride.ridingTime,
  riderWork: ride.riderWork,
  left: ride.batteries.left(),
  lasts: ride.reserveAt === null && ride.emptyAt === null,
})

/**
 * As `rideBy`, with the states on the way.
 *
 * @param ends stations at which stretches begin and end, from the first to the last
 */
export function rideHeld(days: OtherDays, ends: readonly number[], ratios: Float64Array): AssistedRide {
  const prepared = days.assisted(ratios)
  const ride = new Ride(prepared)
  const arrive: RideState[] = []
  const leave: RideState[] = []
  const leftOnArrival = new Float64Array(ends.length)
  const leftOnLeaving = new Float64Array(ends.length)
  ends.forEach((station, k) => {
    rideOn(prepared, ride, { station, leaving: false }, unwritten)
    leftOnArrival[k] = ride.batteries.left()
    arrive.push(ride.state())
    rideOn(prepared, ride, { station, leaving: true }, unwritten)
    leftOnLeaving[k] = ride.batteries.left()
    leave.push(ride.state())
  })
  return { ...wentBy(ride, ratios), arrive, leave, leftOnArrival, leftOnLeaving }
}

/** How far behind a stretch the speed still remembers the ratio on it, m: a choice, of which twice as much changes nothing that counts. */
const remembers = 300

/** The road with fewer stations, on which a table is made: what a ratio changes is the same there. */
export class TableRoad {
  private readonly tried: OtherDays
  private readonly behind: OtherDays
  /** Of each of its stations the one of the route. */
  private readonly kept: readonly number[]
  /** Stations at which stretches begin and end. */
  private readonly ends: number[]

  /**
   * @param ends stations of the route at which stretches begin and end, from the first to the last
   */
  constructor(route: Route, plan: Plan, ends: readonly number[]) {
    const { road, kept } = coarserWith(route, plan.bike, ends)
    this.tried = new OtherDays(road, plan)
    this.behind = new OtherDays(road, plan)
    this.kept = kept
    this.ends = []
    for (let i = 0, k = 0; k < ends.length; i++) for (; kept[i] === ends[k] && k < ends.length; k++) this.ends.push(i)
  }

  /**
   * Riding time and energy of each stretch at each ratio, with all else held as on one ride: the clock and so the weather, how tired the rider is, the
   * charge of the packs and the speed at the beginning of each stretch, and the ratios behind it. What the ratio brings or costs on the way behind the
   * stretch, until the speed is as it was, is counted, but with the packs as on that ride.
   *
   * @param held that ride
   */
  table(held: AssistedRide, ratios: readonly number[]): AssistTable {
    const { ends } = this
    const stretches = ends.length - 1
    const time = new Float64Array(stretches * ratios.length)
    const energy = new Float64Array(stretches * ratios.length)
    const behind = this.behind.assisted(Float64Array.from(this.kept, (station) => held.ratios[station]!))
    const until = ends.slice(1).map((end) => forgottenAt(behind, end))
    const from = held.leave.map((state, k): RideState => ({ ...state, station: ends[k]! }))
    const ride = new Ride(behind)
    const heldTime = new Float64Array(stretches)
    const heldLeft = new Float64Array(stretches)
    /** The packs at the end of each stretch, and what they spend on the way behind it. */
    const packs = from.slice(0, stretches).map((state, k) => {
      ride.restore(state)
      rideOn(behind, ride, { station: ends[k + 1]!, leaving: false }, unwritten)
      heldLeft[k] = ride.batteries.left()
      const { packs, active } = ride.state()
      if (until[k]! > ends[k + 1]!) rideOn(behind, ride, { station: until[k]!, leaving: false }, unwritten)
      heldTime[k] = ride.ridingTime
      return { packs, active, spends: heldLeft[k]! - ride.batteries.left() }
    })
    const all = new Float64Array(this.kept.length)
    ratios.forEach((ratio, l) => {
      const prepared = this.tried.assisted(all.fill(ratio))
      const other = new Ride(prepared)
      for (let k = 0; k < stretches; k++) {
        const at = k * ratios.length + l
        time[at] = held.arrive[k + 1]!.ridingTime - held.leave[k]!.ridingTime
        energy[at] = held.leftOnLeaving[k]! - held.leftOnArrival[k + 1]!
        const end = ends[k + 1]!
        if (held.ratios[this.kept[ends[k]!]!] === ratio || end === ends[k]) continue
        other.restore(from[k]!)
        rideOn(prepared, other, { station: end, leaving: false }, unwritten)
        energy[at]! += heldLeft[k]! - other.batteries.left()
        if (until[k]! > end) {
          // With the packs as held: near the end of one, each stretch before would count the same swap as its own.
          const { packs: levels, active, spends } = packs[k]!
          other.batteries.restore(levels, active)
          rideOn(behind, other, { station: until[k]!, leaving: false }, unwritten)
          energy[at]! += heldLeft[k]! - other.batteries.left() - spends
        }
        time[at]! += other.ridingTime - heldTime[k]!
      }
    })
    return { ratios, time, energy }
  }
}

/** The station behind another from which on the speed is the same whatever it was there: at the latest where the rider stands. */
function forgottenAt({ route, halts }: Prepared, station: number): number {
  const { distance } = route.stations
  const last = distance.length - 1
  let at = station
  while (at < last && halts.eventful[at] === 0 && distance[at]! - distance[station]! < remembers) at++
  return at
}
