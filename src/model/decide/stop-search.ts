import { interpolate } from '../columns'
import { totalMass } from '../forecast/mass'
import { prepare, type Prepared } from '../forecast/prepare'
import { Ride } from '../forecast/ride'
import { defaultStop } from '../plan/defaults'
import { freshId } from '../plan/lists'
import type { Plan, PlanStop } from '../plan/schema'
import { charges } from '../plan/stop-goal'
import { stationNear } from '../route/nearest'
import type { Route } from '../route/route'
import { allot, type Aim, type Link, type Passage } from './chain'
import { besideRiding, DayParts, isBetter } from './day-parts'
import { Frontier, type AssistTable } from './frontier'
import type { AssistedRide, Ridden } from './held'
import { passageAt, turnsOf, withInHand, type Turns } from './passages'

/** A place at which one could charge, and by what. */
export interface StopPlace {
  /** As the rider or the file names it; may be empty. */
  name: string
  /** Ridden distance, m. */
  distance: number
  /** Id of a charge source that fills packs. */
  source: string
  /** Id of the plan's stop there; undefined where it has none. */
  stop: string | undefined
}

/** A stop at one of the places, and how long, s: what the plan does there besides, such as eating, goes on beside the charge. */
export interface StopAt {
  place: StopPlace
  duration: number
}

/** With coarse steps of assist the straight lines between them are near enough. */
const ratios: readonly number[] = Array.from({ length: 13 }, (_, k) => k / 4)
const soonest: Aim = { for: 'soonest' }
/** For so many charges on arrival is asked what a stop brings. */
const asked = 17
/** To stop and to be as fast again, by a rider's usual speed, m/s, how one sets off, m/s², and what a motor makes of its energy: choices. */
const usualSpeed = 7
const setsOff = 0.6
const motorEfficiency = 0.7
/** What is foretold is off by less, s. */
const inHand = 60
/** A day with stops so long does not run empty, s. */
const long = 3 * 3600

/** The plan's stops that charge. */
export const chargingStops = (plan: Plan): StopAt[] =>
  plan.stops.flatMap((stop) =>
    charges(plan, stop)
      ? [
          {
            place: { name: stop.name, distance: stop.distance, source: stop.source!, stop: stop.id },
            duration: stop.duration,
          },
        ]
      : [],
  )

/** Without charge: a stop for charging alone is none any more, one at which one also eats or rests stays. */
const withoutCharging = (plan: Plan): Plan => ({
  ...plan,
  stops: plan.stops.flatMap((stop) =>
    !charges(plan, stop) ? [stop] : stop.kind === 'charge' ? [] : [{ ...stop, source: null }],
  ),
})

/** The plan with these stops and no others that charge. */
export function planWithStops(plan: Plan, stops: readonly StopAt[]): Plan {
  const base = withoutCharging(plan)
  const list = [...base.stops]
  for (const { place, duration } of stops) {
    const own = plan.stops.find(({ id }) => id === place.stop)
    const k = list.findIndex(({ id }) => id === place.stop)
    const id = freshId('stop', [...plan.stops, ...list])
    const stop: PlanStop = {
      ...(own ?? defaultStop(id, place.name.slice(0, 80), place.distance, place.source)),
      ...{ source: place.source, goal: 'duration', duration: Math.max(duration, list[k]?.duration ?? 0) },
    }
    if (k >= 0) list[k] = stop
    else list.push(stop)
  }
  return { ...base, stops: list }
}

/**
 * How soon a day can end for stops at some places, with the best assist between them and never below the reserve: one table of times and energies of the
 * stretches is ridden, and for each choice of stops the charge is spread over it anew. What is foretold so is off by the braking for a stop and by the hour
 * of the weather, and is to be ridden.
 */
