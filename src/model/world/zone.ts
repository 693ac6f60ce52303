import tzLookup from '@photostructure/tz-lookup'
import { fromEpochMilliseconds, toZonedDateTimeISO } from 'temporal-polyfill/fns/Instant'
import { getTimeZoneTransition, offsetNanoseconds, type Record as ZonedTime } from 'temporal-polyfill/fns/ZonedDateTime'
import type { Route } from '../route/route'

/** An offset from UTC, s, that holds from an instant on. */
interface Offset {
  from: number
  offset: number
}

const day = 86_400

/**
 * Name of the time zone of a place in the tz database, found offline from its borders; near a border it may be the neighbour's.
 *
 * @param latitude degrees
 * @param longitude degrees; may be any number of turns away
 */
export const zoneAt = (latitude: number, longitude: number): string =>
  tzLookup(Math.min(90, Math.max(-90, latitude)), longitude - 360 * Math.round(longitude / 360))

/** Time zone of the route's start. A route that enters another zone keeps the clock it set out with. */
export const zoneOfRoute = ({ stations }: Route): string => zoneAt(stations.latitude[0]!, stations.longitude[0]!)

/**
 * The instant of a local date and time. A time that the clock skips in spring is taken as if it had not sprung (an hour later);
 * one that it shows twice in autumn is the first of the two.
 *
 * @param local `YYYY-MM-DDTHH:mm`
 * @param zone tz database name
 * @returns Unix time, s
 * @throws RangeError for an unknown zone or no date
 * @see the same choices as 'compatible' in RFC 5545 and ECMAScript's Temporal
 */
export function instantOf(local: string, zone: string): number {
  const wall = wallOf(local)
  return instantIn(offsetsAround(zone, yearOf(wall)), wall)
}

/**
 * The instants of several times of one date, each as `instantOf` gives it.
 *
 * @param date local, `YYYY-MM-DD`
 * @param clocks `HH:mm`
 * @param zone tz database name
 * @returns Unix times, s, one for each clock time
 * @throws RangeError for an unknown zone or no date
 */
export function instantsOf(date: string, clocks: readonly string[], zone: string): number[] {
  const midnight = wallOf(`${date}T00:00`)
  const offsets = offsetsAround(zone, yearOf(midnight))
  return clocks.map((clock) =>
    instantIn(offsets, midnight + 3600 * Number(clock.slice(0, 2)) + 60 * Number(clock.slice(3))),
  )
}

function instantIn(offsets: readonly Offset[], wall: number): number {
  let late = wall - offsets[0]!.offset
  for (let k = 0; k < offsets.length; k++) {
    const { from, offset } = offsets[k]!
    const instant = wall - offset
    if (instant < from) break
    if (instant < (offsets[k + 1]?.from ?? Infinity)) return instant
    late = instant
  }
  return late
}

/**
 * What a local date and time means where the clock is changed at that hour.
 *
 * @param local `YYYY-MM-DDTHH:mm`
 * @returns 'skipped' where the clock never shows it, 'twice' where it shows it two times, else 'once'
 */
export function occurrence(local: string, zone: string): 'once' | 'twice' | 'skipped' {
  const wall = wallOf(local)
  const offsets = offsetsAround(zone, yearOf(wall))
  const shown = offsets.filter(({ from, offset }, k) => {
    const instant = wall - offset
    return instant >= from && instant < (offsets[k + 1]?.from ?? Infinity)
  })
  return shown.length === 0 ? 'skipped' : shown.length === 1 ? 'once' : 'twice'
}

/**
 * Local date and time of an instant, rounded to the minute.
 *
 * @param instant Unix time, s
 * @returns `YYYY-MM-DDTHH:mm`
 */
export function localAt(instant: number, zone: string): string {
  const whole = 60 * Math.round(instant / 60)
  return textOf(whole + offsetAt(whole, zone)).slice(0, 16)
}

/**
 * The local date of an instant rounded to the minute, as a number that is one more the next day.
 *
 * @param instant Unix time, s
 * @returns days since 1 January 1970
 */
export function dayOf(instant: number, zone: string): number {
  const whole = 60 * Math.round(instant / 60)
  return Math.floor((whole + offsetAt(whole, zone)) / day)
}

/** The date that `dayOf` gives as a number, `YYYY-MM-DD`. */
export const dateOfDay = (number: number): string => textOf(number * day).slice(0, 10)

/**
 * Offset of local time from UTC, s.
 *
 * @param instant Unix time, s
 */
export function offsetAt(instant: number, zone: string): number {
  const offsets = offsetsAround(zone, yearOf(instant))
  return offsets.findLast(({ from }) => from <= instant)!.offset
}

