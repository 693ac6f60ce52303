import { describe, expect, it } from 'vitest'
import { clean } from '../../src/model/route/clean'
import type { Part } from '../../src/model/route/parts'
import { near } from '../asserts'

/** Metres in a degree of latitude and of longitude at 45° (WGS84: Torge and Müller 2012, Geodesy, 4.1.3). */
const [north, east] = [111_131.8, 78_846.8]

interface Fix {
  /** m to the north and to the east, and s. */
  y: number
  x?: number
  time: number
}
const part = (fixes: readonly Fix[], timed = true): Part => ({
  latitude: Float64Array.from(fixes, ({ y }) => 45 + y / north),
  longitude: Float64Array.from(fixes, ({ x = 0 }) => 7 + x / east),
  elevation: Float64Array.from(fixes, () => 100),
  time: Float64Array.from(fixes, ({ time }) => (timed ? 1.8e9 + time : NaN)),
})
/** A fix a second at 5 m/s, some of them displaced to the east, with silences before. */
function recording(change: (fix: Fix & { k: number }) => Partial<Fix> & { silent?: number }): Fix[] {
  let waited = 0
  return Array.from({ length: 200 }, (_, k) => {
    const fix = { y: 5 * k, time: k }
    const { silent = 0, ...other } = change({ ...fix, k })
    waited += silent
    return { ...fix, ...other, time: k + waited }
  })
}
/** Five fixes to one side, reached and left in 10 s each. */
const burst = (aside: number) =>
  recording(({ k }) => ({
    ...(k >= 100 && k < 105 && { x: aside }),
    ...((k === 100 || k === 105) && { silent: 9 }),
  }))

describe('a burst of displaced fixes', () => {
  it('is taken out where no one is so fast, 40 m/s, and else kept', () => {
    const fast = clean([part(burst(404))], [])
    expect(fast.counts.jumps).toBe(5)
    near(fast.distance.at(-1)!, 995, 1)
    const slower = clean([part(burst(396))], [])
    expect(slower.counts.jumps).toBe(0)
  })

  it('is kept where it is no farther than 50 m, however fast', () => {
    const near50 = (aside: number) =>
      clean([part(recording(({ k }) => (k >= 100 && k < 105 ? { x: aside } : {})))], []).counts.jumps
    expect(near50(49)).toBe(0)
    expect(near50(52)).toBe(5)
  })

  it('of ten fixes is an error of the receiver, and of eleven another way', () => {
    const run = (count: number) =>
      clean([part(recording(({ k }) => (k >= 100 && k < 100 + count ? { x: 500 } : {})))], [])
    expect(run(10).counts.jumps).toBe(10)
    expect(run(11).counts.jumps).toBe(0)
  })

  it('without times is taken out beyond 300 m, or 30 times the usual step', () => {
    const jumps = (aside: number) =>
      clean(
        [
          part(
            recording(({ k }) => (k >= 100 && k < 105 ? { x: aside } : {})),
            false,
          ),
        ],
        [],
      ).counts.jumps
    expect([295, 305].map(jumps)).toEqual([0, 5])
  })
})

describe('a single displaced fix', () => {
  it('is taken out 25 m aside, and kept nearer', () => {
    const jumps = (aside: number) =>
      clean([part(recording(({ k }) => (k === 100 ? { x: aside } : {})))], []).counts.jumps
    expect([40, 27, 24].map(jumps)).toEqual([1, 0, 0])
  })

  it('is an error at either end of a longer track, and so are a few', () => {
    const ends = (first: number, last: number) =>
      clean([part(recording(({ k }) => (k < first || k >= 200 - last ? { x: 5000 } : {})))], [])
    expect(ends(1, 0).counts.jumps).toBe(1)
    expect(ends(0, 2).counts.jumps).toBe(2)
    expect(ends(3, 3).counts.jumps).toBe(6)
    expect(ends(6, 6).counts.jumps).toBe(0)
  })
})