export class StopSearch {
  private readonly day: DayParts
  private readonly held: AssistedRide
  private readonly table: AssistTable
  /** The day without stops that charge, and where it turns. */
  private readonly bare: Prepared
  private readonly ride: Ride
  private readonly turns: Turns
  /** How much longer the held day stands at some ends of stretches than the bare one, s. */
  private readonly longer = new Map<number, number>()
  private readonly settingOff: { time: number; energy: number }
  private readonly frontiers = new Map<string, Frontier>()
  private readonly passages = new Map<string, Passage>()
  private readonly charges = new Map<string, { at: Float64Array; lefts: Float64Array }>()

  /**
   * @param route at least two stations
   * @param plan valid; its stops that charge are put aside
   * @param places of stops that are asked for
   */
  constructor(
    readonly route: Route,
    readonly plan: Plan,
    places: readonly StopPlace[],
  ) {
    const { day, ridden, stops } = heldDay(route, plan, places)
    this.day = day
    this.held = day.held(ridden)
    this.table = day.table(this.held, ratios)
    this.bare = prepare(route, withoutCharging(plan))
    this.ride = new Ride(this.bare)
    this.turns = turnsOf(this.bare)
    this.settingOff = {
      time: usualSpeed / setsOff,
      energy: (0.5 * totalMass(plan) * usualSpeed * usualSpeed) / motorEfficiency,
    }
    for (const stop of stops) {
      const end = this.endOf(stop.place)
      this.longer.set(end, (this.longer.get(end) ?? 0) + this.more(stop))
    }
  }

  /** Ends of stretches, such as feet and tops of hills, at which one could stand whatever is there: at least so far apart, from each other and from start and finish, m. */
  spots(apart: number): number[] {
    const { distance } = this.route.stations
    const spots: number[] = []
    for (const end of this.day.ends) {
      const at = distance[end]!
      if (at >= (spots.at(-1) ?? 0) + apart && at <= this.route.length - apart) spots.push(at)
    }
    return spots
  }

  /** The end of a stretch that a place is, or is nearest to. */
  private endOf({ distance }: StopPlace): number {
    const { ends } = this.day
    const at = ends.lastIndexOf(stationNear(this.route, distance))
    if (at >= 0) return at
    const away = (end: number) => Math.abs(this.route.stations.distance[ends[end]!]! - distance)
    return ends.reduce((nearest, _, end) => (away(end) < away(nearest) ? end : nearest), 0)
  }

  /** How much longer the day stands for a stop, s. */
  private more({ place, duration }: StopAt): number {
    return Math.max(0, duration - this.rests(place))
  }

  /** How long the bare day stands at the plan's stop there, s. */
  private rests(place: StopPlace): number {
    return this.bare.plan.stops.find(({ id }) => id === place.stop)?.duration ?? 0
  }

  /**
   * How soon the day can end.
   *
   * @param stops at places that were named; each source that is carried at most once
   * @param passes grids by which the charge is spread, each closer: one is coarse, three are fine
   * @returns s since the start; Infinity where no assist keeps the reserve
   */
  finish(stops: readonly StopAt[], passes: number): number {
    const { day, held } = this
    const last = day.ends.length - 1
    const passages = new Map<number, Passage>()
    for (let end = 1; end < last; end++) if (this.isTurn(end)) passages.set(end, this.turn(end))
    for (const stop of stops) {
      const end = this.endOf(stop.place)
      if (end > 0 && end < last) passages.set(end, behind(this.charge(stop), passages.get(end) ?? this.rest(end)))
    }
    const ends = [0, ...[...passages.keys()].sort((a, b) => a - b), last]
    const links = ends.slice(1).map((to, s): Link => {
      const from = ends[s]!
      let time = besideRiding(held, from, to)
      for (const [end, more] of this.longer) if (from < end && end < to) time -= more
      return { frontier: this.frontier(from, to), energy: 0, time, passage: passages.get(to) }
    })
    const start = { left: held.leftOnLeaving[0]!, time: held.leave[0]!.time }
    return allot(links, start, day.reserve, day.planned.usable, soonest, passes)?.time ?? Infinity
  }

  private isTurn(end: number): boolean {
    const station = this.day.ends[end]!
    return this.turns.charging.has(station) || this.turns.clocked.has(station)
  }

