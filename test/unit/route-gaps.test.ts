import { describe, expect, it } from 'vitest'
import { readHoles, timeBetween } from '../../src/model/route/holes'
import type { Points } from '../../src/model/route/points'

interface Step {
  /** m; s, or unknown. */
  length: number
  time?: number
  /** A part begins behind it. */
  begins?: boolean
  rise?: number
}
/** Points of steps eastward, as exactly as they are told. */
const readOf = (steps: readonly Step[]) => {
  const n = steps.length + 1
  const track = new Float64Array(n)
  const points: Points = {
    latitude: new Float64Array(n).fill(50),
    longitude: new Float64Array(n),
    elevation: new Float64Array(n).fill(10),
    time: new Float64Array(n).fill(1_800_000_000),
    starts: Uint8Array.from({ length: n }, (_, i) => (i === 0 ? 1 : 0)),
    step: new Float64Array(n),
  }
  steps.forEach(({ length, time = NaN, begins = false, rise = 0 }, i) => {
    track[i + 1] = track[i]! + length
    points.step[i + 1] = length
    points.longitude[i + 1] = points.longitude[i]! + length / 71_695.7
    points.elevation[i + 1] = points.elevation[i]! + rise
    points.time[i + 1] = Number.isNaN(time)
      ? NaN
      : (Number.isNaN(points.time[i]!) ? 1_800_100_000 : points.time[i]!) + time
    points.starts[i + 1] = begins ? 1 : 0
  })
  return readHoles(points, track)
}
const gapsOf = (steps: readonly Step[]) =>
  readOf(steps).gaps.map(({ from, to, numbers, why, isCrossing }) => ({ from, to, numbers, why: why.code, isCrossing }))
const road = (count: number, length = 10, time: number | undefined = 2): Step[] =>
  Array.from({ length: count }, () => ({ length, ...(time === undefined ? {} : { time }) }))
const codes = (...steps: Step[]) => gapsOf([...road(10), ...steps, ...road(10)]).map(({ why }) => why)

describe('a hole', () => {
  it('is longer than 300 m between parts', () => {
    const between = (length: number) => codes({ length, time: 100, begins: true })
    expect([between(300), between(300.1)]).toEqual([[], ['rideable']])
    expect(codes({ length: 310, time: 100 })).toEqual([])
  })

  it('is longer than 5 km within a part, with or without times', () => {
    const within = (length: number, time?: number) => codes({ length, ...(time === undefined ? {} : { time }) })
    expect([within(5000, 580), within(5000.1, 580), within(5000), within(5000.1)]).toEqual([
      [],
      ['rideable'],
      [],
      ['drawn'],
    ])
  })

  it('is shorter where its times say that no one rode', () => {
    const fast = (length: number) => codes({ length, time: length / 50 })
    expect([fast(300), fast(301)]).toEqual([[], ['tooFast']])
  })

  it('is longer than ten usual steps within a part, of which the middle one counts', () => {
    const of = (usual: Step[], length: number) => gapsOf([...usual, { length, time: length / 50 }, ...usual]).length
    expect([of(road(9, 40, 8), 399), of(road(9, 40, 8), 401)]).toEqual([0, 1])
    // The first point has no step, and steps to another part are none: 10, 10, 40 and 390 m.
    expect(gapsOf([...road(1), ...road(1, 40, 8), { length: 390, time: 8 }, ...road(1)]).length).toBe(0)
    const parts = Array.from({ length: 6 }, () => [...road(1), { length: 250, time: 50, begins: true }]).flat()
    expect(gapsOf([...parts, ...road(1), { length: 390, time: 8 }]).length).toBe(1)
    // A few long ones change nothing.
    const mixed = [...road(4, 200, 40), ...road(9, 40, 8), ...road(4, 5, 1)]
    expect([of(mixed, 399), of(mixed, 401)]).toEqual([0, 1])
    expect(codes({ length: 6000, time: 600 }).length).toBe(1)
    expect(gapsOf([...road(9, 700, 140), { length: 6500, time: 650 }]).length).toBe(0)
  })

  it('is told by why it is taken as it is', () => {
    const between = (length: number, time: number | undefined, more: Partial<Step> = {}) =>
      codes({ length, begins: true, ...(time === undefined ? {} : { time }), ...more })[0]
    expect([between(1500, 600), between(1500, 599), between(1000, 900), between(999.9, 900)]).toEqual([
      'silent',
      'rideable',
      'silent',
      'rideable',
    ])
    const days = 86_400
    expect([between(2000, 30 * days), between(2000, 30 * days + 1), between(2000, undefined)]).toEqual([
      'silent',
      'brokenOff',
      'brokenOff',
    ])
    expect([between(2000, 0), between(2000, 1)]).toEqual(['brokenOff', 'tooFast'])
    expect(codes({ length: 6000, time: 30 * days + 1 })).toEqual(['drawn'])
    // 8 m/s up 10 %: no rider; down: any.
    expect([between(2000, 250, { rise: 200 }), between(2000, 250, { rise: -200 })]).toEqual(['tooFast', 'rideable'])
    const [gap] = readOf([...road(10), { length: 3000, time: 100, begins: true }, ...road(10)]).gaps
    expect(gap).toEqual({ from: 100, to: 3100, numbers: [0], why: { code: 'tooFast', speed: 30 }, isCrossing: true })
    expect(readOf([...road(10), { length: 1200, time: 700, begins: true }]).gaps[0]!.why).toEqual({
      code: 'silent',
      time: 700,
    })
    expect(readOf([...road(10), { length: 1200, time: 400, begins: true }]).gaps[0]).toMatchObject({
      why: { code: 'rideable', speed: 3 },
      isCrossing: false,
    })
  })
})

