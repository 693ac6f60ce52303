import { passagesFor } from '../../model/readings/passages'
import { distance, unwrap } from '../../model/geo/scale'
import { positionAt } from '../../model/route/place'
import type { Outcome } from '../../model/forecast/outcome'
import type { Route } from '../../model/route/route'
import { clockOf } from '../clock'
import type { Units } from '../format'
import { wordsIn } from '../words/words'

/** A place worth a mark on the map. */
export interface Spot {
  key: string
  kind: 'start' | 'finish' | 'reserve' | 'empty' | 'control' | 'waypoint'
  latitude: number
  longitude: number
  /** Ridden distance, m; undefined for a waypoint off the route. */
  distance: number | undefined
  label: string
  /** Said beside the label to who can't see the map. */
  more?: string
  /** A control that has closed when the rider comes. */
  missed?: boolean
}

const roundTrip = 200 // m
const sameEvent = 100 // m

/** Start, finish, and where the charge ends. A round trip has its start and finish in one. */
export function spotsOf(outcome: Outcome, units: Units): Spot[] {
  const { route, length, reserveAt, emptyAt } = outcome
  const words = wordsIn(units).map
  const spot = (kind: Spot['kind'], at: number, label: string): Spot => ({
    key: kind,
    kind,
    ...positionAt(route, at),
    distance: at,
    label,
  })
  const start = spot('start', 0, words.start)
  const finish = spot('finish', length, words.finish)
  const apart = distance(start.latitude, start.longitude, finish.latitude, finish.longitude)
  const spots = apart < roundTrip ? [{ ...start, label: words.startAndFinish }] : [start, finish]
  if (emptyAt !== undefined) spots.push(spot('empty', emptyAt, words.motorStops(emptyAt)))
  if (reserveAt !== undefined && (emptyAt === undefined || emptyAt - reserveAt > sameEvent))
    spots.push(spot('reserve', reserveAt, words.reserveReached(reserveAt)))
  return spots
}

/** The plan's controls: what is in hand when the rider comes, or when it opens where the rider must wait. */
export function controlSpots(outcome: Outcome, units: Units): Spot[] {
  const clock = clockOf(outcome)
  const { map, place, times } = wordsIn(units)
  return passagesFor(outcome)
    .filter(({ kind }) => kind === 'control')
    .map((passage) => {
      const { id, name, distance, opens, margin, early, met } = passage
      const state = early > 0 && opens !== undefined ? map.opens(clock(opens)) : times.margin(margin)
      return {
        key: `control ${id}`,
        kind: 'control',
        ...positionAt(outcome.route, distance),
        distance,
        label: listed(place(name), state),
        more: times.open(passage, clock),
        missed: !met,
      }
    })
}

/** Texts behind each other, without the empty ones. */
export const listed = (...texts: readonly string[]): string => texts.filter((text) => text !== '').join(', ')

/** Waypoints of the file, on the same turn of the globe as the route. */
export const waypointSpots = (route: Route): Spot[] =>
  route.waypoints.map(({ name, latitude, longitude, distance }, i) => ({
    key: `waypoint-${i}`,
    kind: 'waypoint',
    latitude,
    longitude: unwrap(longitude, route.points.longitude[0]!),
    distance,
    label: name,
  }))
