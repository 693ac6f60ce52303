import { describe, expect, it } from 'vitest'
import { isBeyondRider } from '../../src/model/route/rider-limit'
import type { Points } from '../../src/model/route/points'
import { mendTimes, takeOutImpossibleTimes, totalTime } from '../../src/model/route/times'
import { root } from '../rides'
import { noCounts } from '../routes'

/** Points with times after a noon of our days and a step, m, before each. */
const points = (times: readonly number[], step: (i: number) => number = () => 50, starts: number[] = []): Points => ({
  latitude: new Float64Array(times.length),
  longitude: new Float64Array(times.length),
  elevation: new Float64Array(times.length),
  time: Float64Array.from(times, (t) => t + 1_800_000_000),
  starts: Uint8Array.from(times, (_, i) => (i === 0 || starts.includes(i) ? 1 : 0)),
  step: Float64Array.from(times, (_, i) => (i === 0 ? 0 : step(i))),
})
const every = (count: number, seconds: number) => Array.from({ length: count }, (_, i) => i * seconds)
const relative = ({ time }: Points) => Array.from(time, (t) => t - 1_800_000_000)

describe('times that can’t be a ride’s', () => {
  const left = (of: Points) => {
    const counts = noCounts()
    const { time } = takeOutImpossibleTimes(of, counts)
    return [time.filter((t) => !Number.isNaN(t)).length, counts.impossibleTimes]
  }

  it('are those before satellites told time', () => {
    // GPS time begins on 6 January 1980 (IS-GPS-200).
    const gps = Date.UTC(1980, 0, 6) / 1000 - 1_800_000_000
    expect(left(points([gps - 1, gps, 60, NaN, 120]))).toEqual([3, 1])
  })

  it('are all where most runs of ten steps are faster than 90 km/h', () => {
    expect(left(points(every(41, 2), () => 50))).toEqual([41, 0])
    expect(left(points(every(41, 2), () => 50.1))).toEqual([0, 41])
    // Two of four runs are not most of them; three are.
    expect(left(points(every(41, 2), (i) => (i <= 20 ? 60 : 40)))).toEqual([41, 0])
    expect(left(points(every(41, 2), (i) => (i <= 30 ? 60 : 40)))).toEqual([0, 41])
    // A displaced point is one of its run.
    expect(left(points(every(41, 2), (i) => (i % 10 === 0 ? 200 : 30)))).toEqual([41, 0])
    // Far displaced points make fast runs of ten steps, not a fast ride; the third in the third run.
    const far = (...places: number[]) => left(points(every(41, 2), (i) => (places.includes(i) ? 1e4 : 30)))
    expect([far(5), far(5, 15), far(5, 10), far(5, 15, 21)]).toEqual([
      [41, 0],
      [41, 0],
      [41, 0],
      [0, 41],
    ])
    // All at one time.
    expect(left(points(every(41, 0)))).toEqual([0, 41])
  })

  it('are told part by part: no run goes over a gap, a part without steps has none', () => {
    // The jump from part to part counts for nothing.
    expect(left(points(every(41, 2), (i) => (i % 5 === 0 ? 1e5 : 30), [5, 10, 15, 20, 25, 30, 35, 40]))).toEqual([
      41, 0,
    ])
    expect(left(points(every(4, 2), () => 1e4, [1, 2, 3]))).toEqual([4, 0])
    // Five fast steps of a part are a run; of ten parts, six are fast.
    const parts = [5, 10, 15, 20, 25, 30, 35, 40, 45]
    expect(left(points(every(50, 2), (i) => (i < 30 ? 60 : 40), parts))).toEqual([0, 50])
    expect(left(points(every(50, 2), (i) => (i < 25 ? 60 : 40), parts))).toEqual([50, 0])
    // A time that is not known is no step either.
    expect(left(points([0, 2, NaN, 6, 8, NaN], (i) => (i === 2 || i === 3 ? 1e4 : 30)))).toEqual([4, 0])
  })
})

