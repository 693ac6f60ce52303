import { describe, expect, it } from 'vitest'
import { placed } from '../../src/model/columns'

/** Numbers with many that are equal, by a linear congruential generator (constants of Numerical Recipes, chapter 7). */
function numbers(count: number, values: number): Float64Array {
  let state = 20271126
  return Float64Array.from({ length: count }, () => {
    state = (1664525 * state + 1013904223) >>> 0
    return state % values
  })
}

describe('the value at a place of the order', () => {
  it.each([
    ['few values, many times', 1000, 5],
    ['many values', 1001, 1e9],
    ['one value', 50, 1],
    ['two entries', 2, 1e9],
  ])('is that of the sorted column: %s', (_, count, values) => {
    const column = numbers(count, values)
    const sorted = column.slice().sort()
    for (const k of [0, count >> 2, count >> 1, count - 1]) {
      const moved = column.slice()
      expect(placed(moved, k)).toBe(sorted[k])
      expect(Math.max(...moved.subarray(0, k), -Infinity)).toBeLessThanOrEqual(sorted[k]!)
      expect(Math.min(...moved.subarray(k))).toBe(sorted[k])
      expect(moved.sort()).toEqual(sorted)
    }
  })

  it('goes on from a place that was found', () => {
    const column = numbers(500, 1e9)
    const sorted = column.slice().sort()
    expect([placed(column, 250), placed(column, 475, 250), placed(column, 495, 475)]).toEqual(
      [250, 475, 495].map((k) => sorted[k]),
    )
  })

  it('is the same of columns that are sorted, either way', () => {
    const up = Float64Array.from({ length: 301 }, (_, i) => i)
    expect(placed(up, 150)).toBe(150)
    expect(placed(up.slice().reverse(), 20)).toBe(20)
  })

  it('is none in an empty column', () => {
    expect(placed(new Float64Array(), 0)).toBeUndefined()
  })
})
