import { OtherDays } from '../forecast/another-day'
import { rideOn, type Sink } from '../forecast/forecast'
import type { Prepared } from '../forecast/prepare'
import { Ride } from '../forecast/ride'
import { stateFrom } from '../forecast/start'
import type { RideState } from '../forecast/state'
import { Tally } from '../forecast/tally'
import type { Plan } from '../plan/schema'
import { stationNear } from '../route/nearest'
import type { Route } from '../route/route'
import { coarser } from '../forecast/coarser'
import type { Sampling } from './days'
import { dayOf, uncertainIn } from './figures'
import { normalQuantile } from './normal'
import { drawnBy, logLikelihood, logPrior, priorLaw, type Observation, type Proposal } from './particles'
import { hashed, SobolPoints } from './sobol'

/** What a rider reads on the way, on arrival at a place. */
export interface WayReading {
  /** Ridden, m. */
  distance: number
  /** Clock, s since the start. */
  time: number
  /** Share of all usable energy that is left, 0 to 1. */
  charge: number
}

/** A way to ride on. */
export interface RideOn {
  /** Factor on the plan's assist ratios from the last reading on. */
  assist: number
  /** In place of the rider's power from there on, W, which then holds; undefined for that of the plan. */
  power?: number
}

/** What is asked about the rest of a day. */
export interface AskedWay {
  plan: Plan
  sampling: Sampling
  /** In order of the route, at least one. */
  readings: readonly WayReading[]
  /** What the days are drawn by; undefined for what is believed before anything was read. */
  proposal: Proposal | undefined
  ways: readonly RideOn[]
  /** Ridden distances beyond the last reading where clock and charge are wanted, m. */
  places: readonly number[]
}

/** The rest of some of the days. Arrays of one entry a day unless said otherwise. */
export interface RestRidden {
  first: number
  /** Of each day its deviates, and what it foretells of each reading: clock, s, and share of charge. */
  points: Float64Array[]
  foretold: Float64Array[]
  /** Logarithm of its weight, but for a constant. */
  logWeight: Float64Array
  /** Ridden distances of the places, m, ascending. */
  places: Float64Array
  /** By way to ride on: finish, s since the start; share left there; whether above the reserve, and whether the motor helped to the finish, 0 or 1; at each place, day by day, clock and share. */
  ways: {
    time: Float64Array
    left: Float64Array
    reserve: Uint8Array
    motor: Uint8Array
    arrive: Float64Array
    charge: Float64Array
  }[]
}

/**
 * How far a reading lies from what the day foretells where all its figures were known. Charge: a display's steps and its gauge, as a share of all; and of
 * what was used since the last reading, for what no figure says. Clock: in the same way, a minute, and of the time since the last reading. Judgements.
 */
const gauge = 0.015
/** What is left is not farther from what was read than this, as a share of all. */
const mostOff = 2 * gauge
const unknownUse = 0.04
const clockError = 60
const unknownTime = 0.02

/** Variances of a reading about what is foretold of it. @param since s @param used share since the last reading */
const variancesOf = (since: number, used: number) => ({
  time: clockError ** 2 + (unknownTime * since) ** 2,
  use: (unknownUse * used) ** 2,
})

/** What was read as observations. @param used share of charge since the last reading, one entry a reading, of a day in the middle */
export function observationsOf(readings: readonly WayReading[]): Observation[] {
  return readings.flatMap(({ time, charge }, k) => {
    const before = readings[k - 1] ?? { time: 0, charge: 1 }
    const { time: ofTime, use } = variancesOf(time - before.time, before.charge - charge)
    return [
      { value: time, variance: ofTime },
      { value: charge, variance: gauge ** 2 + use },
    ]
  })
}

/** From the forecast of the weather to the ride, days. */
const onTheDay = 0

const unwritten: Sink = { arrive: () => undefined, leave: () => undefined, rode: () => undefined }

/**
 * Many days of a plan, each ridden up to the readings and on from the last to the finish. At a reading the clock is set to what was read, and the charge
 * to what lies between what was read and what the day foretells, as sure as either is, with a deviate of its own; how likely what was read is on that day
 * is its weight.
 *
 * @see the optimal importance function: Doucet, Godsill and Andrieu 2000, Stat. Comput. 10:197-208
 */
export class OnTheWay {
  private readonly road: Route
  private readonly days: OtherDays
  private readonly uncertain
  private readonly sets: SobolPoints[]
  private readonly law: Proposal
  private readonly read: Observation[]
  private readonly at: number[]
  private readonly places: number[]
  private readonly tally: Tally

