import { Temporal } from 'temporal-polyfill'
import { describe, expect, it } from 'vitest'
import {
  clockAfter,
  clockAt,
  clockChanges,
  dateAfter,
  dateOfDay,
  dateTimeAfter,
  dayOf,
  instantOf,
  instantsOf,
  localAt,
  occurrence,
  offsetAt,
  weekdayOf,
  zoneAt,
} from '../../src/model/world/zone'
import { isZone } from '../../src/model/plan/check'

const berlin = 'Europe/Berlin'

describe('the time zone of a place', () => {
  it('is found offline, on either side of the antimeridian and any number of turns away', () => {
    expect(zoneAt(52.5, 13.4)).toBe(berlin)
    expect(zoneAt(52.5, 13.4 - 720)).toBe(berlin)
    expect(zoneAt(-18, 178.4)).toBe('Pacific/Fiji')
    expect(zoneAt(-18, 178.4 - 360)).toBe('Pacific/Fiji')
    expect(zoneAt(40, 180)).toBe(zoneAt(40, -180))
  })

  it('can be named by the rider, but not at will', () => {
    expect(isZone(berlin)).toBe(true)
    expect(isZone('Moon/Tycho')).toBe(false)
    expect(isZone('')).toBe(false)
  })
})

describe('the clock', () => {
  it('agrees with the general library, to the instant and back, around both changes of the year and in zones of odd offsets', () => {
    for (const zone of [berlin, 'America/New_York', 'Asia/Kathmandu', 'Australia/Lord_Howe', 'Pacific/Apia', 'UTC'])
      for (const date of [
        '2027-03-28',
        '2027-10-31',
        '2027-04-04',
        '2027-10-03',
        '2027-03-14',
        '2027-11-07',
        '2027-12-31',
        '2028-01-01',
        '2028-02-29',
      ])
        for (const time of ['00:00', '01:30', '02:00', '02:15', '02:30', '03:00', '12:00', '23:59']) {
          const local = `${date}T${time}`
          const theirs = Temporal.PlainDateTime.from(local).toZonedDateTime(zone)
          const ours = instantOf(local, zone)
          expect(ours, `${local} ${zone}`).toBe(theirs.epochMilliseconds / 1000)
          expect(localAt(ours, zone)).toBe(theirs.toPlainDateTime().toString().slice(0, 16))
          expect(instantsOf(date, ['12:00', time], zone)[1], `${local} ${zone}`).toBe(theirs.epochMilliseconds / 1000)
          expect(dateOfDay(dayOf(ours, zone)), `${local} ${zone}`).toBe(theirs.toPlainDate().toString())
        }
  })

  it('goes over the change to summer time: an hour of the wall is skipped, not of the ride', () => {
    expect(clockAfter('2027-03-28T01:30', 3600, berlin)).toBe('03:30')
    expect(clockAfter('2027-10-31T01:30', 2 * 3600, berlin)).toBe('02:30')
    expect(dateTimeAfter('2027-03-27T20:00', 12 * 3600, berlin)).toBe('2027-03-28 09:00')
  })

  it('says which times are skipped and which come twice', () => {
    expect(occurrence('2027-03-28T02:30', berlin)).toBe('skipped')
    expect(occurrence('2027-10-31T02:30', berlin)).toBe('twice')
    expect(occurrence('2027-06-19T02:30', berlin)).toBe('once')
    // To the minute: clocks go from 2:00 to 3:00 in March and from 3:00 to 2:00 in October, Directive 2000/84/EC.
    const of = (...locals: string[]) => locals.map((local) => occurrence(local, berlin))
    expect(of('2027-03-28T01:59', '2027-03-28T02:00', '2027-03-28T02:59', '2027-03-28T03:00')).toEqual([
      'once',
      'skipped',
      'skipped',
      'once',
    ])
    expect(of('2027-10-31T01:59', '2027-10-31T02:00', '2027-10-31T02:59', '2027-10-31T03:00')).toEqual([
      'once',
      'twice',
      'twice',
      'once',
    ])
    const start = instantOf('2027-03-27T20:00', berlin)
    const change = Date.UTC(2027, 2, 28, 1) / 1000
    expect(clockChanges(change - 1, change, berlin)).toHaveLength(1)
    expect(clockChanges(change, change + 60, berlin)).toEqual([])
    expect(clockChanges(start, change - 1, berlin)).toEqual([])
    expect(clockChanges(start, start + 12 * 3600, berlin)).toEqual([
      { instant: Date.UTC(2027, 2, 28, 1) / 1000, by: 3600 },
    ])
    expect(clockChanges(start, start + 3600, berlin)).toEqual([])
    const autumn = instantOf('2027-10-30T20:00', berlin)
    expect(clockChanges(autumn, autumn + 12 * 3600, berlin)[0]!.by).toBe(-3600)
  })

  it('counts days gone by, over the year’s end too, and rounds to the minute', () => {
    expect(clockAfter('2027-12-31T22:00', 3 * 3600 + 29, berlin)).toBe('01:00 +1 d')
    expect(clockAfter('2027-12-31T22:00', 26 * 3600, berlin)).toBe('00:00 +2 d')
    expect(clockAfter('2027-12-31T22:00', 3 * 3600 + 31, berlin)).toBe('01:01 +1 d')
    expect(clockAfter('2027-06-19T06:00', 0, berlin)).toBe('06:00')
  })

  it('tells a clock of the day before, and refuses what is no date', () => {
    expect(clockAt(instantOf('2027-06-18T23:00', berlin), berlin, '2027-06-19T06:00')).toBe('23:00 −1 d')
    expect(() => instantOf('2027-06-19 at noon', berlin)).toThrow('is no date and time')
    expect(() => instantOf('2027-06-19T06:00', 'Moon/Tycho')).toThrow(RangeError)
  })

  it('has offsets on either side of a change, and days on either side of a month’s end', () => {
    const change = Date.UTC(2027, 2, 28, 1) / 1000
    expect([change - 1, change, change + 1].map((instant) => offsetAt(instant, berlin))).toEqual([3600, 7200, 7200])
    expect([dateAfter('2027-02-28', 1), dateAfter('2028-02-28', 1), dateAfter('2027-01-01', -1)]).toEqual([
      '2027-03-01',
      '2028-02-29',
      '2026-12-31',
    ])
  })

  it('knows the day of the week', () => {
    expect(weekdayOf('2027-06-19')).toBe(6)
    expect(weekdayOf('2000-01-01')).toBe(6)
    expect(weekdayOf('2024-02-29')).toBe(4)
  })
})
