import type { OtherDays } from '../forecast/another-day'
import { rideOn, type Sink } from '../forecast/forecast'
import type { Prepared } from '../forecast/prepare'
import { Ride } from '../forecast/ride'
import type { RideState } from '../forecast/state'
import type { AssistTable } from './frontier'

/** A day ridden with some assist, and its state at the ends of all stretches. */
export interface AssistedRide {
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
  /** At each end of a stretch, on arrival and on leaving it. */
  arrive: RideState[]
  leave: RideState[]
  /** Usable energy there, J. */
  leftOnArrival: Float64Array
  leftOnLeaving: Float64Array
  /** On arrival at each station: time in motion, s, and usable energy, J. */
  riding: Float64Array
  charge: Float64Array
}

const unwritten: Sink = { arrive: () => undefined, leave: () => undefined, rode: () => undefined }

/**
 * Rides a day with the ratios of its stretches.
 *
 * @param ends stations at which stretches begin and end, from the first to the last
 * @param ratioOf of each stretch
 */
export function rideAssisted(
  days: OtherDays,
  ends: readonly number[],
  ratioOf: (stretch: number) => number,
): AssistedRide {
  const ratios = new Float64Array(ends.at(-1)! + 1)
  for (let k = 0; k + 1 < ends.length; k++) ratios.fill(ratioOf(k), ends[k]!, ends[k + 1]!)
  return rideWith(days, ends, ratios)
}

/** As `rideAssisted`. @param ratios one entry a station, for the step from it to the next */
export function rideWith(days: OtherDays, ends: readonly number[], ratios: Float64Array): AssistedRide {
  const prepared = days.assisted(ratios)
  const ride = new Ride(prepared)
  const arrive: RideState[] = []
  const leave: RideState[] = []
  const leftOnArrival = new Float64Array(ends.length)
  const leftOnLeaving = new Float64Array(ends.length)
  const riding = new Float64Array(ratios.length)
  const charge = new Float64Array(ratios.length)
  const sink: Sink = {
    ...unwritten,
    arrive: (station, { ridingTime, batteries }) => {
      riding[station] = ridingTime
      charge[station] = batteries.left()
    },
  }
  ends.forEach((station, k) => {
    rideOn(prepared, ride, { station, leaving: false }, sink)
    leftOnArrival[k] = ride.batteries.left()
    arrive.push(ride.state())
    rideOn(prepared, ride, { station, leaving: true }, unwritten)
    leftOnLeaving[k] = ride.batteries.left()
    leave.push(ride.state())
  })
  return {
    ratios,
    time: ride.time,
    ridingTime: ride.ridingTime,
    riderWork: ride.riderWork,
    left: ride.batteries.left(),
    lasts: ride.reserveAt === null && ride.emptyAt === null,
    ...{ arrive, leave, leftOnArrival, leftOnLeaving, riding, charge },
  }
}

/** How far behind a stretch the speed still remembers the ratio on it, m: a choice, of which twice as much changes nothing that counts. */
const remembers = 300

/**
 * Riding time and energy of each stretch at each ratio, with all else held as on one ride: the clock and so the weather, how tired the rider is, the
 * charge of the packs and the speed at the beginning of each stretch, and the ratios behind it. What the ratio brings or costs on the way behind the
 * stretch, until the speed is as it was, is counted.
 *
 * @param days one that prepares the ratios tried @param others another that prepares those held
 * @param held that ride
 */
export function assistTable(
  days: OtherDays,
  others: OtherDays,
  ends: readonly number[],
  held: AssistedRide,
  ratios: readonly number[],
): AssistTable {
  const stretches = ends.length - 1
  const time = new Float64Array(stretches * ratios.length)
  const energy = new Float64Array(stretches * ratios.length)
  const all = new Float64Array(held.ratios.length)
  const behind = others.assisted(held.ratios)
  const until = ends.slice(1).map((end) => forgottenAt(behind, end))
  ratios.forEach((ratio, l) => {
    const prepared = days.assisted(all.fill(ratio))
    const ride = new Ride(prepared)
    for (let k = 0; k < stretches; k++) {
      const end = ends[k + 1]!
      const at = k * ratios.length + l
      const own = held.leftOnLeaving[k]! - held.charge[end]!
      time[at] = held.riding[end]! - held.riding[ends[k]!]!
      energy[at] = own
      if (held.ratios[ends[k]!] === ratio) continue
      ride.restore(held.leave[k]!)
      rideOn(prepared, ride, { station: end, leaving: false }, unwritten)
      if (until[k]! > end) rideOn(behind, ride, { station: until[k]!, leaving: false }, unwritten)
      time[at]! += ride.ridingTime - held.riding[until[k]!]!
      energy[at]! += held.charge[until[k]!]! - ride.batteries.left()
    }
  })
  return { ratios, time, energy }
}

/** The station behind another from which on the speed is the same whatever it was there: at the latest where the rider stands. */
function forgottenAt({ route, halts }: Prepared, station: number): number {
  const { distance } = route.stations
  const last = distance.length - 1
  let at = station
  while (at < last && halts.eventful[at] === 0 && distance[at]! - distance[station]! < remembers) at++
  return at
}
