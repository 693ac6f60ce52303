import { mostOfDay } from '../plan/day-schema'
import { reading, Unreadable, type Reading } from './reading'

/**
 * Sailings typed as a list, such as '07:00 09:30 12:00': with blanks, commas, semicolons or line ends between them, each as `readClock` takes it.
 *
 * @returns times as `HH:mm`, in order, each once; or what is wrong
 */
export const readTimes = (text: string): Reading<string[]> =>
  reading(() => {
    const words = text.split(/[\s,;]+/).filter((word) => word !== '')
    if (words.length === 0) throw new Unreadable({ code: 'noSailing' })
    const times = [...new Set(words.map(clockOf))].sort()
    if (times.length > mostOfDay.sailings)
      throw new Unreadable({ code: 'tooManySailings', sailings: times.length, most: mostOfDay.sailings })
    return times
  })

function clockOf(word: string): string {
  const clock = readClock(word)
  if (clock === undefined) throw new Unreadable({ code: 'noTimeOfDay', word })
  return clock
}

const hourAndMinutes = [/^(\d{1,2})[:.h](\d{2})$/i, /^([1-9])(\d{2})$/, /^(\d{2})(\d{2})$/]

/**
 * A time of day as people write it: 05:30, 5:30, 5.30, 5h30, 530 or 0530, and 5:30 am or pm.
 *
 * @returns `HH:mm`; undefined where it is none, or not whole yet
 */
export function readClock(text: string): string | undefined {
  const [, plain = '', half] = /^\s*(.*?)\s*(?:([ap])\.?m\.?)?\s*$/i.exec(text) ?? []
  const [, hour, minutes] = hourAndMinutes.map((form) => form.exec(plain)).find((found) => found !== null) ?? []
  const hours = Number(hour)
  if (hour === undefined || hours > 23 || Number(minutes) > 59) return undefined
  if (half === undefined) return `${hour.padStart(2, '0')}:${minutes}`
  if (hours < 1 || hours > 12) return undefined
  const ofDay = (hours % 12) + (half.toLowerCase() === 'p' ? 12 : 0)
  return `${String(ofDay).padStart(2, '0')}:${minutes}`
}

/** A time of day so many minutes on, past midnight too. @param clock `HH:mm` */
export function steppedClock(clock: string, minutes: number): string {
  const [hours = 0, before = 0] = clock.split(':').map(Number)
  const day = 24 * 60
  const at = (((hours * 60 + before + minutes) % day) + day) % day
  return [Math.floor(at / 60), at % 60].map((part) => String(part).padStart(2, '0')).join(':')
}
