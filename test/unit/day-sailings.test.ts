import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { departuresOn, nextSailing } from '../../src/model/world/sailings'
import { readTimes } from '../../src/model/text/times'
import { instantOf, localAt } from '../../src/model/world/zone'
import { crossingsFor } from '../../src/model/plan/crossings'
import { everyDay, type Timetable } from '../../src/model/plan/day-schema'
import { defaultPlan } from '../../src/model/plan/defaults'
import { typedWordsIn } from '../../src/view/words/typed'
import { courseRoute } from '../routes'

const zone = 'Europe/Berlin'
const at = (local: string) => instantOf(local, zone)
const list: Timetable = {
  kind: 'list',
  times: ['07:00', '09:30', '12:00'],
  days: [...everyDay],
  boardBefore: 600,
  length: 2400,
}
const caught = (timetable: Timetable, local: string) => nextSailing(timetable, at(local), zone)!

describe('the next sailing', () => {
  it('is the first that can be caught, with wait and margin', () => {
    const sailing = caught(list, '2027-06-19T09:05')
    expect(localAt(sailing.depart, zone)).toBe('2027-06-19T09:30')
    expect(sailing).toMatchObject({
      wait: 25 * 60,
      latest: at('2027-06-19T09:20'),
      margin: 15 * 60,
      tenMinutesLater: 0,
    })
    expect(sailing.arrive - sailing.depart).toBe(2400)
  })

  it('jumps by one sailing at the edge of boarding', () => {
    expect(caught(list, '2027-06-19T09:20')).toMatchObject({ margin: 0, wait: 600, tenMinutesLater: 150 * 60 })
    expect(localAt(caught(list, '2027-06-19T09:21').depart, zone)).toBe('2027-06-19T12:00')
    expect(caught(list, '2027-06-19T09:15').tenMinutesLater).toBe(150 * 60)
  })

  it('goes on to a following day with service', () => {
    expect(localAt(caught(list, '2027-06-19T12:00').depart, zone)).toBe('2027-06-20T07:00')
    const mondays: Timetable = { ...list, days: [1] }
    expect(localAt(caught(mondays, '2027-06-21T12:00').depart, zone)).toBe('2027-06-28T07:00')
    expect(localAt(caught(mondays, '2027-06-22T00:00').depart, zone)).toBe('2027-06-28T07:00')
  })

  it('sails every so many minutes, past midnight too, on the day of service that began before it', () => {
    const late: Timetable = {
      kind: 'every',
      interval: 1800,
      from: '22:00',
      until: '01:00',
      days: [6],
      boardBefore: 0,
      length: 900,
    }
    expect(localAt(caught(late, '2027-06-20T00:31').depart, zone)).toBe('2027-06-20T01:00')
    expect(localAt(caught(late, '2027-06-20T01:01').depart, zone)).toBe('2027-06-26T22:00')
    expect(departuresOn(late, '2027-06-19', zone)).toHaveLength(7)
    expect(departuresOn(late, '2027-06-20', zone)).toEqual([])
  })

  it('sails once where the first is the last, and not at all where no day has service', () => {
    const once: Timetable = { ...list, kind: 'every', interval: 1800, from: '07:00', until: '07:00' }
    expect(departuresOn(once, '2027-06-19', zone)).toEqual([at('2027-06-19T07:00')])
    expect(nextSailing({ ...list, days: [] }, at('2027-06-19T07:00'), zone)).toBeUndefined()
    const unordered: Timetable = { ...list, times: ['12:00', '07:00'] }
    expect(departuresOn(unordered, '2027-06-19', zone).map((depart) => localAt(depart, zone).slice(11))).toEqual([
      '07:00',
      '12:00',
    ])
  })

  it('keeps to the wall clock on the day of a change', () => {
    expect(caught(list, '2027-03-28T01:00').wait).toBe(5 * 3600)
    const hourly: Timetable = { ...list, kind: 'every', interval: 3600, from: '00:00', until: '04:00' }
    expect(departuresOn(hourly, '2027-03-28', zone)).toHaveLength(4)
    expect(departuresOn(hourly, '2027-10-31', zone)).toHaveLength(6)
  })

  it('sails by the clock of the zone that it is asked for, however often it was asked for another', () => {
    for (const other of [zone, 'America/New_York', zone, 'Asia/Kathmandu', zone]) {
      const { depart } = nextSailing(list, instantOf('2027-06-19T08:00', other), other)!
      expect(localAt(depart, other)).toBe('2027-06-19T09:30')
    }
  })

  it('without a timetable just takes its time', () => {
    expect(nextSailing({ kind: 'duration', duration: 4500 }, 1000, zone)).toEqual({
      depart: 1000,
      arrive: 5500,
      wait: 0,
      latest: undefined,
      margin: undefined,
      tenMinutesLater: 600,
    })
  })

  it('agrees with a search through all departures of a fortnight', () => {
    const clock = fc.tuple(fc.nat(23), fc.nat(59)).map((of) => of.map((n) => String(n).padStart(2, '0')).join(':'))
    const days = fc.subarray([...everyDay], { minLength: 1 })
    const passage = { days, boardBefore: fc.nat(3600), length: fc.constant(1800) }
    const timetable = fc.oneof(
      fc.record({
        kind: fc.constant('list' as const),
        times: fc.array(clock, { minLength: 1, maxLength: 5 }),
        ...passage,
      }),
      fc.record({
        kind: fc.constant('every' as const),
        interval: fc.integer({ min: 600, max: 20_000 }),
        from: clock,
        until: clock,
        ...passage,
      }),
    )
    fc.assert(
      fc.property(timetable, fc.nat(6 * 86_400), (table, seconds) => {
        const start = at('2027-10-27T00:00') // the clock goes back within these days
        const instant = start + seconds
        const all: number[] = []
        for (let day = 25; day <= 31; day++) all.push(...departuresOn(table, `2027-10-${day}`, zone))
        for (let day = 1; day <= 12; day++)
          all.push(...departuresOn(table, `2027-11-${String(day).padStart(2, '0')}`, zone))
        const first = Math.min(...all.filter((depart) => depart >= instant + table.boardBefore))
        expect(nextSailing(table, instant, zone)!.depart).toBe(first)
      }),
      { seed: 4, numRuns: 300 },
    )
  })
})

