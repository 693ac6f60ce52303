import ICAL from 'ical.js'
import { describe, expect, it } from 'vitest'
import { dayCalendar, type CalendarEvent } from '../../src/model/export/ics'

const stamp = Date.UTC(2027, 4, 1, 12) / 1000
const event = (change: Partial<CalendarEvent>): CalendarEvent => ({
  key: 'stop 1',
  title: 'Mill',
  start: Date.UTC(2027, 5, 19, 7, 30) / 1000,
  end: Date.UTC(2027, 5, 19, 8, 15) / 1000,
  description: '',
  latitude: 45.25,
  longitude: 187,
  ...change,
})
const parse = (text: string) => {
  const calendar = new ICAL.Component(ICAL.parse(text))
  return { calendar, events: calendar.getAllSubcomponents('vevent').map((part) => new ICAL.Event(part)) }
}
const calendar = (events: CalendarEvent[], name = 'Two islands') => dayCalendar(name, '2027-06-19', events, stamp)

describe('the day as a calendar', () => {
  it('comes back from a general library as it went', () => {
    const title = 'Bäckerei; "Süd", \\ Nord 🚲'
    const description = `one\ntwo, three; ${'é🚲 and so on '.repeat(30)}`
    const { calendar: whole, events } = parse(
      calendar([event({ title, description }), event({ key: 'finish 1', title: 'Finish', end: event({}).start })]),
    )
    expect(whole.getFirstPropertyValue('version')).toBe('2.0')
    expect(whole.getFirstPropertyValue('prodid')).toBe('-//Wattfare//Day//EN')
    const [one, two] = events
    // One who rides is not free: RFC 5545, 3.8.2.7.
    expect(events.map(({ component }) => component.getFirstPropertyValue('transp'))).toEqual(['OPAQUE', 'OPAQUE'])
    expect(whole.getFirstPropertyValue('calscale')).toBe('GREGORIAN')
    expect(two!.component.getFirstProperty('description')).toBeNull()
    expect(one!.summary).toBe(title)
    expect(one!.description).toBe(description)
    expect(one!.startDate.toUnixTime()).toBe(event({}).start)
    expect(one!.endDate.toUnixTime()).toBe(event({}).end)
    expect(one!.component.getFirstPropertyValue('dtstamp')!.toString()).toBe('2027-05-01T12:00:00Z')
    expect(one!.component.getFirstPropertyValue('geo')).toEqual([45.25, -173])
    expect(two!.component.getFirstProperty('dtend')).toBeNull()
    expect(two!.startDate.toString()).toBe('2027-06-19T07:30:00Z')
  })

  it('is folded at 75 octets between characters, with CRLF throughout', () => {
    const text = calendar([event({ description: 'ß🚲'.repeat(100), title: 'm'.repeat(300) })])
    const lines = text.split('\r\n')
    expect(lines.at(-1)).toBe('')
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    const sizes = lines.map((line) => new TextEncoder().encode(line).length)
    expect(Math.max(...sizes)).toBe(75)
    expect(sizes.filter((size) => size > 68).length).toBeGreaterThan(5)
    expect(text).not.toContain('\uFFFD')
    expect(parse(text).events[0]!.description).toBe('ß🚲'.repeat(100))
  })

  it('cannot be made to carry another property by a name', () => {
    const { events } = parse(
      calendar([event({ title: 'x\r\nATTENDEE:mailto:a@example.org\u0000', description: 'y\rEND:VEVENT' })]),
    )
    expect(events).toHaveLength(1)
    expect(events[0]!.summary).toBe('x\nATTENDEE:mailto:a@example.org ')
    expect(events[0]!.component.getFirstProperty('attendee')).toBeNull()
  })

  it('keeps its ids from one export to the next, apart by day, route and event', () => {
    const ids = (text: string) => parse(text).events.map(({ uid }) => uid)
    const one = calendar([event({}), event({ key: 'stop 2' })])
    const later = dayCalendar('Two islands', '2027-06-19', [event({ start: 5, end: 9 })], stamp + 999)
    expect(ids(later)[0]).toBe(ids(one)[0])
    const others = [
      ids(one)[1],
      ids(calendar([event({})], 'Zwei Inseln'))[0],
      ids(calendar([event({})], '二'))[0],
      ids(calendar([event({})], '三'))[0],
    ]
    expect(new Set([...others, ids(one)[0]]).size).toBe(5)
    for (const id of ids(one)) expect(id).toMatch(/^[A-Za-z0-9_-]+@wattfare\.invalid$/)
  })
})
