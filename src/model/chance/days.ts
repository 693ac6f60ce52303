import { OtherDays } from '../forecast/another-day'
import { Ride } from '../forecast/ride'
import { Tally } from '../forecast/tally'
import type { Plan } from '../plan/schema'
import { stationNear } from '../route/nearest'
import type { Route } from '../route/route'
import { dayOf, uncertainIn, type Uncertain } from './figures'
import { normalQuantile } from './normal'
import { hashed, SobolPoints } from './sobol'

/** Which equally likely days are ridden. */
export interface Sampling {
  /** An integer; the same gives the same days. */
  seed: number
  /** How many in all: a multiple of `replicates`, best a power of 2 times it. */
  days: number
  /** Sets of points, each scrambled on its own: how far their answers lie apart tells how sure the answer is. */
  replicates: number
}

export const usualSampling: Sampling = { seed: 1, days: 1024, replicates: 8 }

/** What some of the days gave, one entry a day unless said otherwise. SI; times from the start. */
export interface Ridden {
  /** Index of the first of these days. */
  first: number
  /** Ridden distances of the places at which clock and charge are noted, m, ascending. */
  places: Float64Array
  /** At the finish, with what is done there; and of it in motion. */
  time: Float64Array
  ridingTime: Float64Array
  riderWork: Float64Array
  /** Usable energy at the finish, J, and of all packs when full. */
  left: Float64Array
  usable: Float64Array
  /** Ridden distance at which the reserve was passed, and at which the motor stopped for good, m; NaN where it did not. */
  reserveAt: Float64Array
  emptyAt: Float64Array
  /** On arrival at each of the places, day by day: clock and usable energy, J. */
  arrive: Float64Array
  charge: Float64Array
}

/** Columns for some days. */
const noDays = (first: number, days: number, places: Float64Array): Ridden => ({
  first,
  places,
  time: new Float64Array(days),
  ridingTime: new Float64Array(days),
  riderWork: new Float64Array(days),
  left: new Float64Array(days),
  usable: new Float64Array(days),
  reserveAt: new Float64Array(days),
  emptyAt: new Float64Array(days),
  arrive: new Float64Array(days * places.length),
  charge: new Float64Array(days * places.length),
})

/** Days one after the other as one. @param parts in any order, that follow each other without a gap */
export function together(parts: readonly Ridden[]): Ridden {
  const inOrder = [...parts].sort((a, b) => a.first - b.first)
  const joined = (key: Exclude<keyof Ridden, 'first' | 'places'>) => {
    const all = new Float64Array(inOrder.reduce((sum, part) => sum + part[key].length, 0))
    let at = 0
    for (const part of inOrder) {
      all.set(part[key], at)
      at += part[key].length
    }
    return all
  }
  return {
    first: inOrder[0]?.first ?? 0,
    places: inOrder[0]?.places ?? new Float64Array(),
    time: joined('time'),
    ridingTime: joined('ridingTime'),
    riderWork: joined('riderWork'),
    left: joined('left'),
    usable: joined('usable'),
    reserveAt: joined('reserveAt'),
    emptyAt: joined('emptyAt'),
    arrive: joined('arrive'),
    charge: joined('charge'),
  }
}

/**
 * A plan's day as it may come, ridden whole through the forecast as often as asked: rider, bike, packs, weather and ascent each as likely as its belief
 * says, independent of each other. A day depends on seed and index alone, so that they may be ridden in any parts by any number of workers.
 */
export class Days {
  readonly uncertain: Uncertain
  /** Stations at which clock and charge are noted, ascending. */
  readonly stations: number[]
  private readonly days: OtherDays
  private readonly points: SobolPoints[]
  private readonly deviates: Float64Array
  private readonly tally: Tally

  /**
   * @param route at least two stations
   * @param plan valid
   * @param places ridden distances at whose nearest stations clock and charge are noted, m, in any order
   */
  constructor(
    readonly route: Route,
    readonly plan: Plan,
    readonly sampling: Sampling,
    places: readonly number[],
  ) {
    const { seed, replicates } = sampling
    this.uncertain = uncertainIn(route, plan)
    this.stations = [...new Set(places.map((place) => stationNear(route, place)))].sort((a, b) => a - b)
    this.days = new OtherDays(route, plan)
    const dimensions = this.uncertain.deviates.reduce((sum, count) => sum + count, 0)
    this.points = Array.from({ length: replicates }, (_, k) => new SobolPoints(dimensions, hashed(seed, k)))
    this.deviates = new Float64Array(dimensions)
    const column = () => new Float64Array(this.stations.length)
    this.tally = new Tally(this.stations, column(), column(), column())
  }

  /** Rides the days of some indices. @param from the first @param to one beyond the last, up to `sampling.days` */
  ride(from: number, to: number): Ridden {
    const { tally } = this
    const places = Float64Array.from(this.stations, (station) => this.route.stations.distance[station]!)
    const ridden = noDays(from, to - from, places)
    for (let index = from; index < to; index++) {
      const ride = this.rideBy(this.deviatesOf(index))
      const k = index - from
      ridden.time[k] = tally.time
      ridden.ridingTime[k] = tally.ridingTime
      ridden.riderWork[k] = tally.riderWork
      ridden.left[k] = tally.left
      ridden.usable[k] = ride.batteries.usable
      ridden.reserveAt[k] = ride.reserveAt ?? NaN
      ridden.emptyAt[k] = ride.emptyAt ?? NaN
      ridden.arrive.set(tally.arriveTime, k * this.stations.length)
      ridden.charge.set(tally.charge, k * this.stations.length)
    }
    return ridden
  }

  /** Standard normal deviates of a day's figures; written anew by the next call. */
  deviatesOf(index: number): Float64Array {
    const { deviates, points, sampling } = this
    const each = sampling.days / sampling.replicates
    points[Math.floor(index / each)]!.at(index % each, deviates)
    for (let d = 0; d < deviates.length; d++) deviates[d] = normalQuantile(deviates[d]!)
    return deviates
  }

  /** One day, by the deviates of its figures; finish time, s, and usable energy there, J. */
  rideOne(deviates: ArrayLike<number>): { time: number; left: number } {
    this.rideBy(deviates)
    return { time: this.tally.time, left: this.tally.left }
  }

  private rideBy(deviates: ArrayLike<number>): Ride {
    const { route, plan, uncertain, tally } = this
    const day = dayOf(route, plan, uncertain, deviates, plan.forecastAhead)
    const prepared = this.days.on(day.plan, day)
    const ride = new Ride(prepared)
    tally.run(prepared, ride, ride.state())
    return ride
  }
}
