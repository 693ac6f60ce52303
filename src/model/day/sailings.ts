import { mostOfDay, type Timetable } from '../plan/day-schema'
import { reading, Unreadable, type Reading } from './reading'
import { dateAfter, instantOf, localAt, weekdayOf } from './zone'

/** All days of the week, by ISO 8601. */
export const everyDay: readonly number[] = [1, 2, 3, 4, 5, 6, 7]

/** How a crossing goes for a rider who arrives at some instant. */
export interface Sailing {
  /** Unix time, s. */
  depart: number
  /** Riding on at the other side; Unix time, s. */
  arrive: number
  /** From the rider's arrival to departure, s; 0 where only a duration is known. */
  wait: number
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
      margin: undefined,
      tenMinutesLater: delay,
    }
  const depart = nextDeparture(timetable, instant + timetable.boardBefore, zone)
  const later = nextDeparture(timetable, instant + delay + timetable.boardBefore, zone)
  if (depart === undefined || later === undefined) return undefined
  return {
    depart,
    arrive: depart + timetable.length,
    wait: depart - instant,
    margin: depart - timetable.boardBefore - instant,
    tenMinutesLater: later - depart,
  }
}

type Scheduled = Exclude<Timetable, { kind: 'duration' }>

function nextDeparture(timetable: Scheduled, ready: number, zone: string): number | undefined {
  const today = localAt(ready, zone).slice(0, 10)
  let next: number | undefined
  // From the day before, whose last boats may leave after midnight; a later day counts only where the earlier ones have none.
  for (let k = -1; k <= searched && (next === undefined || k <= 1); k++)
    for (const depart of departuresOn(timetable, dateAfter(today, k), zone))
      if (depart >= ready && (next === undefined || depart < next)) next = depart
  return next
}

/**
 * Departures of a service day, those after its midnight included.
 *
 * @param date local, `YYYY-MM-DD`
 * @returns Unix times, s; empty on a day without service
 */
export function departuresOn(timetable: Scheduled, date: string, zone: string): number[] {
  if (!timetable.days.includes(weekdayOf(date))) return []
  const at = (clock: string, day = date) => instantOf(`${day}T${clock}`, zone)
  if (timetable.kind === 'list') return timetable.times.map((clock) => at(clock)).sort((a, b) => a - b)
  const { from, until, interval } = timetable
  const first = at(from)
  const last = at(until, until < from ? dateAfter(date, 1) : date)
  return Array.from({ length: Math.floor((last - first) / interval) + 1 }, (_, k) => first + k * interval)
}

/**
 * Sailings typed as a list, such as '07:00 09:30 12:00': with blanks, commas, semicolons or line ends between them, and 7:00, 7.00, 7h00 or
 * 0700 for 07:00.
 *
 * @returns times as `HH:mm`, in order, each once; or one sentence
 */
export const readTimes = (text: string): Reading<string[]> =>
  reading(() => {
    const words = text.split(/[\s,;]+/).filter((word) => word !== '')
    if (words.length === 0) throw new Unreadable('Write at least one sailing, such as 07:00.')
    const times = [...new Set(words.map(clockOf))].sort()
    if (times.length > mostOfDay.sailings)
      throw new Unreadable(`There are ${times.length} sailings; ${mostOfDay.sailings} are the most.`)
    return times
  })

function clockOf(word: string): string {
  const [, hours, minutes] = /^(\d{1,2})[:.h](\d{2})$/i.exec(word) ?? /^(\d{2})(\d{2})$/.exec(word) ?? []
  if (hours === undefined || Number(hours) > 23 || Number(minutes) > 59)
    throw new Unreadable(`“${word}” is not a time of day: write sailings as 07:00 09:30 12:00.`)
  return `${hours.padStart(2, '0')}:${minutes}`
}