/**
 * Local date and time after some seconds of a ride.
 *
 * @param start local `YYYY-MM-DDTHH:mm`
 * @param seconds since the start
 * @returns `YYYY-MM-DD HH:mm`, rounded to the minute
 */
export const dateTimeAfter = (start: string, seconds: number, zone: string): string =>
  localAt(instantOf(start, zone) + seconds, zone).replace('T', ' ')

/**
 * Clock time after some seconds of a ride, with the number of days gone by where it is another date.
 *
 * @param start local `YYYY-MM-DDTHH:mm`
 * @param seconds since the start
 * @returns `HH:mm`, or `HH:mm +1 d`
 */
export const clockAfter = (start: string, seconds: number, zone: string): string =>
  clockAt(instantOf(start, zone) + seconds, zone, start)

/**
 * Clock time of an instant, with the number of days gone by where it is another date.
 *
 * @param instant Unix time, s
 * @param since local date, `YYYY-MM-DD`, what follows is not read
 * @returns `HH:mm`, or `HH:mm +1 d`
 */
export function clockAt(instant: number, zone: string, since: string): string {
  const local = localAt(instant, zone)
  const days = (wallOf(`${local.slice(0, 10)}T00:00`) - wallOf(`${since.slice(0, 10)}T00:00`)) / day
  return days === 0 ? local.slice(11) : `${local.slice(11)} ${days > 0 ? '+' : '−'}${Math.abs(days)} d`
}

/** A change of the clock. */
export interface ClockChange {
  /** Unix time, s. */
  instant: number
  /** By how much the clock is put forward, s; negative where it is put back. */
  by: number
}

/**
 * Changes of the clock between two instants, such as that to summer time.
 *
 * @param from Unix time, s; not counted itself
 * @param to Unix time, s; within 13 months of `from`
 */
export function clockChanges(from: number, to: number, zone: string): ClockChange[] {
  const offsets = offsetsAround(zone, yearOf(from))
  return offsets.flatMap(({ from: instant, offset }, k) =>
    k > 0 && instant > from && instant <= to ? [{ instant, by: offset - offsets[k - 1]!.offset }] : [],
  )
}

/** A date some days later. @param date `YYYY-MM-DD` */
export const dateAfter = (date: string, days: number): string =>
  textOf(wallOf(`${date}T00:00`) + days * day).slice(0, 10)

/** Day of the week by ISO 8601: 1 is Monday, 7 Sunday. @param date `YYYY-MM-DD` */
export const weekdayOf = (date: string): number => ((new Date(`${date}T00:00Z`).getUTCDay() + 6) % 7) + 1

/** A local date and time counted as if it were UTC, s. */
function wallOf(local: string): number {
  const wall = Date.parse(`${local}Z`) / 1000
  if (Number.isNaN(wall)) throw new RangeError(`“${local}” is no date and time.`)
  return wall
}

const textOf = (seconds: number) => new Date(seconds * 1000).toISOString()
const yearOf = (seconds: number) => new Date(seconds * 1000).getUTCFullYear()

const known = new Map<string, Offset[]>()

/**
 * A zone's offsets from a month before a year to a month after it. Remembered, for the library takes a quarter of a millisecond
 * to convert one time, and a plan asks for hundreds in a frame.
 */
function offsetsAround(zone: string, year: number): Offset[] {
  const key = `${zone} ${year}`
  let offsets = known.get(key)
  if (offsets === undefined) {
    const end = Date.UTC(year + 1, 1, 1)
    let at: ZonedTime | null = toZonedDateTimeISO(fromEpochMilliseconds(Date.UTC(year - 1, 11, 1)), zone)
    offsets = []
    while (at !== null && at.epochMilliseconds < end) {
      offsets.push({
        from: offsets.length === 0 ? -Infinity : at.epochMilliseconds / 1000,
        offset: offsetNanoseconds(at) / 1e9,
      })
      at = getTimeZoneTransition(at, 'next')
    }
    known.set(key, offsets)
  }
  return offsets
}

/**
 * The instant at which a clock, `HH:mm`, comes nearest to another instant: of the day before, of it, and after it.
 *
 * @param instant Unix time, s
 * @returns Unix time, s
 */
export function nearestClock(clock: string, instant: number, zone: string): number {
  const date = localAt(instant, zone).slice(0, 10)
  return [-1, 0, 1]
    .map((days) => instantOf(`${dateAfter(date, days)}T${clock}`, zone))
    .reduce((best, other) => (Math.abs(other - instant) < Math.abs(best - instant) ? other : best))
}
