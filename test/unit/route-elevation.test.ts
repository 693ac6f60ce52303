import { describe, expect, it } from 'vitest'
import { mendElevation } from '../../src/model/route/elevation'
import { near } from '../asserts'
import { noCounts } from '../routes'

/** What becomes of elevations at even steps, m, or at places. */
function mended(heights: readonly number[], at: number | readonly number[] = 10) {
  const counts = noCounts()
  const distance = Float64Array.from(heights, (_, i) => (typeof at === 'number' ? i * at : at[i]!))
  const { elevation, ...rest } = mendElevation(Float64Array.from(heights), distance, counts)
  return { ...rest, heights: [...elevation], unknown: counts.unknownElevations, spikes: counts.elevationSpikes }
}

const level = (count: number, height = 100) => new Array<number>(count).fill(height)

describe('unknown elevations', () => {
  it('are those outside -500 to 9000 m, and are drawn straight by distance', () => {
    expect(mended([100, 9000, 102, 103, -500, 105], 100)).toEqual({
      heights: [100, 101, 102, 103, 104, 105],
      elevationKnown: 'all',
      longestHole: 200,
      unknown: 2,
      spikes: 0,
    })
    expect([mended([...level(9), 8999, 100]).unknown, mended([...level(9), -499, 100]).unknown]).toEqual([0, 0])
    expect(mended([10, NaN, 20], [0, 10, 40]).heights).toEqual([10, 12.5, 20])
    expect(mended([10, NaN, 20, 20], [5, 5, 5, 5]).heights).toEqual([10, 10, 20, 20])
  })

  it('are at the ends as the nearest that is known; the longest hole is told beyond 1 km', () => {
    const ends = mended([NaN, NaN, 10, 12, NaN], [0, 10, 30, 40, 75])
    expect(ends).toMatchObject({ heights: [10, 10, 10, 12, 12], longestHole: 35, unknown: 3 })
    expect(mended([NaN, 10, 12, NaN], [0, 31, 40, 70]).longestHole).toBe(31)
    const hole = (length: number) => mended([10, 10, NaN, 10, 10], [0, 10, 20, 10 + length, 20 + length])
    expect([hole(1000).elevationKnown, hole(1001).elevationKnown]).toEqual(['all', 'part'])
    expect([hole(1000).longestHole, mended(level(5)).longestHole]).toEqual([1000, 0])
  })

  it('are all where no two are known, or all are 0', () => {
    for (const heights of [
      [NaN, 7, NaN],
      [0, 0, 0],
      [0, NaN, 0, 0],
      [NaN, NaN],
    ])
      expect(mended(heights)).toMatchObject({
        heights: heights.map(() => 0),
        elevationKnown: 'none',
        longestHole: 10 * (heights.length - 1),
        unknown: 0,
      })
    expect(mended([NaN, 7, 8]).elevationKnown).toBe('all')
  })

  it.each([
    ['beside 15.1 m, 50 m away', [15.1, 15.1, 0, 15.1, 15.1], 50, 1],
    ['beside 15 m', [15, 15, 0, 15, 15], 40, 0],
    ['beside 15.1 m, where a road of 30 % leads down', [15.1, 15.1, 0, 15.1, 15.1], 51, 0],
    ['below the sea', [-40, -40, 0, -40, -40], 50, 1],
    ['in a row', [80, 80, 0, 0, 0, 80, 80], 50, 3],
    ['in a row with unknown ones', [80, 80, 0, NaN, 0, 80, 80], 50, 3],
    ['between unknown ones', [80, 80, NaN, 0, 80, 80], 50, 2],
    ['at the start', [0, 0, 80, 80, 80], 50, 2],
    ['at the end', [80, 80, 80, 0], 50, 1],
    ['at the start by the sea', [0, 0, 8, 20, 40], 50, 0],
    ['at a coast: a cliff on one side only', [80, 80, 0, 8, 20], 50, 0],
    ['at a coast: a cliff on the other side', [20, 8, 0, 80, 80], 50, 0],
    ['twice', [80, 80, 0, 80, 0, 80, 80], 50, 2],
  ])('are zeros among heights: %s', (_, heights, step, unknown) => {
    expect(mended(heights, step).unknown).toBe(unknown)
  })
})

