import type { Waypoint } from '../route/route'
import { defaultStop } from './defaults'
import type { Numbered } from './names'
import { freshId, merged, numberOf } from './lists'
import { most, type Plan } from './schema'

/** What a place seems to have, by its name. */
export type Service = 'food' | 'water' | 'sockets'

/** A place of the file at which one could stop. */
export interface OfferedStop {
  /** Empty where the file has none. */
  name: string
  /** Ridden distance, m. */
  distance: number
  service: Service | undefined
}

const samePlace = 100 // m
const offeredRest = 15 * 60 // s

/** Words for it in the languages of many route files; a place may be called otherwise, and then it stands further down. */
const services: readonly [Service, RegExp][] = [
  [
    'sockets',
    /socket|charg(e|ing)|steckdose|lade(punkt|stelle|station)|prise|recharge|recarga|enchufe|ricarica|\bpresa\b/i,
  ],
  [
    'food',
    /\bfood\b|caf[eé]|coffee|\binns?\b|\bpubs?\b|restaurant|bistro|\bbar\b|bakery|\bshops?\b|\bstores?\b|\bmarket\b|kiosk|canteen|lunch|dinner|breakfast|b[äa]cker|gasth|imbiss|hofladen|dorfladen|boulanger|[ée]picerie|auberge|ristorante|trattoria|panifici|panader|tienda|taberna/i,
  ],
  [
    'water',
    /\bwater\b|\btaps?\b|\bspring\b|fountain|\bwell\b|brunnen|quelle|trinkwasser|fontaine|\beau\b|fuente|\bagua\b|fontana|\bacqua\b/i,
  ],
]

const serviceOf = (name: string): Service | undefined => services.find(([, words]) => words.test(name))?.[0]

const before = new WeakMap<readonly Waypoint[], readonly OfferedStop[]>()

/** The waypoints on the way, in the order of the route, with what they seem to have. */
function placesOf(waypoints: readonly Waypoint[]): readonly OfferedStop[] {
  const made = before.get(waypoints)
  if (made !== undefined) return made
  const places = waypoints
    .flatMap(({ name, distance }) =>
      distance === undefined ? [] : [{ name: name.trim(), distance, service: serviceOf(name) }],
    )
    .sort((a, b) => a.distance - b.distance)
  before.set(waypoints, places)
  return places
}

/**
 * Waypoints on the way at which there is no stop yet, save within 100 m of the start and the finish: first those that seem to have food, water or
 * sockets, each lot in the order of the route.
 *
 * @param length of the route, m
 */
export function offeredStops(plan: Plan, waypoints: readonly Waypoint[], length: number): OfferedStop[] {
  const taken = [0, length, ...plan.stops.map((stop) => stop.distance)].sort((a, b) => a - b)
  const known: OfferedStop[] = []
  const unknown: OfferedStop[] = []
  let next = 0
  let last = -Infinity
  for (const place of placesOf(waypoints)) {
    const { distance, service } = place
    while (next < taken.length && taken[next]! <= distance - samePlace) next++
    const isTaken = next < taken.length && taken[next]! < distance + samePlace
    if (isTaken || distance - last < samePlace) continue
    last = distance
    if (service === undefined) unknown.push(place)
    else known.push(place)
  }
  return [...known, ...unknown]
}

/**
 * Rests of a quarter of an hour at places that were offered; no more than a plan holds.
 *
 * @param unnamed what a stop at a place without a name is called
 */
export function stopAtOffered(plan: Plan, places: readonly OfferedStop[], unnamed: Numbered): Plan {
  const stops = [...plan.stops]
  for (const { name, distance, service } of places.slice(0, most.stops - stops.length)) {
    const id = freshId('stop', stops)
    const named = name === '' ? unnamed(numberOf(id)) : name.slice(0, 80)
    const kind = service === 'food' || service === 'water' ? service : 'rest'
    stops.push({ ...defaultStop(id, named, distance, null), kind, duration: offeredRest })
  }
  return merged(plan, { stops })
}
