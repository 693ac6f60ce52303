import { OtherDays } from '../forecast/another-day'
import { rideOn, type Sink } from '../forecast/forecast'
import type { Prepared } from '../forecast/prepare'
import { Ride } from '../forecast/ride'
import { usableLeft } from '../battery/pack'
import type { Plan } from '../plan/schema'
import { roadOf } from '../ride/road'
import { stationNear } from '../route/nearest'
import type { Route } from '../route/route'
import type { Aim, Link } from './chain'
import { allot } from './chain'
import { Frontier, type AssistTable } from './frontier'
import { rideBy, rideHeld, TableRoad, type AssistedRide, type Ridden } from './held'
import { likeTerrain } from './like-terrain'
import { passageAt, turnsOf, withInHand, type Turns } from './passages'

/** At which resistances are compared, m/s: a rider's usual speed. */
const usualSpeed = 6
/** Of one stretch, as a share of all usable energy: a choice. */
const usualWork = 0.02

/**
 * A day cut into stretches of like terrain, each to have a ratio of its own, and into parts between places at which the packs are charged or the clock
 * decides. It finds for a table of times and energies how the charge is best spent, and rides what it found.
 */
export class DayParts {
  private readonly days: OtherDays
  private readonly tables: TableRoad
  /** Stations at which stretches begin and end. */
  readonly ends: number[]
  /** Indices in `ends` of the beginnings of the parts, and of the finish. */
  readonly parts: number[]
  private readonly turns: Turns

  /**
   * @param route at least two stations
   * @param plan valid
   * @param places where stretches end besides, m
   * @param mostWork of one stretch, as a share of all usable energy
   */
  constructor(
    readonly route: Route,
    readonly plan: Plan,
    places: readonly number[] = [],
    mostWork = usualWork,
  ) {
    this.days = new OtherDays(route, plan)
    this.turns = turnsOf(this.planned)
    const { charging, clocked } = this.turns
    this.ends = likeTerrain({
      distance: route.stations.distance,
      resistance: this.resistance(),
      ends: this.fixedEnds(places),
      mostWork: mostWork * this.planned.usable,
    })
    this.tables = new TableRoad(route, plan, this.ends)
    const last = this.ends.length - 1
    this.parts = [0]
    for (let e = 1; e < last; e++) if (charging.has(this.ends[e]!) || clocked.has(this.ends[e]!)) this.parts.push(e)
    this.parts.push(last)
  }

  get planned(): Prepared {
    return this.days.planned
  }

  /** Number of stretches. */
  get stretches(): number {
    return this.ends.length - 1
  }

  /** The reserve, J. */
  get reserve(): number {
    return this.plan.battery.reserve * this.planned.usable
  }

  /** What is left at the least, J. @param unopened so many of the last packs stay as a ride set out with them */
  floor(held: AssistedRide, unopened: number): number {
    const { packs } = this.planned
    const { packs: levels } = held.leave[0]!
    const kept = packs.reduce(
      (sum, pack, k) => (k < packs.length - unopened ? sum : sum + usableLeft(pack, levels[k]!.charge)),
      0,
    )
    return Math.max(this.reserve, kept)
  }

  /** So many packs can be left as they are at most: none where packs are charged or swapped at a place, whatever the assist. */
  get mostUnopened(): number {
    const { turns, plan, planned } = this
    const isFree = turns.charging.size === 0 && plan.stops.every(({ source }) => source === null)
    return isFree ? planned.packs.length - 1 : 0
  }

  /** Resistance at each step at a usual speed, as planned, N. */
  private resistance(): Float64Array {
    const { distance } = this.route.stations
    const resistance = new Float64Array(distance.length)
    const sink: Sink = {
      arrive: () => undefined,
      leave: () => undefined,
      rode: (station, step) => {
        const along = usualSpeed + step.headWind
        resistance[station] =
          step.weightAlong +
          step.rolling +
          step.halfDensityArea * Math.sqrt(along * along + step.sideWind * step.sideWind) * along
      },
    }
    rideOn(this.planned, new Ride(this.planned), { station: distance.length - 1, leaving: false }, sink)
    return resistance
  }

