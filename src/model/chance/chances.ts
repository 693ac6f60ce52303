import { terrainRuns, type Terrain } from '../readings/terrain'
import type { Route } from '../route/route'
import type { Ridden, Sampling } from './days'
import type { Deadline } from './deadlines'
import { bandOf, meanOf, type Band, type Estimate } from './spread'

/** A part of the route in which days fail. */
export interface FailsIn {
  terrain: Terrain
  /** Ridden distances of the part, m. */
  start: number
  end: number
  /** Of the days that fall below the reserve, the share that does so there. */
  share: number
  /** No part of the same terrain comes after it. */
  isLast: boolean
}

/** How sure a day is. Chances are shares of equally likely days. */
export interface Chances {
  /** That the charge lasts to the finish above the reserve, and that the motor helps to the finish. */
  reserve: Estimate
  motor: Estimate
  deadlines: (Deadline & { chance: Estimate })[]
  /** Finish, s since the start, and of it in motion; usable energy there, J. */
  time: Band
  ridingTime: Band
  left: Band
  /** At each place that was asked for, by ridden distance, m: clock on arrival, s since the start, and share of all usable energy. */
  bands: { distance: number; clock: Band; charge: Band }[]
  /** Where days fall below the reserve most often, and the band of these places, m; undefined where none does. */
  fails: (FailsIn & { at: Band }) | undefined
}

/**
 * Chances and bands of days that were ridden.
 *
 * @param ridden all days of the sampling, with the places of the deadlines noted
 */
export function chancesOf(route: Route, sampling: Sampling, ridden: Ridden, deadlines: readonly Deadline[]): Chances {
  const days = ridden.time.length
  const { places } = ridden
  const chance = (holds: (day: number) => boolean) => meanOf(days, sampling.replicates, (day) => (holds(day) ? 1 : 0))
  const noted = (column: Float64Array, k: number, of: (value: number, day: number) => number) =>
    Float64Array.from({ length: days }, (_, day) => of(column[day * places.length + k]!, day))
  return {
    reserve: chance((day) => Number.isNaN(ridden.reserveAt[day])),
    motor: chance((day) => Number.isNaN(ridden.emptyAt[day])),
    deadlines: deadlines.map((deadline) => {
      const k = nearestOf(places, deadline.distance)
      const took =
        deadline.kind === 'ridingGoal'
          ? (day: number) => ridden.ridingTime[day]!
          : (day: number) => ridden.arrive[day * places.length + k]!
      return { ...deadline, chance: chance((day) => took(day) <= deadline.latest) }
    }),
    time: bandOf(ridden.time),
    ridingTime: bandOf(ridden.ridingTime),
    left: bandOf(ridden.left),
    bands: Array.from(places, (distance, k) => ({
      distance,
      clock: bandOf(noted(ridden.arrive, k, (time) => time)),
      charge: bandOf(noted(ridden.charge, k, (left, day) => left / ridden.usable[day]!)),
    })),
    fails: failsMost(route, ridden),
  }
}

/** The band of charge on arrival at a ridden distance, m: between the noted places about it, straight. */
export function bandAt({ bands }: Chances, distance: number): Band {
  const after = bands.findIndex((band) => band.distance >= distance - atHand)
  const [from, to] = [bands[Math.max(0, after - 1)]!, bands.at(after)!]
  const share =
    to.distance > from.distance ? Math.min(1, (distance - from.distance) / (to.distance - from.distance)) : 1
  const between = (of: (band: Band) => number) => of(from.charge) + share * (of(to.charge) - of(from.charge))
  return { low: between(({ low }) => low), middle: between(({ middle }) => middle), high: between(({ high }) => high) }
}
/** A noted place is taken for one so near, m: half a step of a coarser road. */
const atHand = 26

const nearestOf = (places: Float64Array, distance: number): number =>
  places.reduce((best, place, k) => (Math.abs(place - distance) < Math.abs(places[best]! - distance) ? k : best), 0)

/** Of the parts of the route by terrain the one in which most days fall below the reserve. */
function failsMost(route: Route, { reserveAt }: Ridden): Chances['fails'] {
  const places = reserveAt.filter((place) => !Number.isNaN(place))
  if (places.length === 0) return undefined
  const { distance } = route.stations
  const parts = route.sections
    .flatMap(({ first, last }) => terrainRuns(route, first, last))
    .map(({ terrain, first, last }, k, all): FailsIn => {
      const [start, end] = [distance[first]!, distance[last]!]
      const share = places.filter((at) => at > start && at <= end).length / places.length
      return { terrain, start, end, share, isLast: all.findLastIndex((part) => part.terrain === terrain) === k }
    })
  const most = parts.reduce((best, part) => (part.share > best.share ? part : best))
  return { ...most, at: bandOf(places) }
}