describe('times that run backwards', () => {
  const mended = (times: number[]) => {
    const counts = noCounts()
    const result = relative(mendTimes(points(times), counts))
    return [result, counts.backwardTimes]
  }

  it('are unknown where a single one is too early, or the one before it was too late', () => {
    expect(mended([0, 10, 5, 20, 30])).toEqual([[0, 10, NaN, 20, 30], 1])
    expect(mended([0, 10, 500, 20, 30])).toEqual([[0, 10, NaN, 20, 30], 1])
    expect(mended([0, 10, 10, 20])).toEqual([[0, 10, 10, 20], 0])
    expect(mended([0, 10, 20, 5])).toEqual([[0, 10, 20, NaN], 1])
    expect(mended([0, NaN, 500, NaN, 20, NaN, 30])).toEqual([[0, NaN, NaN, NaN, 20, NaN, 30], 1])
    expect(mended([0, 10, 5, NaN, 20])).toEqual([[0, 10, NaN, NaN, 20], 1])
    expect(mended([0, 10, 5, NaN])).toEqual([[0, 10, NaN, NaN], 1])
    expect(mended([0, 30, 5, 5, 40])).toEqual([[0, NaN, 5, 5, 40], 1])
    expect(mended([0, 30, 5, 30, 40])).toEqual([[0, 30, NaN, 30, 40], 1])
  })

  it('are kept from where a clock was set back and goes on', () => {
    expect(mended([100, 110, 120, 10, 20, 30])).toEqual([[100, 110, 120, 10, 20, 30], 1])
    expect(mended([100, 10, 20])).toEqual([[100, 10, 20], 1])
    expect(mended([100, 110, 50, 60, 5, 15])).toEqual([[100, 110, 50, 60, 5, 15], 2])
  })
})

describe('the time from the first to the last', () => {
  it('is that of a ride up to 30 days, beyond that it is told how far they are apart', () => {
    const days = 86_400
    const total = (times: number[]) => totalTime(Float64Array.from(times))
    expect(total([NaN, 5, 7, 65, NaN])).toEqual({ recordedTime: 60, timesApart: undefined })
    expect(total([0, 30 * days])).toEqual({ recordedTime: 30 * days, timesApart: undefined })
    expect(total([0, 30 * days + 1])).toEqual({ recordedTime: undefined, timesApart: 30 * days + 1 })
    for (const none of [[], [NaN], [5], [5, 5], [9, 5]])
      expect(total(none)).toEqual({ recordedTime: undefined, timesApart: undefined })
  })
})

describe('what no rider does', () => {
  /** Speed, m/s, that takes a power, W, of a rider in the most favourable position: Martin et al. 1998, J. Appl. Biomech. 14:276-291. */
  const speedFor = (power: number, slope: number, mass: number) =>
    root((v) => mass * 9.81 * (slope + 0.004) * v + 0.5 * 1.2 * 0.4 * v ** 3 - power, 1, 100)

  it.each([
    ['on the level', 0, 75],
    ['up 1 %', 0.01, 75],
    ['down 5 %, who is heavy', -0.05, 150],
  ])('is faster than 700 W %s', (_, slope, mass) => {
    const limit = speedFor(700, slope, mass)
    const beyond = (speed: number) => isBeyondRider(1000, 1000 / speed, 1000 * slope)
    expect([beyond(0.999 * limit), beyond(1.001 * limit)]).toEqual([false, true])
  })

  it('is with a motor of 600 W more up to 27 km/h', () => {
    const climb = (slope: number) => (speed: number) => isBeyondRider(1000, 1000 / speed, 1000 * slope)
    const limit = speedFor(1300, 0.3, 75)
    expect(limit).toBeLessThan(7.5)
    expect([0.999 * limit, 1.001 * limit].map(climb(0.3))).toEqual([false, true])
    // At 12 % both lie on either side of what the rider can at 7.5 m/s.
    expect([7.49, 7.51].map(climb(0.12))).toEqual([false, true])
  })

  it('falls by 10 %, and by 300 m at most, where the height is not known', () => {
    const limit = (length: number, slope: number) => {
      const speed = speedFor(700, slope, 150)
      return [0.999, 1.001].map((share) => isBeyondRider(length, length / (share * speed), NaN))
    }
    expect([limit(1000, -0.1), limit(3000, -0.1), limit(10_000, -0.03)]).toEqual(Array(3).fill([false, true]))
  })

  it('is to be somewhere else in no time, and not to stay', () => {
    expect([
      isBeyondRider(10, 0, 0),
      isBeyondRider(0, 0, 0),
      isBeyondRider(NaN, 5, 0),
      isBeyondRider(10, NaN, 0),
    ]).toEqual([true, false, false, true])
  })
})