  /** Stations at which a stretch ends whatever the terrain: where the rider stands, at crossings, where the road is told to change. */
  private fixedEnds(places: readonly number[]): number[] {
    const { route, plan } = this
    const { eventful } = this.planned.halts
    const fixed = new Set<number>([0, eventful.length - 1])
    eventful.forEach((is, station) => is !== 0 && fixed.add(station))
    for (const { first, last } of route.sections) fixed.add(first).add(last)
    for (const { start, end } of plan.stretches) fixed.add(stationNear(route, start)).add(stationNear(route, end))
    for (const place of places) fixed.add(stationNear(route, place))
    return [...fixed].sort((a, b) => a - b)
  }

  /** Rides the day at one ratio. */
  rideAt(ratio: number): Ridden {
    return rideBy(this.days, new Float64Array(this.ends.at(-1)! + 1).fill(ratio))
  }

  /** Rides the day at one ratio on the flat and one on climbs, blended between as the plan does. */
  rideBlended(flat: number, climb: number): Ridden {
    return rideBy(
      this.days,
      roadOf(this.route).climb.map((part) => flat + (climb - flat) * part),
    )
  }

  /** Rides the day with a ratio for each stretch. */
  ride(ratioOf: (stretch: number) => number): Ridden {
    return rideBy(this.days, this.ratios(ratioOf))
  }

  /** A ride as it was, with the states on the way. */
  held({ ratios }: Pick<Ridden, 'ratios'>): AssistedRide {
    return rideHeld(this.days, this.ends, ratios)
  }

  private ratios(ratioOf: (stretch: number) => number): Float64Array {
    const { ends } = this
    const ratios = new Float64Array(ends.at(-1)! + 1)
    for (let k = 0; k + 1 < ends.length; k++) ratios.fill(ratioOf(k), ends[k]!, ends[k + 1]!)
    return ratios
  }

  /** Time and energy of each stretch at each ratio, around a ride. */
  table(held: AssistedRide, ratios: readonly number[]): AssistTable {
    return this.tables.table(held, ratios)
  }

  /** The links of the day's parts, as on a day that was ridden. */
  links(table: AssistTable, held: AssistedRide): Link[] {
    const { parts, turns } = this
    const last = parts.length - 2
    return parts.slice(0, -1).map((from, s): Link => {
      const to = parts[s + 1]!
      return {
        frontier: new Frontier(table, from, to),
        energy: 0,
        time: besideRiding(held, from, to),
        passage: s === last ? undefined : withInHand(passageAt(this.planned, held.arrive[to]!, turns), inTime),
      }
    })
  }

  /**
   * The ratios that a table says are best, ridden; ridden anew with what the table was off by, until nothing is left that counts.
   *
   * @param held the ride of the table
   * @param aim what for
   * @param unopened so many of the last packs stay as they are
   * @returns the best of the rides that last; undefined where none did
   */
  best(table: AssistTable, held: AssistedRide, aim: Aim, unopened = 0): Chosen | undefined {
    const { parts } = this
    const off: Off[] = parts.slice(1).map(() => ({ energy: 0, time: 0 }))
    let least = this.floor(held, unopened)
    let sought = aim
    let best: Chosen | undefined
    let astray: number | undefined
    const links = this.links(table, held)
    for (let round = 0; round < rounds; round++) {
      links.forEach((link, s) => {
        link.energy = off[s]!.energy
        link.time += off[s]!.time
        off[s]!.time = 0
      })
      const start = { left: held.leftOnLeaving[0]!, time: held.leave[0]!.time }
      const allotment = allot(links, start, least, this.planned.usable, sought)
      if (allotment === undefined) return best
      const choice = this.choose(links, start, allotment.targets)
      const ridden = this.held({ ratios: this.ratios((stretch) => table.ratios[choice[stretch]!]!) })
      const lasts = ridden.lasts && unopenedBy(ridden) >= unopened
      let counts = 0
      let wrong = 0
      links.forEach((link, s) => {
        const [from, to] = [parts[s]!, parts[s + 1]!]
        let energy = link.energy
        let time = link.time
        for (let k = from; k < to; k++) {
          energy += table.energy[table.ratios.length * k + choice[k]!]!
          time += table.time[table.ratios.length * k + choice[k]!]!
        }
        const more = ridden.leftOnLeaving[from]! - ridden.leftOnArrival[to]! - energy
        off[s]!.energy += more
        off[s]!.time = ridden.arrive[to]!.time - ridden.leave[from]!.time - time
        counts = Math.max(counts, Math.abs(more))
        const stood = besideRiding(ridden, from, to) - link.time
        wrong += Math.abs(off[s]!.time - stood) + priceAt(link.frontier, energy - link.energy) * Math.abs(more)
      })
      astray ??= wrong
      if (lasts && isBetter(ridden, best?.ridden, aim)) best = { choice, ridden, astray }
      const late = aim.for === 'charge' && ridden.time > aim.by
      if (lasts && !late && counts < margin * this.planned.usable) break
      if (!lasts) least += margin * this.planned.usable
      if (sought.for === 'charge' && aim.for === 'charge' && ridden.time > aim.by)
        sought = { for: 'charge', by: sought.by - (ridden.time - aim.by) - 1 }
    }
    return best
  }

