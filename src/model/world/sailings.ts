import type { Timetable } from '../plan/day-schema'
import { dateAfter, dateOfDay, dayOf, instantOf, instantsOf, weekdayOf } from './zone'

/** How a crossing goes for a rider who arrives at some instant. */
export interface Sailing {
  /** Unix time, s. */
  depart: number
  /** Riding on at the other side; Unix time, s. */
  arrive: number
  /** From the rider's arrival to departure, s; 0 where only a duration is known. */
  wait: number
  /** When the rider has to be there at the latest, Unix time, s; undefined where only a duration is known. */
  latest: number | undefined
  /** How much later the rider could be there and still catch it, s; undefined where only a duration is known. */
  margin: number | undefined
  /** How much later the rider is across if he is there 10 minutes later, s: 0 if it is still caught, else the jump to the next one. */
  tenMinutesLater: number
}

const delay = 600
const searched = 8

/**
 * The first sailing that can be caught, on this day or a following one.
 *
 * @param timetable of the crossing
 * @param instant at which the rider is there; Unix time, s
 * @param zone tz database name of the timetable's clock
 * @returns undefined where none sails within eight days
 */
export function nextSailing(timetable: Timetable, instant: number, zone: string): Sailing | undefined {
  if (timetable.kind === 'duration')
    return {
      depart: instant,
      arrive: instant + timetable.duration,
      wait: 0,
      latest: undefined,
      margin: undefined,
      tenMinutesLater: delay,
    }
  const depart = nextDeparture(timetable, instant + timetable.boardBefore, zone)
  const later = nextDeparture(timetable, instant + delay + timetable.boardBefore, zone)
  if (depart === undefined || later === undefined) return undefined
  const latest = depart - timetable.boardBefore
  return {
    depart,
    arrive: depart + timetable.length,
    wait: depart - instant,
    latest,
    margin: latest - instant,
    tenMinutesLater: later - depart,
  }
}

export type Scheduled = Exclude<Timetable, { kind: 'duration' }>

/**
 * The last sailing that is gone when a rider arrives, of this day or the day before.
 *
 * @param timetable of the crossing
 * @param instant at which the rider is there; Unix time, s
 * @param zone tz database name of the timetable's clock
 * @returns its departure, Unix time, s; undefined where there is none
 */
export function sailingBefore(timetable: Scheduled, instant: number, zone: string): number | undefined {
  const ready = instant + timetable.boardBefore
  const today = dayOf(ready, zone)
  const gone = [-1, 0, 1].flatMap((k) => remembered(timetable, today + k, zone)).filter((at) => at < ready)
  return gone.length === 0 ? undefined : Math.max(...gone)
}

function nextDeparture(timetable: Scheduled, ready: number, zone: string): number | undefined {
  const today = dayOf(ready, zone)
  let next: number | undefined
  // From the day before, whose last boats may leave after midnight; a later day counts only where the earlier ones have none.
  for (let k = -1; k <= searched && (next === undefined || k <= 1); k++) {
    const depart = remembered(timetable, today + k, zone).find((depart) => depart >= ready)
    if (depart !== undefined && (next === undefined || depart < next)) next = depart
  }
  return next
}

/** Days of a timetable that are remembered: those of two searches, and some to spare. */
const mostDays = 24
const known = new WeakMap<Scheduled, { zone: string; days: Map<number, readonly number[]> }>()

/** Departures of a day, worked out once for as long as the timetable is the same object: each step of a drag asks for them again. */
function remembered(timetable: Scheduled, day: number, zone: string): readonly number[] {
  let of = known.get(timetable)
  if (of?.zone !== zone || of.days.size > mostDays) known.set(timetable, (of = { zone, days: new Map() }))
  let departures = of.days.get(day)
  if (departures === undefined) of.days.set(day, (departures = departuresOn(timetable, dateOfDay(day), zone)))
  return departures
}

/**
 * Departures of a service day, those after its midnight included.
 *
 * @param date local, `YYYY-MM-DD`
 * @returns Unix times, s, the first one first; empty on a day without service
 */
export function departuresOn(timetable: Scheduled, date: string, zone: string): number[] {
  if (!timetable.days.includes(weekdayOf(date))) return []
  if (timetable.kind === 'list') return instantsOf(date, timetable.times, zone).sort((a, b) => a - b)
  const { from, until, interval } = timetable
  const first = instantOf(`${date}T${from}`, zone)
  const last = instantOf(`${until < from ? dateAfter(date, 1) : date}T${until}`, zone)
  return Array.from({ length: Math.floor((last - first) / interval) + 1 }, (_, k) => first + k * interval)
}
