import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { rideOn, type Sink } from './forecast'
import { prepare, type Prepared } from './prepare'
import { Ride } from './ride'
import type { RideState } from './state'

/**
 * What a study needs of one ride, without columns: a sink for many rides over the same route, which writes into arrays that the caller owns and
 * allocates nothing itself.
 */
export class Tally implements Sink {
  /** Arrival at the end of the ride and what is done there, s since the start; and of it in motion. */
  time = 0
  ridingTime = 0
  /** Work of the rider, and energy taken from inside the packs, J. */
  riderWork = 0
  drained = 0
  /** Usable energy at the end, J; and the least on arrival anywhere, with the station of that. */
  left = 0
  least = 0
  leastAt = 0
  /** Whether the motor stops for good on the way. */
  runsEmpty = false
  private next = 0
  /** The station that is next, -1 after the last. */
  private nextStation = -1

  /**
   * @param stations where clock and charge are wanted, such as those of sailings and controls, ascending
   * @param arrive on arrival there, s since the start, one each
   * @param depart on leaving there, s
   * @param charge usable energy in all packs on arrival, J
   */
  constructor(
    private readonly stations: ArrayLike<number>,
    readonly arriveTime: Float64Array,
    readonly departTime: Float64Array,
    readonly charge: Float64Array,
  ) {}

  /** Rides from a state to the end of the route. @param ride of the same preparation, which is used up */
  run(prepared: Prepared, ride: Ride, from: RideState): void {
    ride.restore(from)
    this.least = Infinity
    this.next = 0
    while (this.next < this.stations.length && this.stations[this.next]! < from.station) this.next++
    this.look()
    rideOn(prepared, ride, { station: prepared.limits.length - 1, leaving: true }, this)
    this.time = ride.time
    this.ridingTime = ride.ridingTime
    this.riderWork = ride.riderWork
    this.drained = ride.batteries.drained()
    this.left = ride.batteries.left()
    this.runsEmpty = ride.emptyAt !== null
  }

  arrive(station: number, ride: Ride): void {
    const left = ride.batteries.left()
    if (left < this.least) {
      this.least = left
      this.leastAt = station
    }
    if (station === this.nextStation) {
      this.arriveTime[this.next] = ride.time
      this.departTime[this.next] = ride.time
      this.charge[this.next++] = left
      this.look()
    }
  }

  leave(station: number, ride: Ride): void {
    if (this.next > 0 && station === this.stations[this.next - 1]) this.departTime[this.next - 1] = ride.time
  }

  rode(): void {}

  private look(): void {
    this.nextStation = this.next < this.stations.length ? this.stations[this.next]! : -1
  }
}

/**
 * A whole ride in a few numbers.
 *
 * @param stations where clock and charge are wanted, ascending
 */
export function tallyOf(route: Route, plan: Plan, stations: readonly number[] = []): Tally {
  const prepared = prepare(route, plan)
  const ride = new Ride(prepared)
  const column = () => new Float64Array(stations.length)
  const tally = new Tally(stations, column(), column(), column())
  tally.run(prepared, ride, ride.state())
  return tally
}