  /** An index of a ratio for each stretch, that spends what each part may. */
  private choose(
    links: readonly Link[],
    start: { left: number; time: number },
    targets: readonly number[],
  ): Int32Array {
    const choice = new Int32Array(this.stretches)
    let now = start
    links.forEach(({ frontier, energy, time, passage }, s) => {
      const budget = now.left - targets[s]! - energy
      const taken = frontier.choose(budget, choice)
      const arrive = { left: now.left - energy - taken, time: now.time + time + frontier.time(budget) }
      now = passage === undefined ? arrive : passage(arrive.left, arrive.time)
    })
    return choice
  }
}

/** Time between two ends of stretches that is not in motion: halts there between, and small ones, s. */
export function besideRiding(held: AssistedRide, from: number, to: number): number {
  const riding = held.arrive[to]!.ridingTime - held.leave[from]!.ridingTime
  return held.arrive[to]!.time - held.leave[from]!.time - riding
}

/** By how much a table is off in a part, J and s. */
interface Off {
  energy: number
  time: number
}

/** What a joule more saves, where rounding may have left less than the least, s/J. */
const priceAt = (frontier: Frontier, energy: number) => frontier.price(Math.max(energy, frontier.leastEnergy))

/** How many of the last packs a ride left as they were. */
export const unopenedBy = ({ arrive }: AssistedRide): number => {
  const { packs, active } = arrive.at(-1)!
  return packs.length - 1 - active
}

/** Ratios of all stretches as indices, and the day ridden so. */
export interface Chosen {
  choice: Int32Array
  ridden: AssistedRide
  /** By how much the table was off in what it first foretold, s, with the energy at the price it has there. */
  astray: number
}

const rounds = 5
/** What is foretold may come so much later, s. */
const inTime = 20
/** Share of all usable energy that does not count: by so much more is kept back where a ride fell below the reserve. */
const margin = 0.0003

/** Share of the time that is kept in hand where a ride is foretold. */
const inHand = 0.003

/** An aim for rides that are foretold, so that they keep it when ridden. */
export const foretoldAim = (aim: Aim): Aim => (aim.for === 'charge' ? { ...aim, by: (1 - inHand) * aim.by } : aim)

/** Finish, s since the start, and what is left there, J. */
export type Reached = Pick<Ridden, 'time' | 'left'>

/** Whether one ride serves an aim better than another. */
export function isBetter(one: Reached, other: Reached | undefined, aim: Aim): boolean {
  if (other === undefined) return true
  if (aim.for === 'soonest') return one.time < other.time
  const inTime = one.time <= aim.by
  if (inTime !== other.time <= aim.by) return inTime
  return inTime ? one.left > other.left : one.time < other.time
}