describe('typed sailings', () => {
  it('are read with blanks, commas or line ends between, in the usual ways of writing', () => {
    expect(readTimes(' 12:00, 07:00\n9.30;0945\t7h00 ')).toEqual({
      ok: true,
      value: ['07:00', '09:30', '09:45', '12:00'],
    })
  })

  it.each([
    ['07:00 25:00', '“25:00” is not a time of day: write sailings as 07:00 09:30 12:00.'],
    ['07:00 noon', '“noon” is not a time of day: write sailings as 07:00 09:30 12:00.'],
    ['07:60', '“07:60” is not a time of day: write sailings as 07:00 09:30 12:00.'],
    [' ', 'Write at least one sailing, such as 07:00.'],
  ])('%j are refused with one sentence', (text, sentence) => {
    const result = readTimes(text)
    expect(!result.ok && typedWordsIn('metric').fault(result.fault)).toBe(sentence)
  })
})

describe('a crossing of which the plan says nothing', () => {
  const takes = (recordedTime: number | undefined) => {
    const route = courseRoute({ length: 20_000, crossings: [10_000] })
    route.crossings = [{ after: 0, distance: 10_000, length: 6000, recordedTime }]
    return crossingsFor(route, defaultPlan())[0]!.timetable
  }

  it('takes as long as in the recording, with ten minutes to be there before', () => {
    expect(takes(2000)).toEqual({ kind: 'duration', duration: 600 + 33 * 60 })
  })

  it('takes 20 minutes and 6 m/s without times, or where they hold a night', () => {
    const assumed = { kind: 'duration', duration: 20 * 60 + 1000 }
    expect(takes(undefined)).toEqual(assumed)
    expect(takes(30_000)).toEqual(assumed)
  })
})
