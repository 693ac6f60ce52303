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
function recording(change: (fix: Fix & { k: number }) => Partial<Fix> & { silent?: number }, count = 200): Fix[] {
  let waited = 0
  return Array.from({ length: count }, (_, k) => {
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

describe('a fix that looks displaced', () => {
  const jumps = (...parts: Part[]) => clean(parts, []).counts.jumps
  const track = (from: number, change: (fix: Fix & { k: number }) => Partial<Fix> = () => ({})) =>
    recording(change, 50).map((fix) => ({ ...fix, y: fix.y + 5 * from, time: fix.time + from }))

  it('is none at either end of a part, nor a part of its own', () => {
    const aside = { x: 45 }
    expect(jumps(part(track(0, ({ k }) => (k === 25 ? aside : {}))), part(track(50)))).toBe(1)
    expect(jumps(part(track(0, ({ k }) => (k === 49 ? aside : {}))), part(track(50)))).toBe(0)
    expect(jumps(part(track(0)), part(track(50, ({ k }) => (k === 0 ? aside : {}))))).toBe(0)
    expect(jumps(part(track(0)), part([{ y: 250, time: 50, ...aside }]), part(track(51)))).toBe(0)
  })

  it('is none that is far from one neighbour only, or not twice as far as they are from each other', () => {
    // From (0, 0) over a corner to (0, 40); at 10 s a step no one is too fast.
    const corner = (x: number, y: number, end = 40) =>
      jumps(
        part(
          Array.from({ length: 101 }, (_, k) =>
            k === 50 ? { y, x, time: 10 * k } : { y: k < 50 ? 5 * (k - 49) : end + 5 * (k - 51), time: 10 * k },
          ),
        ),
      )
    // 92 m from both; 100 m and 70 m.
    expect([corner(90, 20), corner(54.6, 83.75)]).toEqual([1, 0])
    // 42 m and 31 m, of places 13 m apart; 40 m and 28 m; the other way round.
    expect([corner(19.1, 37.4, 13), corner(12.8, 37.9, 13), corner(12.8, -24.9, 13)]).toEqual([1, 0, 0])
  })

  it('is one of two that stand side by side', () => {
    const zigzag = recording(({ k }) => (k >= 100 && k < 110 && k % 2 === 0 ? { x: 100 } : {}))
    const { counts, longitude } = clean([part(zigzag)], [])
    expect(counts.jumps).toBe(5)
    near(Math.max(...longitude), 7, 1e-9)
  })

  it('is farther out where a line is drawn with steps of all lengths: 300 m, or 30 times the middle one', () => {
    /** Steps of a length, every tenth four times as long, and one place aside. */
    const drawn = (step: number, aside: number) => {
      let y = 0
      return jumps(
        part(
          Array.from({ length: 101 }, (_, k) => {
            y += k % 10 === 5 ? 4 * step : step
            return { y, x: k === 50 ? aside : 0, time: k }
          }),
          false,
        ),
      )
    }
    expect([drawn(5, 290), drawn(5, 310), drawn(20, 580), drawn(20, 620)]).toEqual([0, 1, 0, 1])
  })

  it('is one alike in steps of which up to one in twenty is longer', () => {
    const long = (every: number) => {
      let y = 0
      return jumps(
        part(
          Array.from({ length: 201 }, (_, k) => {
            y += k % every === 5 ? 20 : 5
            return { y, x: k === 100 ? 60 : 0, time: k }
          }),
          false,
        ),
      )
    }
    expect([long(10), long(40)]).toEqual([0, 1])
  })
})

describe('a burst near an end', () => {
  it('takes nothing with it of what it came back to', () => {
    const back = (last: number) =>
      clean([part(recording(({ k }) => (k >= 198 - last && k < 200 - last ? { x: 500 } : {})))], [])
    expect([back(1).counts.jumps, back(2).counts.jumps, back(3).counts.jumps]).toEqual([2, 2, 2])
  })

  it('is none where the track goes on elsewhere', () => {
    const on = clean([part(recording(({ k }) => (k < 100 ? {} : k < 106 ? { x: 1000 } : { x: -3000 })))], [])
    expect(on.counts.jumps).toBe(0)
  })

  it('is not told from a short track: of 30 fixes all count', () => {
    const first = (count: number) =>
      clean([part(recording(({ k }) => (k < 2 ? { x: 900, y: -30 * (k + 1) } : {}), count))], []).counts.jumps
    const last = (count: number) =>
      clean([part(recording(({ k }) => (k >= count - 2 ? { x: 900, y: 30 * k } : {}), count))], []).counts.jumps
    expect([first(31), last(31), first(30), last(30)]).toEqual([2, 2, 0, 0])
  })

  it('is none that begins a part of its own', () => {
    const away = (k: number) => ({ y: 3000 + 25 * k, x: 900, time: 300 + k })
    const tail = Array.from({ length: 2 }, (_, k) => away(k))
    expect(clean([part(recording(() => ({}))), part(tail)], []).counts.jumps).toBe(0)
    expect(
      clean([part(tail.map((fix) => ({ ...fix, time: fix.time - 400 }))), part(recording(() => ({})))], []).counts
        .jumps,
    ).toBe(0)
  })
})

describe('what lies alone between two gaps', () => {
  const track = (from: number) =>
    part(
      recording((fix) => ({ y: fix.y + from, time: NaN }), 50),
      false,
    )
  const alone = (length: number, points: number) =>
    part(
      Array.from({ length: points }, (_, k) => ({ y: 5000 + (length * k) / Math.max(1, points - 1), time: NaN })),
      false,
    )
  const read = (...parts: Part[]) => {
    const { counts, gaps, latitude } = clean(parts, [])
    return [counts.jumps, gaps.length, latitude.length]
  }

  it('is taken out if it is shorter than 20 m', () => {
    expect(read(track(0), alone(0, 1), track(9000))).toEqual([1, 1, 100])
    expect(read(track(0), alone(19.9, 13), track(9000))).toEqual([13, 1, 100])
    expect(read(track(0), alone(20.1, 13), track(9000))).toEqual([0, 2, 113])
    // At an end too; two next to each other; but not where a gap is none, up to 300 m.
    expect(read(alone(10, 2), track(9000))).toEqual([2, 0, 50])
    expect(read(track(0), alone(10, 2))).toEqual([2, 0, 50])
    expect(read(track(4500), alone(10, 2), track(9000))).toEqual([0, 1, 102])
    expect(read(track(4400), alone(10, 2), track(9000))).toEqual([2, 1, 100])
  })

  it('is kept where there is nothing else', () => {
    expect(read(alone(15, 4))).toEqual([0, 0, 4])
  })
})
