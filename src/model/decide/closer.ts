import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { StopSearch, type StopAt } from './stop-search'

/** Stops, and how soon the day is foretold to end with them, s since the start; `Infinity` where it does not. */
export interface Tried {
  stops: StopAt[]
  finish: number
}

export const best = (tried: readonly Tried[]): Tried =>
  tried.reduce((one, other) => (other.finish < one.finish ? other : one))

/** Places are told apart by so much in the end, m. */
const grid = 100
const fine = 3

/**
 * Moves stops that could be anywhere: over ends of stretches by steps that are halved each time, then along the stretches around, by 100 m, over which a
 * table of its own is made.
 *
 * @param road with fewer stations
 * @param plan of the search
 * @param isFree whether a stop could be anywhere
 * @param reach of the first step, m
 */
export function closer(
  search: StopSearch,
  road: Route,
  plan: Plan,
  tried: Tried,
  isFree: (stop: StopAt) => boolean,
  reach: number,
): Tried {
  const free = tried.stops.flatMap((stop, k) => (isFree(stop) ? [k] : []))
  if (free.length === 0 || tried.finish === Infinity) return tried
  const ends = search.spots(grid)
  const moved = free.reduce((now, k) => halved(search, now, k, ends, reach), tried)
  const around = free.flatMap((k) => between(ends, moved.stops[k]!.place.distance))
  const places = [...moved.stops.map(({ place }) => place)]
  for (const distance of around) places.push({ ...moved.stops[free[0]!]!.place, distance })
  const near = new StopSearch(road, plan, places)
  const before: Tried = { stops: moved.stops, finish: near.finish(moved.stops, fine) }
  const after = free.reduce((now, k) => {
    const here = now.stops[k]!.place.distance
    return best([now, ...between(ends, here).map((distance) => movedTo(near, now, k, distance))])
  }, before)
  // By the difference, since another table foretells another finish by some seconds.
  return after === before ? moved : { stops: after.stops, finish: moved.finish + after.finish - before.finish }
}

function halved(search: StopSearch, tried: Tried, k: number, ends: readonly number[], reach: number): Tried {
  let now = tried
  for (let step = reach; step >= grid; step /= 2) {
    const here = now.stops[k]!.place.distance
    const nearest = (to: number) =>
      ends.reduce((one, end) => (Math.abs(end - to) < Math.abs(one - to) ? end : one), here)
    const asked = [...new Set([nearest(here - step), nearest(here + step)])].filter((at) => at !== here)
    now = best([now, ...asked.map((distance) => movedTo(search, now, k, distance))])
  }
  return now
}

/** With one stop elsewhere, unless another is there. */
function movedTo(search: StopSearch, { stops }: Tried, k: number, distance: number): Tried {
  const taken = stops.some(({ place }, other) => other !== k && Math.abs(place.distance - distance) < grid)
  const there = stops.with(k, { ...stops[k]!, place: { ...stops[k]!.place, distance } })
  return { stops: there, finish: taken ? Infinity : search.finish(there, fine) }
}

/** Each hundred metres from the end of a stretch before a place to the end behind it. */
function between(ends: readonly number[], place: number): number[] {
  const before = Math.max(0, ...ends.filter((end) => end < place - 1))
  const behind = ends.find((end) => end > place + 1) ?? place
  const places: number[] = []
  for (let at = before + grid; at < behind; at += grid) places.push(at)
  return places
}
