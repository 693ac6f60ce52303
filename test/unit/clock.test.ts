import { describe, expect, it } from 'vitest'
import { readClock, steppedClock } from '../../src/model/text/times'

describe('a time of day as it is typed', () => {
  it.each([
    ['05:30', '05:30'],
    ['5:30', '05:30'],
    ['530', '05:30'],
    ['0530', '05:30'],
    ['5.30', '05:30'],
    ['5h30', '05:30'],
    [' 23:59 ', '23:59'],
    ['1505', '15:05'],
    ['0000', '00:00'],
    ['5:30 am', '05:30'],
    ['5:30 PM', '17:30'],
    ['530p.m.', '17:30'],
    ['12:15 am', '00:15'],
    ['12:15 pm', '12:15'],
  ])('%s is %s', (text, clock) => expect(readClock(text)).toBe(clock))

  it.each(['', '5', '53', '053', '24:00', '12:60', '5:3', '173', '13:00 pm', '0:30 am', 'noon', '5:30:10', '-5:30'])(
    '%j is none',
    (text) => expect(readClock(text)).toBeUndefined(),
  )

  it('goes on by minutes, past midnight too', () => {
    expect(steppedClock('05:59', 1)).toBe('06:00')
    expect(steppedClock('00:00', -1)).toBe('23:59')
    expect(steppedClock('23:30', 60)).toBe('00:30')
  })
})
