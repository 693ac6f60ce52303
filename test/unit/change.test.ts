import { expect, it } from 'vitest'
import { drainChange, energyChange, timeChange } from '../../src/view/change'

it('says how figures differ to the second and a tenth of a watt-hour, with a sign', () => {
  expect([0, 0.04, 0.06, -4.31, 9.96, -59.7, 192, 3599.6, -3792].map(timeChange)).toEqual([
    ...['±0', '±0', '+0.1 s', '−4.3 s', '+10 s', '−1 min 00 s', '+3 min 12 s', '+1 h 00 min 00 s', '−1 h 03 min 12 s'],
  ])
  expect([0, 3600 * 12.34, -3600 * 0.06, 100].map(energyChange)).toEqual(['±0', '+12.3 Wh', '−0.1 Wh', '±0'])
  expect(energyChange(-3_600_000 * 1.2)).toBe('−1,200.0 Wh')
  expect(drainChange(-0.5, 'metric')).toBe('−0.14 Wh/km')
  expect(drainChange(0.5, 'imperial')).toBe('+0.22 Wh/mi')
})