  /** @param route at least two stations */
  constructor(
    route: Route,
    private readonly asked: AskedWay,
  ) {
    const { plan, sampling, readings, places } = asked
    const road = coarser(route, plan.bike)
    this.road = road
    this.days = new OtherDays(road, plan)
    this.uncertain = uncertainIn(road, plan)
    const figures = this.uncertain.deviates.reduce((sum, count) => sum + count, 0)
    this.law = asked.proposal ?? priorLaw(figures + readings.length)
    this.read = observationsOf(readings)
    this.sets = Array.from(
      { length: sampling.replicates },
      (_, k) => new SobolPoints(figures + readings.length, hashed(sampling.seed, k)),
    )
    this.at = readings.map(({ distance }) => stationNear(road, distance))
    this.places = [...new Set(places.map((place) => stationNear(road, place)))].sort((a, b) => a - b)
    const column = () => new Float64Array(this.places.length)
    this.tally = new Tally(this.places, column(), column(), column())
  }

  /** Rides some of the days. @param from index of the first @param to one beyond the last */
  ride(from: number, to: number): RestRidden {
    const { asked, road, places, law } = this
    const days = to - from
    const ridden: RestRidden = {
      first: from,
      points: [],
      foretold: [],
      logWeight: new Float64Array(days),
      places: Float64Array.from(places, (station) => road.stations.distance[station]!),
      ways: asked.ways.map(() => ({
        time: new Float64Array(days),
        left: new Float64Array(days),
        reserve: new Uint8Array(days),
        motor: new Uint8Array(days),
        arrive: new Float64Array(days * places.length),
        charge: new Float64Array(days * places.length),
      })),
    }
    const normal = new Float64Array(law.mean.length)
    for (let index = from; index < to; index++) {
      const k = index - from
      this.normalsOf(index, normal)
      const deviates = new Float64Array(normal.length)
      drawnBy(law, normal, deviates)
      const foretold = this.rideDay(deviates, ridden.ways, k)
      ridden.points.push(deviates)
      ridden.foretold.push(foretold)
      ridden.logWeight[k] = logLikelihood(this.read, foretold) + logPrior(deviates, normal)
    }
    return ridden
  }

  private normalsOf(index: number, into: Float64Array): void {
    const { sampling } = this.asked
    const each = sampling.days / sampling.replicates
    this.sets[Math.floor(index / each)]!.at(index % each, into)
    for (let d = 0; d < into.length; d++) into[d] = normalQuantile(into[d]!)
  }

  /** One day by its deviates, into entry k of each way; what it foretells of the readings. */
  private rideDay(deviates: Float64Array, into: RestRidden['ways'], k: number): Float64Array {
    const { asked, days, tally, places } = this
    const { plan, readings } = asked
    const day = dayOf(this.road, plan, this.uncertain, deviates, onTheDay)
    days.scaleAssist(1)
    const prepared = days.on(day.plan, day)
    const { foretold, state } = this.rideToLast(prepared, deviates.subarray(deviates.length - readings.length))
    asked.ways.forEach(({ assist, power }, w) => {
      days.scaleAssist(assist)
      const { rider } = day.plan
      const onward = power === undefined ? prepared : days.on({ ...day.plan, rider: { ...rider, power, fade: 0 } }, day)
      const ride = new Ride(onward)
      tally.run(onward, ride, power === undefined ? state : { ...state, freshness: 1 })
      const { usable } = ride.batteries
      const way = into[w]!
      way.time[k] = tally.time
      way.left[k] = tally.left / usable
      way.reserve[k] = Number(ride.reserveAt === null)
      way.motor[k] = Number(ride.emptyAt === null)
      way.arrive.set(tally.arriveTime, k * places.length)
      for (let p = 0; p < places.length; p++) way.charge[k * places.length + p] = tally.charge[p]! / usable
    })
    return foretold
  }

  private rideToLast(prepared: Prepared, own: ArrayLike<number>): { foretold: Float64Array; state: RideState } {
    const { readings } = this.asked
    const foretold = new Float64Array(2 * readings.length)
    const ride = new Ride(prepared)
    const { usable } = ride.batteries
    let state = ride.state()
    readings.forEach(({ time, charge }, r) => {
      const before = readings[r - 1] ?? { time: 0, charge: 1 }
      rideOn(prepared, ride, { station: this.at[r]!, leaving: false }, unwritten)
      const share = ride.batteries.left() / usable
      foretold[2 * r] = ride.time
      foretold[2 * r + 1] = share
      const { use } = variancesOf(time - before.time, before.charge - charge)
      const both = gauge ** 2 + use
      const between = (share * gauge ** 2 + charge * use) / both + gauge * Math.sqrt(use / both) * own[r]!
      // Of a day that foretells something else altogether too.
      const left = Math.min(charge + mostOff, Math.max(charge - mostOff, between))
      state = stateFrom(prepared, ride.state(), { time, left: Math.min(1, Math.max(0, left)) * usable })
      ride.restore(state)
    })
    return { foretold, state }
  }
}

const made = new WeakMap<AskedWay, OnTheWay>()

/** The rest of some of the days, by `from` and `to` as of `OnTheWay.ride`. */
export function rideRest(route: Route, { asked, from, to }: { asked: AskedWay; from: number; to: number }): RestRidden {
  const way = made.get(asked) ?? new OnTheWay(route, asked)
  made.set(asked, way)
  return way.ride(from, to)
}
