import type { Passage } from '../model/world/controls'
import type { Sailing } from '../model/world/sailings'
import { clockAt, weekdayOf } from '../model/world/zone'
import type { Outcome } from '../model/forecast/outcome'
import { duration } from './format'

export const dayNames = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const

/** `Sat 2027-06-19`. @param date local, `YYYY-MM-DD` */
export const dateWords = (date: string): string => `${dayNames[weekdayOf(date) - 1]} ${date}`

/** A zone by its name; those of the open sea, named with the sign turned round, by their offset. */
export const zoneWords = (zone: string): string =>
  zone.replace(/^Etc\/GMT([+-])(\d+)$/, (_, sign: string, hours: string) => `UTC${sign === '+' ? '−' : '+'}${hours}`)

/** Clock time of an instant of the day, with the days gone by since the start where it is another date. */
export const clockOf =
  ({ zone, plan }: Outcome) =>
  (instant: number): string =>
    clockAt(instant, zone, plan.start)

/** Whole minutes, never rounded in the rider's favour: what is short by seconds is short by a minute. */
export const shortBy = (seconds: number): string => duration(60 * Math.ceil(Math.abs(seconds) / 60))
export const spareTime = (seconds: number): string => duration(60 * Math.floor(Math.max(0, seconds) / 60))

/** Time in hand, or how much is missing; empty where nothing closes. */
export const marginText = (margin: number | undefined): string =>
  margin === undefined ? '' : margin < 0 ? `${shortBy(margin)} too late` : `${spareTime(margin)} to spare`

/** When a control is open, as clock times; empty where it is open all day. */
export function openText({ opens, closes }: Passage, clock: (instant: number) => string): string {
  if (opens !== undefined && closes !== undefined) return `open ${clock(opens)} to ${clock(closes)}`
  if (opens !== undefined) return `opens ${clock(opens)}`
  return closes === undefined ? '' : `closes ${clock(closes)}`
}

/** What being there ten minutes later would cost. */
export const delayText = ({ tenMinutesLater }: Sailing): string =>
  tenMinutesLater === 0
    ? 'Ten minutes later it is still caught.'
    : `Ten minutes later it is gone, and you are across ${duration(tenMinutesLater)} later.`