describe('spikes', () => {
  it('stand out from the median of five by more than 8 m and a road of 35 % to the farther end of them', () => {
    // At the end the farther of the five is 40 m away: 8 + 0.35 · 40 = 22 m.
    for (const turn of [(h: number[]) => h, (h: number[]) => h.toReversed()]) {
      expect(mended(turn([122, ...level(9)])).spikes).toBe(0)
      expect(mended(turn([122.1, ...level(9)]))).toMatchObject({ spikes: 1, heights: level(10) })
      expect(mended(turn([77.9, ...level(9)]))).toMatchObject({ spikes: 1, heights: level(10) })
    }
  })

  it('stand out as much from a road that climbs, for an even slope is no noise', () => {
    const climbing = Array.from({ length: 20 }, (_, i) => 100 + 3 * i + (i === 10 ? 30 : 0))
    expect(mended(climbing)).toMatchObject({ spikes: 1, heights: climbing.map((_, i) => 100 + 3 * i) })
  })

  it('are none of four points, and are higher in a noisy file', () => {
    expect(mended([150, 100, 100, 100]).spikes).toBe(0)
    // Second differences of ±1 m, up and down, are 4 m: noise of 4 / 0.6745 / √6 = 2.42 m, seven of which are 16.9 m; and 14 m for 40 m of road.
    const noisy = (first: number) => [first, ...Array.from({ length: 20 }, (_, i) => (i % 2 === 0 ? 101 : 99))]
    expect([mended(noisy(131)).spikes, mended(noisy(133)).spikes]).toEqual([0, 1])
  })
})

describe('a bridge or a tunnel', () => {
  /** A road, a drop within 10 m, as far below (or above where negative), and up again; `rise` higher than before. */
  const over = (depth: number, length: number, rise = 0) => {
    const inside = length / 10 - 1
    const between = Array.from({ length: inside }, (_, i) => 100 - depth + (rise * (i + 1)) / (inside + 1))
    return [...level(20), ...between, ...level(20, 100 + rise)]
  }

  it.each([
    [30, 200, 0],
    [-30, 200, 0],
    [8, 100, 0],
    [8.2, 100, 0],
    [20, 1000, 0],
    [20.5, 1000, 0],
    [70, 2990, 0],
    [60, 200, 27],
    [60, 200, -27],
  ])('%i m deep, %i m long and %i m higher at its end is straight', (depth, length, rise) => {
    const { heights, spikes, unknown } = mended(over(depth, length, rise))
    const inside = length / 10 - 1
    expect([spikes, unknown]).toEqual([inside, 0])
    for (let i = 0; i <= inside + 1; i++) near(heights[19 + i]!, 100 + (rise * i) / (inside + 1), 1e-9, `point ${i}`)
  })

  it.each([
    ['lower than 8 m', over(7.8, 100)],
    ['lower than 2 % of its length', over(19.5, 1000)],
    ['longer than 3 km', over(70, 3010)],
    ['steeper than 12 % and 4 m', over(60, 200, 29)],
    ['steeper down', over(60, 200, -29)],
    ['no wall of more than 35 %', [...level(20), 96.6, 93.2, 89.8, ...level(9, 86.4), 89.8, 93.2, 96.6, ...level(20)]],
    ['no wall of more than 35 %, just', [...level(20), 96.5, 93, 89.5, ...level(9, 86), 89.5, 93, 96.5, ...level(20)]],
    [
      'between two steps down with a climb between',
      [...level(20), ...level(150, 70), ...Array.from({ length: 20 }, (_, i) => 73 + 3 * i), ...level(20)],
    ],
    ['a step', [...level(20), ...level(30, 60)]],
    ['two steps down', [...level(20), ...level(10, 70), ...level(20, 40)]],
  ])('is none that is %s', (_, heights) => {
    expect(mended(heights)).toMatchObject({ spikes: 0, heights })
  })

  it('is mended with the next one', () => {
    const both = [...over(30, 200), ...over(30, 200)]
    expect(mended(both)).toMatchObject({ spikes: 38, heights: both.map(() => 100) })
  })

  it('has walls as high as they are themselves, whatever lies behind', () => {
    // 8.2 m down, and half a metre up again; the wall is as high as 8 m though what follows is not as low.
    const heights = [...level(20), 91.8, ...level(7, 92.3), 91.8, ...level(20)]
    expect(mended(heights)).toMatchObject({ spikes: 9, heights: heights.map(() => 100) })
  })

  it('of three points is noise', () => {
    expect(mended([1, 100, 1])).toMatchObject({ spikes: 0, heights: [1, 100, 1] })
    expect(mended([1, 100]).heights).toEqual([1, 100])
  })

  it('has a wall over several steps, up to its foot', () => {
    const heights = [...level(20), 96, 92, 88, 84, ...level(8, 80), 84, 88, 92, 96, ...level(20)]
    const { spikes, heights: straight } = mended(heights)
    expect(spikes).toBe(16)
    for (const height of straight) near(height, 100, 1e-9)
  })

  it('is none where much of it is no lower than the road', () => {
    // A hump within, without walls: of 22 points 4 lie less than a quarter of 20 m below the road, of 23 points 5, more than a fifth.
    const hump = (top: number) => {
      const up = [...level(5, 80), 83, 86, 89, 92, 95]
      return mended([...level(20), ...up, ...level(top, 98), ...up.toReversed(), ...level(20)])
    }
    expect([hump(2).spikes, hump(3).spikes]).toEqual([22, 0])
  })
})