describe('holes next to each other', () => {
  const hole = (length = 1000): Step => ({ length, time: length / 50 })
  const both = (between: Step[], [one, next]: [Step, Step] = [hole(), hole()]) =>
    gapsOf([...road(30), one, ...between, next, ...road(30)]).map(({ from, to, numbers }) => [from, to - from, numbers])

  it('are one with fewer than ten steps between, and less way than half of either', () => {
    expect(both(road(9))).toEqual([[300, 2090, [0]]])
    expect(both(road(10))).toEqual([[300, 2100, [0, 1]]])
    expect(both(road(2, 249, 50))).toEqual([[300, 2498, [0]]])
    expect(both(road(2, 250, 50))).toEqual([[300, 2500, [0, 1]]])
    for (const order of [
      [hole(1000), hole(3000)],
      [hole(3000), hole(1000)],
    ] as [Step, Step][])
      expect(both(road(2, 270, 50), order)).toEqual([[300, 4540, [0, 1]]])
    // Three in a row.
    expect(gapsOf([...road(30), hole(), ...road(1), hole(), ...road(1), hole(), ...road(30)]).length).toBe(1)
  })

  it('are told if either is', () => {
    const quiet: Step = { length: 400, time: 100 }
    const told: Step = { length: 400, time: 100, begins: true }
    expect([both(road(1), [quiet, quiet]), both(road(1), [told, quiet]), both(road(1), [quiet, told])]).toEqual([
      [],
      [[300, 810, [0]]],
      [[300, 810, [0]]],
    ])
  })

  it('are one crossing where no one lands for three minutes, and two where someone does', () => {
    const landing = (time: number): Step[] => [...road(10, 10, 2), ...road(1, 10, time - 40), ...road(10, 10, 2)]
    expect(both(landing(179)).length).toBe(1)
    expect(both(landing(181)).length).toBe(2)
    expect(both(landing(179), [hole(), { length: 400, time: 100, begins: true }]).length).toBe(2)
    expect(both(road(20, 10, NaN), [hole(), { length: 1000, begins: true }]).length).toBe(2)
  })

  it('are one where all goes on at the speed of both, within 30 %', () => {
    /** m/s of the first, of ten minutes between, and of the second. */
    const voyage = (before: number, between: number, after: number) => {
      const over = (speed: number): Step => ({ length: 700 * speed, time: 700 })
      // No ship, for every other minute is slower.
      const ride = Array.from({ length: 12 }, (_, k) => road(12, k % 2 === 0 ? 20 : 30, 5)).flat()
      return gapsOf([...ride, over(before), ...road(120, 5 * between, 5), over(after), ...ride]).length
    }
    expect(voyage(8, 8, 8)).toBe(1)
    expect([voyage(10.3, 8, 8), voyage(10.5, 8, 8), voyage(8, 8, 5.7), voyage(8, 8, 5.5)]).toEqual([1, 2, 1, 2])
    // Slower than any ship.
    expect(voyage(1.9, 1.9, 1.9)).toBe(2)
  })
})

it('the time between two places of a track is known where it rises, and at one place is none', () => {
  const track = Float64Array.of(0, 10, 20, 30)
  const time = Float64Array.of(100, 110, 105, NaN)
  expect([
    timeBetween(time, track, 0, 5),
    timeBetween(time, track, 5, 5),
    timeBetween(time, track, 10, 20),
    timeBetween(time, track, 0, 30),
  ]).toEqual([5, 0, undefined, undefined])
})
