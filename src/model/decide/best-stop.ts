import { packAt } from '../battery/pack'
import { coarser } from '../forecast/coarser'
import { sourceRefusal } from '../forecast/sources'
import { offeredStops } from '../plan/offered-stops'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { ratiosOf, simpleWithin } from './assist'
import { best, closer, type Tried } from './closer'
import { chargingStops, planWithStops, StopSearch, type StopAt, type StopPlace } from './stop-search'
import { keptBack, withReserve, type SureAsk } from './sure-assist'

/** Stops that a day could have, and how soon it is then foretold to end with the best assist, s since the start. */
export interface StopOption {
  /** In order of the route. */
  stops: StopAt[]
  finish: number
  plan: Plan
}

/** The finish, s since the start, over the length of one stop, s, from none, all else as in an option; where the charge does not last it is left out. */
export interface StopCurve {
  place: StopPlace
  points: { duration: number; finish: number }[]
}

/** The best stops for a day. */
export interface BestStops {
  /** Fewest stops first, none at all among them where that lasts; each ends sooner than those before. Empty where none lasts. */
  options: StopOption[]
  /** Index of the one with fewest stops within `simpleWithin` of the best. */
  advice: number
  /** Of the advised option's longest stop, or where it has none of the best single one: the finish over its length, there first, and at other places. */
  curves: StopCurve[]
  /** Between which lengths of that stop, s, the finish is within `simpleWithin` of the best; 0 is without it. */
  valley: { from: number; to: number } | undefined
  /** Of that stop, as long as it is: the finish over where on the route it is made, whatever is there; empty where there is no such stop. */
  along: { distance: number; finish: number }[]
  /** Between which places, m, around that stop the finish is within `simpleWithin` of its own. */
  around: { from: number; to: number } | undefined
}

const minutes = (...list: number[]) => list.map((one) => 60 * one)
const coarseLengths = minutes(15, 30, 45, 60, 90, 120, 180)
/** Of the curve, and around the best of the coarse ones. */
const fineLengths = minutes(...Array.from({ length: 40 }, (_, k) => 5 * (k + 1)))
const mostStops = 3
/** Pairs of a place and a source; and of these so many go on to two and three stops: choices. */
const mostPlaces = 14
const mostTried = 5
const mostCurves = 4
/** Places anywhere are at least so far apart, m, and so many; of them as many go on to two and three stops: choices. */
const apart = 1500
const mostSpots = 40
const spotsTried = 6
/** For less nobody stops, s: a choice. */
const worthAStop = 60

/** Sources of the plan that fill its packs. */
const chargingSources = (plan: Plan): string[] => {
  const packs = plan.battery.packs.map((spec) => packAt(spec, plan.battery.temperatureCelsius))
  return plan.sources
    .filter((source) => source.kind !== 'swap' && packs.some((pack) => sourceRefusal(source, pack) === undefined))
    .map(({ id }) => id)
}

/**
 * Places at which one could charge: the plan's stops, then waypoints of the file, those first that seem to have sockets, food or water; each by each source
 * of the plan that fills its packs. That a waypoint has a socket is not known.
 */
export function stopPlaces(route: Route, plan: Plan): StopPlace[] {
  const sources = chargingSources(plan)
  const places = [
    ...plan.stops.map(({ id, name, distance }) => ({ name, distance, stop: id })),
    ...offeredStops(plan, route.waypoints, route.length).map(({ name, distance }) => ({
      name,
      distance,
      stop: undefined,
    })),
  ].filter(({ distance }) => distance > 0 && distance < route.length)
  return places.flatMap((place) => sources.map((source) => ({ ...place, source }))).slice(0, mostPlaces)
}

/**
 * Where to stop for charge and how long, so that the finish comes soonest with the best assist between: none to three stops at places that are there, and
 * by a carried pack anywhere, with
 * tapers, the order of packs and sailings as the forecast has them; what one eats or rests at a stop goes on beside the charge.
 *
 * @param route at least two stations
 * @param plan valid; its stops that charge are put aside
 * @param sure share of days on which the charge is to stay above the reserve; undefined where the day as planned counts
 * @param tell takes the share done, 0 to 1
 */
