import { Temporal } from 'temporal-polyfill'
import { describe, expect, it } from 'vitest'
import {
  clockAfter,
  clockChanges,
  dateTimeAfter,
  instantOf,
  localAt,
  occurrence,
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
    const start = instantOf('2027-03-27T20:00', berlin)
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

  it('knows the day of the week', () => {
    expect(weekdayOf('2027-06-19')).toBe(6)
    expect(weekdayOf('2000-01-01')).toBe(6)
    expect(weekdayOf('2024-02-29')).toBe(4)
  })
})