  /** What the bare day does where the clock decides, or a crossing charges: a sailing that would be caught by little counts as missed. */
  private turn(end: number): Passage {
    return this.kept(`${end}`, () => withInHand(passageAt(this.bare, this.held.arrive[end]!, this.turns), inHand))
  }

  /** What the bare day stands elsewhere. */
  private rest(end: number): Passage {
    const stays = this.held.leave[end]!.time - this.held.arrive[end]!.time - (this.longer.get(end) ?? 0)
    return (left, time) => ({ left, time: time + stays })
  }

  /** What a stop adds, before all else that is done there. */
  private charge(stop: StopAt): Passage {
    const { place } = stop
    const more = this.more(stop)
    const { at, lefts } = this.charged(stop)
    // What a stretch takes where the held day stands too, has that in it.
    const again = this.longer.has(this.endOf(place)) || this.rests(place) > 0 ? { time: 0, energy: 0 } : this.settingOff
    return (left, time) => ({
      left: interpolate(at, lefts, left) - again.energy,
      time: time + more + again.time,
    })
  }

  /** For charges on arrival, J, those with which one leaves: the same wherever the same pack is in use. */
  private charged({ place, duration }: StopAt): { at: Float64Array; lefts: Float64Array } {
    const { day, held, ride } = this
    const arrive = held.arrive[this.endOf(place)]!
    const time = this.rests(place) + this.more({ place, duration })
    const { fillFirst } = this.plan.stops.find(({ id }) => id === place.stop) ?? { fillFirst: 'most' as const }
    const key = `${place.source} ${time} ${fillFirst} ${arrive.active}`
    const known = this.charges.get(key)
    if (known !== undefined) return known
    const source = this.plan.sources.find(({ id }) => id === place.source)
    if (source === undefined || source.kind === 'swap') throw new RangeError('A stop needs a source that charges.')
    const at = Float64Array.from({ length: asked }, (_, k) => (k * day.planned.usable) / (asked - 1))
    const lefts = at.map((left) => {
      ride.restore(arrive)
      ride.sources.restore(held.arrive[0]!.sources)
      ride.batteries.holdLeft(left)
      ride.batteries.chargeBy(source, ride.sources, { time }, fillFirst, undefined)
      return ride.batteries.left()
    })
    this.charges.set(key, { at, lefts })
    return { at, lefts }
  }

  private frontier(from: number, to: number): Frontier {
    const key = `${from} ${to}`
    const frontier = this.frontiers.get(key) ?? new Frontier(this.table, from, to)
    this.frontiers.set(key, frontier)
    return frontier
  }

  private kept(key: string, make: () => Passage): Passage {
    const passage = this.passages.get(key) ?? make()
    this.passages.set(key, passage)
    return passage
  }
}

/** One thing that happens at a place behind another. */
const behind =
  (first: Passage, second: Passage): Passage =>
  (left, time) => {
    const between = first(left, time)
    return second(between.left, between.time)
  }

interface HeldDay {
  day: DayParts
  ridden: Ridden
  stops: readonly StopAt[]
}

/** A day that does not run empty, with stretches that end at the places: with the plan's own stops, else with long ones at all places. */
function heldDay(route: Route, plan: Plan, places: readonly StopPlace[]): HeldDay {
  const own = chargingStops(plan)
  let day: HeldDay | undefined
  for (const stops of [own, places.map((place) => ({ place, duration: long }))]) {
    const parts = new DayParts(
      route,
      planWithStops(plan, stops),
      [...own.map(({ place }) => place), ...places].map(({ distance }) => distance),
      Infinity,
    )
    for (let k = ratios.length - 1; k >= 0; k -= 2) {
      const ridden = parts.rideAt(ratios[k]!)
      if (ridden.lasts && isBetter(ridden, day?.ridden.lasts === true ? day.ridden : undefined, soonest))
        day = { day: parts, ridden, stops }
      else if (day?.ridden.lasts === true) return day
      else day = { day: parts, ridden, stops }
    }
    if (day?.ridden.lasts === true) return day
  }
  return day!
}
