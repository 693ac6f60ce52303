import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { departure, haltsBetween, leftAfter, type Halt, type Outcome } from '../forecast/outcome'
import { given, type PlaceName } from '../place-name'
import { ascentBetween } from '../route/ascent'
import { stationNear } from '../route/nearest'
import { terrainRuns, type Terrain, type TerrainRun } from './terrain'
import { windBetween, type StretchWind } from './wind'

/** A row of the leg table, all in SI. */
export interface Leg {
  number: number
  /** Names of its ends. */
  from: PlaceName
  to: PlaceName
  /** First and last station; a leg never spans a crossing. */
  first: number
  last: number
  start: number
  end: number
  length: number
  ascent: number
  descent: number
  /** Rise over run. */
  meanGradient: number
  /** The steepest 100 m by amount, with its sign. */
  steepestGradient: number
  ridingTime: number
  meanSpeed: number
  riderWork: number
  motorWork: number
  /** Energy taken from inside the packs, J, and for each metre, J/m. */
  drained: number
  drain: number
  /** Usable energy when setting off and on arrival, J. */
  leftAtStart: number
  leftAtEnd: number
  /** Seconds since the start: arrival at the leg's end, and departure from there. */
  arrive: number
  depart: number
  wind: StretchWind
  terrain: Terrain | undefined
  /** Halts at the leg's end and swaps on the way. */
  halts: Halt[]
}

/** What is added up over a range of stations. */
export type LegTotals = Pick<
  Leg,
  'length' | 'ascent' | 'descent' | 'ridingTime' | 'meanSpeed' | 'riderWork' | 'motorWork' | 'drained' | 'drain'
>

const steepestOver = 100 // m

/** Where a leg begins or ends: a station, with its name. */
interface Cut {
  station: number
  name: PlaceName
}

/**
 * The legs of a ride, cut at stops and crossings and by length or by terrain.
 *
 * @returns rows in order of the route
 */
export function legsOf(outcome: Outcome): Leg[] {
  const { route, plan } = outcome
  const windOf = windBetween(outcome)
  return route.sections
    .flatMap(({ first, last }, index) => {
      const runs = plan.legs.by === 'terrain' ? terrainRuns(route, first, last) : []
      const cuts = cutsWithin(route, plan, first, last, index, runs)
      return cuts.slice(1).map((to, i) => {
        const from = cuts[i]!
        return { from, to, terrain: runs.find((run) => run.last > from.station)?.terrain }
      })
    })
    .map(({ from, to, terrain }, i) => ({
      ...legBetween(outcome, i + 1, from, to),
      wind: windOf(from.station, to.station),
      terrain,
    }))
}

function cutsWithin(
  route: Route,
  plan: Plan,
  first: number,
  last: number,
  section: number,
  runs: readonly TerrainRun[],
): Cut[] {
  const { distance } = route.stations
  const named = new Map<number, PlaceName>()
  const cut = (station: number) => named.set(station, { code: 'at', distance: distance[station]! })
  const start = distance[first]!
  const end = distance[last]!
  if (plan.legs.by === 'length') {
    for (let k = Math.floor(start / plan.legs.length) + 1; k * plan.legs.length < end - plan.legs.length / 20; k++)
      if (k * plan.legs.length > start + plan.legs.length / 20) cut(stationNear(route, k * plan.legs.length))
  } else for (const run of runs.slice(1)) cut(run.first)
  for (const stop of plan.stops) {
    const station = stationNear(route, stop.distance)
    if (station <= first || station >= last) continue
    if (stop.name === '') cut(station)
    else named.set(station, given(stop.name))
  }
  named.set(first, section === 0 ? { code: 'start' } : { code: 'afterCrossing', number: section })
  named.set(
    last,
    section === route.sections.length - 1 ? { code: 'finish' } : { code: 'crossing', number: section + 1 },
  )
  return [...named.entries()].sort(([a], [b]) => a - b).map(([station, name]) => ({ station, name }))
}

function legBetween(outcome: Outcome, number: number, from: Cut, to: Cut): Omit<Leg, 'wind' | 'terrain'> {
  const { columns } = outcome
  const { distance, elevation } = outcome.route.stations
  const first = from.station
  const last = to.station
  const totals = totalsBetween(outcome, first, last)
  return {
    number,
    from: from.name,
    to: to.name,
    first,
    last,
    start: distance[first]!,
    end: distance[last]!,
    ...totals,
    meanGradient: totals.length > 0 ? (elevation[last]! - elevation[first]!) / totals.length : 0,
    steepestGradient: steepest(outcome.route, first, last),
    leftAtStart: leftAfter(outcome, first),
    leftAtEnd: columns.left[last]!,
    arrive: columns.time[last]!,
    depart: departure(outcome, last),
    halts: haltsBetween(outcome, first, last),
  }
}

/**
 * Sums over a stretch.
 *
 * @param first station index
 * @param last station index, above `first`
 */
export function totalsBetween(outcome: Outcome, first: number, last: number): LegTotals {
  const { columns, route } = outcome
  const { distance } = route.stations
  const length = distance[last]! - distance[first]!
  const ridingTime = columns.ridingTime[last]! - columns.ridingTime[first]!
  const drained = columns.drained[last]! - columns.drained[first]!
  return {
    length,
    ...ascentBetween(route.stations, first, last),
    ridingTime,
    meanSpeed: ridingTime > 0 ? length / ridingTime : 0,
    riderWork: columns.riderWork[last]! - columns.riderWork[first]!,
    motorWork: columns.motorWork[last]! - columns.motorWork[first]!,
    drained,
    drain: length > 0 ? drained / length : 0,
  }
}

function steepest(route: Route, first: number, last: number): number {
  const { distance, elevation } = route.stations
  let best = 0
  let to = first + 1
  for (let from = first; from < last; from++) {
    while (to < last && distance[to]! - distance[from]! < steepestOver) to++
    const run = distance[to]! - distance[from]!
    if (run < steepestOver && from > first) break
    const gradient = (elevation[to]! - elevation[from]!) / run
    if (Math.abs(gradient) > Math.abs(best)) best = gradient
  }
  return best
}
