import type { Sink } from './forecast'
import type { Ride } from './ride'

/**
 * What a study needs of one ride, without columns: a sink for many rides by the same route, which writes into arrays the caller owns and allocates
 * nothing itself. Its numbers hold when a ride has ended.
 */
export class Tally implements Sink {
  /** Arrival at the last station reached, s since the start. */
  finish = 0
  /** Energy taken from inside the packs, J. */
  drained = 0
  /** Usable energy at the end, J; the least on arrival anywhere, and the station of that. */
  left = 0
  least = Infinity
  leastAt = 0
  private next = 0

  /**
   * @param stations where clock and charge are wanted, such as those of sailings and controls, ascending
   * @param time on arrival there, s since the start, one each
   * @param leave on leaving there, s
   * @param charge usable energy in all packs on arrival, J
   */
  constructor(
    private readonly stations: Int32Array,
    readonly time: Float64Array,
    readonly leaveTime: Float64Array,
    readonly charge: Float64Array,
  ) {}

  /** Before another ride from a station on. */
  reset(station = 0): void {
    this.least = Infinity
    this.next = 0
    while (this.next < this.stations.length && this.stations[this.next]! < station) this.next++
  }

  arrive(station: number, ride: Ride): void {
    const left = ride.batteries.left()
    if (left < this.least) {
      this.least = left
      this.leastAt = station
    }
    if (station === this.stations[this.next]) {
      this.time[this.next] = ride.time
      this.charge[this.next] = left
    }
  }

  leave(station: number, ride: Ride): void {
    if (station === this.stations[this.next]) this.leaveTime[this.next++] = ride.time
  }

  rode(): void {}

  /** Takes the end of a ride. */
  end(ride: Ride): void {
    this.finish = ride.time
    this.drained = ride.batteries.drained()
    this.left = ride.batteries.left()
  }
}
