import type { StorageFault } from '../../../state/database'
import type { DayFileFault } from '../../../state/day-file'
import type { Format } from '../../format'
import { worded } from '../worded'
import { cut } from '../cut'
import { plan } from './plan'
import { times } from './times'

const faults: Record<StorageFault | 'elsewhere', string> = {
  elsewhere: 'This day is open in another window: nothing was changed.',
  forbidden: 'This browser forbids pages to keep anything.',
  full: 'The storage is full: nothing was changed.',
  silent: 'The storage does not answer: nothing was changed.',
  newer: 'What is kept is of a newer version of this program: reload the page for it.',
  failed: 'The storage has failed: nothing was changed.',
}

/** `Sat 2027-06-19 14:05` by the clock of this device. @param at Unix time, ms */
function onThisDevice(at: number): string {
  const local = new Date(at - 60_000 * new Date(at).getTimezoneOffset()).toISOString()
  return `${times.date(local.slice(0, 10))} ${local.slice(11, 16)}`
}

/** The days that the browser keeps, and their files. */
export const daysIn = ({ number }: Format) => {
  const size = (bytes: number) => (bytes < 1e9 ? `${number(bytes / 1e6, 1)} MB` : `${number(bytes / 1e9, 1)} GB`)
  const fault = worded<DayFileFault>({
    planOfDay: ({ fault }) => plan(fault),
    noDay: () => 'it holds no day.',
    damagedDay: () => 'it is damaged.',
    dayTooLarge: ({ most }) => `it unpacks to more than ${size(most)}.`,
    tooManyParts: ({ most }) => `it holds more than ${number(most)} parts.`,
    newerDay: ({ version, known }) =>
      `it is of version ${version}, newer than this program, which knows version ${known}.`,
  })
  return {
    title: 'Days',
    close: 'Close',
    open: 'Open a day or a route',
    saveAll: 'Save all days as one file',
    allName: 'Days',
    search: 'Search by name',
    none: 'No day of your own yet. Open a route, or change a sample: it becomes a day and stands here.',
    noneFound: 'No day has this in its name.',
    reading: 'One moment.',
    aboutRider:
      'A new day begins with rider, bike, packs, assist, charge sources and kit as you last changed them in a day of your own; a sample’s are never taken.',
    /** @param at Unix time, ms */
    changed: (at: number) => `changed ${onThisDevice(at)}`,
    onScreen: 'on screen',
    unnamed: 'A day without a name',
    duplicate: 'Duplicate',
    rename: 'Rename',
    name: 'Name of the day',
    save: 'Save',
    saveAsFile: 'Save as a file',
    share: 'Share',
    remove: 'Delete',
    /** Of what is done to one day. */
    of: (what: string, day: string) => `${what}: ${day}`,
    copy: (name: string) => `${name}, copy`,
    removed: (name: string) => `“${name}” is deleted.`,
    putBack: 'Undo',
    room: (used: number, quota: number) => `${size(used)} stored, of ${size(quota)} that this browser gives.`,
    faults,
    /** Why a file gives no day. */
    file: (name: string, why: DayFileFault) => `“${cut(name)}” can’t be opened: ${fault(why)}`,
    files: (count: number) => `${number(count)} days of the file stand under Days.`,
  }
}
