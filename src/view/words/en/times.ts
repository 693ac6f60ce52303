import type { Passage } from '../../../model/world/controls'
import type { MissedSailing } from '../../../model/studies/missed-sailing'
import type { Sailing } from '../../../model/world/sailings'
import { weekdayOf } from '../../../model/world/zone'
import { duration } from '../../format'

/** An instant, Unix time, s, as clock time of the day. */
export type Clock = (instant: number) => string

const dayNames = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const

/** Whole minutes, never rounded in the rider's favour: what is short by seconds is short by a minute. */
const shortBy = (seconds: number): string => duration(60 * Math.ceil(Math.abs(seconds) / 60))
const spare = (seconds: number): string => duration(60 * Math.floor(Math.max(0, seconds) / 60))

/** Of clock, calendar and time in hand. */
export const times = {
  dayNames,

  /** `Sat 2027-06-19`. @param date local, `YYYY-MM-DD` */
  date: (date: string): string => `${dayNames[weekdayOf(date) - 1]} ${date}`,

  /** A zone by its name; those of the open sea, named with the sign turned round, by their offset. */
  zone: (zone: string): string =>
    zone.replace(/^Etc\/GMT([+-])(\d+)$/, (_, sign: string, hours: string) => `UTC${sign === '+' ? '−' : '+'}${hours}`),

  shortBy,
  spare,

  /** Time in hand, or how much is missing; empty where nothing closes. */
  margin: (margin: number | undefined): string =>
    margin === undefined ? '' : margin < 0 ? `${shortBy(margin)} too late` : `${spare(margin)} to spare`,

  /** When a control is open, as clock times; empty where it is open all day. */
  open: ({ opens, closes }: Passage, clock: Clock): string => {
    if (opens !== undefined && closes !== undefined) return `open ${clock(opens)} to ${clock(closes)}`
    if (opens !== undefined) return `opens ${clock(opens)}`
    return closes === undefined ? '' : `closes ${clock(closes)}`
  },

  /** When to be there for a sailing, and when it goes. */
  sailing: ({ latest, depart }: Sailing, clock: Clock): string =>
    latest === undefined || latest === depart
      ? `leaves ${clock(depart)}`
      : `be there by ${clock(latest)}, leaves ${clock(depart)}`,

  /** A sailing that is missed by little, what it costs, and the start that would catch it. */
  missedSailing: ({ missed, taken, late, leaveBy }: MissedSailing, clock: Clock): string =>
    `You miss the ${clock(missed)} by ${shortBy(late)}; the ${clock(taken)} costs ${duration(taken - missed)}. Leave by ${leaveBy.slice(11)}.`,

  /** What being there ten minutes later would cost. */
  delay: ({ tenMinutesLater }: Sailing): string =>
    tenMinutesLater === 0
      ? 'Ten minutes later it is still caught.'
      : `Ten minutes later it is gone, and you are across ${duration(tenMinutesLater)} later.`,
}