export function bestStops(
  route: Route,
  { plan, sure }: Pick<SureAsk, 'plan' | 'sure'>,
  tell: (share: number) => void = () => undefined,
): BestStops {
  const { reserve } = plan.battery
  const ask: SureAsk = { plan, sure, ratios: ratiosOf(plan), aim: { for: 'soonest' } }
  const careful = withReserve(plan, reserve + keptBack(route, ask, (share) => tell(0.3 * share)))
  const { options, advice, single, search, places, anywhere } = stopsFor(route, careful, (share) =>
    tell(0.3 + 0.7 * share),
  )
  const advised = options[advice]?.stops ?? []
  const looked = advised.length > 0 ? advised : single
  const curves = curvesOf(search, looked, places)
  return {
    options: options.map((option) => ({ ...option, plan: planWithStops(plan, option.stops) })),
    ...{ advice, curves, valley: valleyOf(curves[0]), ...alongOf(search, looked, anywhere) },
  }
}

/** The plan with the best stops for charge; undefined where it does not last with any. */
export function withBestStops(route: Route, plan: Plan): Plan | undefined {
  const { options, advice } = stopsFor(route, plan)
  const option = options[advice]
  return option && planWithStops(plan, option.stops)
}

/** The options of a plan, with the best single stop, and with what they were found. */
function stopsFor(route: Route, plan: Plan, tell: (share: number) => void = () => undefined) {
  const named = stopPlaces(route, plan)
  const road = coarser(route, plan.bike)
  const search = new StopSearch(road, plan, named)
  const step = Math.max(apart, route.length / mostSpots)
  const spots = search.spots(step)
  const anywhere = (source: string): StopPlace[] =>
    spots.map((distance) => ({ name: '', distance, source, stop: undefined }))
  const carried = new Set(plan.sources.flatMap(({ id, kind }) => (kind === 'carried' ? [id] : [])))
  const goTogether = (one: StopPlace, other: StopPlace) =>
    Math.abs(one.distance - other.distance) > 1 && !(one.source === other.source && carried.has(one.source))
  // A carried pack charges anywhere; for a socket there must be something, unless nothing is known to be anywhere.
  const free = chargingSources(plan)
    .filter((source) => carried.has(source) || named.length === 0)
    .flatMap(anywhere)
  let places = [...named, ...free]
  tell(0.1)

  const bare: Tried = { stops: [], finish: search.finish([], fine) }
  const found = [bare]
  let from = [bare]
  for (let count = 1; count <= Math.min(mostStops, places.length); count++) {
    const tried = from.flatMap(({ stops }) =>
      places
        .filter((place) => stops.every((stop) => goTogether(stop.place, place)))
        .map((place) =>
          best(coarseLengths.map((duration) => adjusted(search, [...stops, { place, duration }], coarseLengths))),
        ),
    )
    if (tried.length === 0) break
    const inOrder = distinct(tried.sort((a, b) => a.finish - b.finish))
    if (count === 1) {
      const soonest = inOrder
        .flatMap(({ stops }) => stops.map(({ place }) => place))
        .filter((place) => free.includes(place))
      places = [...named, ...soonest.slice(0, spotsTried)]
    }
    from = inOrder.slice(0, count === 1 ? mostTried : 2)
    const finest = refined(search, from[0]!)
    found.push(closer(search, road, plan, finest, ({ place }) => free.includes(place), step))
    tell(0.1 + (0.9 * count) / mostStops)
  }

  const options: Omit<StopOption, 'plan'>[] = []
  for (const { stops, finish } of found)
    if (finish < (options.at(-1)?.finish ?? Infinity))
      options.push({ stops: [...stops].sort((a, b) => a.place.distance - b.place.distance), finish })
  const soonest = options.at(-1)?.finish ?? Infinity
  const advice = options.findIndex(({ finish }) => finish <= soonest + simpleWithin)
  return { options, advice, single: found[1]?.stops ?? [], search, places, anywhere }
}

const coarse = 1
const fine = 3

/** Stops at the same places are the same but for their lengths: of those the first. */
function distinct(tried: readonly Tried[]): Tried[] {
  const keyOf = ({ stops }: Tried) =>
    stops
      .map(({ place }) => `${place.distance} ${place.source}`)
      .sort()
      .join()
  const keys = tried.map(keyOf)
  return tried.filter((_, k) => keys.indexOf(keys[k]!) === k)
}

/** The last stop as it is, the others at the best of some lengths, one after the other. */
function adjusted(search: StopSearch, stops: StopAt[], lengths: readonly number[]): Tried {
  let now: Tried = { stops, finish: search.finish(stops, coarse) }
  for (let k = 0; k + 1 < stops.length; k++) now = best([now, ...withLengths(search, now.stops, k, lengths, coarse)])
  return now
}

