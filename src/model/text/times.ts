import { mostOfDay } from '../plan/day-schema'
import { reading, Unreadable, type Reading } from './reading'

/**
 * Sailings typed as a list, such as '07:00 09:30 12:00': with blanks, commas, semicolons or line ends between them, and 7:00, 7.00, 7h00 or
 * 0700 for 07:00.
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
  const [, hours, minutes] = /^(\d{1,2})[:.h](\d{2})$/i.exec(word) ?? /^(\d{2})(\d{2})$/.exec(word) ?? []
  if (hours === undefined || Number(hours) > 23 || Number(minutes) > 59)
    throw new Unreadable({ code: 'noTimeOfDay', word })
  return `${hours.padStart(2, '0')}:${minutes}`
}
