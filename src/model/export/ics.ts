/** An event of the day. */
export interface CalendarEvent {
  /** Of this event alone, whatever else the day holds: 'start', 'stop stop-2' and the like. */
  key: string
  title: string
  /** Unix time, s. */
  start: number
  /** Unix time, s; the same as `start` for a moment. */
  end: number
  /** Several lines allowed; empty for none. */
  description: string
  /** Degrees; undefined where the event has no one place. */
  latitude: number | undefined
  longitude: number | undefined
}

/**
 * The day as an iCalendar file, all times in UTC.
 *
 * @param name of the day, for the reader
 * @param date local date of the start, `YYYY-MM-DD`; with the name it makes the ids, so that a later export of the same day replaces this one
 * @param events in any order
 * @param stamp when the file is made, Unix time, s
 * @returns UTF-8 text, CRLF, lines folded at 75 octets
 * @see RFC 5545, sections 3.1, 3.3.5, 3.3.11, 3.6.1, 3.8.4.7
 */
export function dayCalendar(name: string, date: string, events: readonly CalendarEvent[], stamp: number): string {
  const lines = ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//Wattfare//Day//EN', 'CALSCALE:GREGORIAN']
  for (const { key, title, start, end, description, latitude, longitude } of events) {
    lines.push('BEGIN:VEVENT', `UID:${idOf(`${date} ${name} ${key}`)}@wattfare.invalid`, `DTSTAMP:${utc(stamp)}`)
    lines.push(`DTSTART:${utc(start)}`)
    if (utc(end) > utc(start)) lines.push(`DTEND:${utc(end)}`)
    lines.push(`SUMMARY:${text(title)}`)
    if (description !== '') lines.push(`DESCRIPTION:${text(description)}`)
    if (latitude !== undefined && longitude !== undefined)
      lines.push(`GEO:${latitude.toFixed(6)};${(longitude - 360 * Math.round(longitude / 360)).toFixed(6)}`)
    lines.push('TRANSP:OPAQUE', 'END:VEVENT')
  }
  lines.push('END:VCALENDAR')
  return lines.map(folded).join('\r\n') + '\r\n'
}

/** `YYYYMMDDTHHMMSSZ`, form 2 of section 3.3.5. */
const utc = (instant: number) => new Date(1000 * Math.round(instant)).toISOString().replace(/[-:]|\.\d+/g, '')

/** TEXT of section 3.3.11, without control characters. */
const text = (value: string) =>
  value
    .replace(/\p{Surrogate}/gu, '')
    .replace(/\r\n?/g, '\n')
    .replace(/[\u0000-\u0009\u000B-\u001F\u007F]/g, ' ')
    .replace(/[\\;,]/g, '\\$&')
    .replaceAll('\n', '\\n')

/** Letters and digits as they are, what else by its code, so that no two names give the same id. */
const idOf = (words: string) =>
  words.replace(/[^A-Za-z0-9]/gu, (character) =>
    character === ' ' ? '-' : `_${character.codePointAt(0)!.toString(16)}_`,
  )

const mostOctets = 75
const encoder = new TextEncoder()

/** Folded before a line grows above 75 octets, never inside a character; a continued line begins with a blank. Section 3.1. */
function folded(line: string): string {
  let out = ''
  let octets = 0
  for (const character of line) {
    const size = encoder.encode(character).length
    if (octets + size > mostOctets) {
      out += '\r\n '
      octets = 1
    }
    out += character
    octets += size
  }
  return out
}