const withLengths = (
  search: StopSearch,
  stops: readonly StopAt[],
  k: number,
  lengths: readonly number[],
  passes: number,
): Tried[] =>
  lengths.map((duration) => {
    const changed = stops.with(k, { ...stops[k]!, duration })
    return { stops: changed, finish: search.finish(changed, passes) }
  })

/** Lengths in steps of five minutes, until none of them alone is better otherwise. */
function refined(search: StopSearch, { stops }: Tried): Tried {
  let now: Tried = { stops, finish: search.finish(stops, fine) }
  for (let round = 0; round < 3; round++) {
    const before = now
    stops.forEach((_, k) => {
      now = best([now, ...withLengths(search, now.stops, k, fineLengths, fine)])
    })
    if (now === before) break
  }
  return now
}

const longestOf = (stops: readonly StopAt[]): number =>
  stops.reduce((most, { duration }, k) => (duration > stops[most]!.duration ? k : most), 0)

/** The finish over where the longest of some stops is made, and how far from it that hardly matters. */
function alongOf(
  search: StopSearch,
  stops: readonly StopAt[],
  anywhere: (source: string) => StopPlace[],
): Pick<BestStops, 'along' | 'around'> {
  const longest = longestOf(stops)
  const stop = stops[longest]
  if (stop === undefined) return { along: [], around: undefined }
  const others = stops.toSpliced(longest, 1)
  const along = [stop.place, ...anywhere(stop.place.source)]
    .filter(({ distance }) => others.every(({ place }) => Math.abs(place.distance - distance) > 1))
    .sort((one, other) => one.distance - other.distance)
    .map((place) => ({
      distance: place.distance,
      finish: search.finish(stops.with(longest, { ...stop, place }), fine),
    }))
  const own = along.findIndex(({ distance }) => distance === stop.place.distance)
  const isNear = (k: number) => along[k] !== undefined && along[k].finish <= along[own]!.finish + simpleWithin
  let [from, to] = [own, own]
  while (isNear(from - 1)) from--
  while (isNear(to + 1)) to++
  return {
    along: along.filter(({ finish }) => finish < Infinity),
    around: { from: along[from]!.distance, to: along[to]!.distance },
  }
}

function curvesOf(search: StopSearch, stops: readonly StopAt[], places: readonly StopPlace[]): StopCurve[] {
  if (stops.length === 0) return []
  const longest = longestOf(stops)
  const without = { duration: 0, finish: search.finish(stops.toSpliced(longest, 1), fine) }
  const curveAt = (place: StopPlace): StopCurve => {
    const tried = withLengths(search, stops.with(longest, { ...stops[longest]!, place }), longest, fineLengths, fine)
    const points = tried.map(({ finish }, k) => ({ duration: fineLengths[k]!, finish }))
    return { place, points: [without, ...points].filter(({ finish }) => finish < Infinity) }
  }
  const { place } = stops[longest]!
  const others = places
    .filter((other) => stops.every((stop) => Math.abs(stop.place.distance - other.distance) > 1))
    .map(curveAt)
    .sort((one, other) => soonestOf(one) - soonestOf(other))
  return [curveAt(place), ...others.slice(0, mostCurves - 1)].filter(({ points }) => points.length > 1)
}

const soonestOf = ({ points }: StopCurve): number => Math.min(...points.map(({ finish }) => finish))

function valleyOf(curve: StopCurve | undefined): BestStops['valley'] {
  if (curve === undefined) return undefined
  const low = soonestOf(curve)
  const flat = curve.points.filter(({ finish }) => finish <= low + simpleWithin)
  return { from: flat[0]!.duration, to: flat.at(-1)!.duration }
}

/** The plan with its own stops that charge at the best lengths; one that is better left out is. */
export function bestLengths(route: Route, plan: Plan): Plan {
  const stops = chargingStops(plan)
  if (stops.length === 0) return plan
  const search = new StopSearch(coarser(route, plan.bike), plan, [])
  let now = refined(search, { stops, finish: Infinity })
  for (;;) {
    const without = now.stops.map((_, k) => ({ stops: now.stops.toSpliced(k, 1) }))
    if (without.length === 0) return planWithStops(plan, [])
    const next = best(without.map(({ stops }) => ({ stops, finish: search.finish(stops, fine) })))
    if (next.finish > now.finish + worthAStop) return planWithStops(plan, now.stops)
    now = refined(search, next)
  }
}
