import { describe, expect, it } from 'vitest'
import type { Part } from '../../src/model/route/parts'
import { gather, takeOutRepeated, without, type Points } from '../../src/model/route/points'
import { ridden } from '../../src/model/route/ridden'
import { near } from '../asserts'
import { noCounts } from '../routes'

type Place = readonly [latitude: number, longitude: number, elevation?: number]
const part = (...places: Place[]): Part => ({
  latitude: Float64Array.from(places, ([latitude]) => latitude),
  longitude: Float64Array.from(places, ([, longitude]) => longitude),
  elevation: Float64Array.from(places, ([, , elevation = NaN]) => elevation),
  time: Float64Array.from(places, (_, i) => i),
})
const columns = ({ latitude, longitude, elevation, time, starts, step }: Points) => ({
  places: Array.from(latitude, (north, i) => [north, longitude[i]]),
  elevation: [...elevation],
  time: [...time],
  starts: [...starts],
  step: Array.from(step, (metres) => Math.round(metres)),
})
function gathered(...parts: Part[]) {
  const counts = noCounts()
  const { places, starts, step, time } = columns(gather(parts, counts))
  return { places, starts, step, time, zero: counts.zeroPoints, out: counts.outOfRangePoints }
}

describe('points of all parts', () => {
  it('are in order, with a start for each part and the steps between, over the antimeridian too', () => {
    // A thousandth of a degree of longitude at the equator is 111.319 m, of latitude 110.574 m (WGS84).
    expect(gathered(part([1, 179.999], [1, -180]), part([1, -179.999], [1.001, -179.999]))).toEqual({
      places: [
        [1, 179.999],
        [1, 180],
        [1, 180.001],
        [1.001, 180.001],
      ],
      starts: [1, 0, 1, 0],
      step: [0, 111, 111, 111],
      time: [0, 1, 0, 1],
      zero: 0,
      out: 0,
    })
  })

  it('have no starts where each part is a single point', () => {
    expect(gathered(part([1, 1]), part(), part([1, 1.001]), part([1, 1.002])).starts).toEqual([1, 0, 0])
    expect(gathered(part([1, 1]), part([1, 1.001]), part([1, 1.002], [1, 1.003])).starts).toEqual([1, 1, 1, 0])
  })

  it('have possible coordinates; the start of a part passes on to the next', () => {
    expect(
      gathered(
        part([90, 180], [-90, -180], [91, 0], [-91, 0]),
        part([5, 181], [5, -181], [NaN, 5], [5, NaN], [4, 3], [4, 4]),
      ),
    ).toMatchObject({
      places: [
        [90, 180],
        [-90, 180],
        [4, 3],
        [4, 4],
      ],
      starts: [1, 0, 1, 0],
      time: [0, 1, 4, 5],
      out: 6,
      zero: 0,
    })
  })

  it('are not at latitude 0, longitude 0, unless others lie within half a degree of there', () => {
    const kept = (...others: Place[]) => {
      const { places, zero } = gathered(part([0, 0], ...others), part([0, 0], [0, 0]))
      return [places.length, zero]
    }
    expect(kept([7, 0], [0, 7])).toEqual([2, 3])
    expect(kept()).toEqual([0, 3])
    expect(kept([0.499, -0.499])).toEqual([4, 0])
    expect(kept([0.3, 0.501])).toEqual([1, 3])
    expect(kept([-0.501, 0.3])).toEqual([1, 3])
    expect(kept([0, 0.2])).toEqual([4, 0])
    expect(kept([-0.2, 0])).toEqual([4, 0])
    expect(kept([50, 8], [0.1, 0.1])).toEqual([5, 0])
  })
})

describe('points at one place', () => {
  const metre = 1 / 110_574
  function kept(...parts: Part[]) {
    const counts = noCounts()
    const { places, elevation, starts, time } = columns(takeOutRepeated(gather(parts, noCounts()), counts))
    return {
      north: places.map(([latitude]) => Math.round(((latitude! - 1) / metre) * 1000) / 1000),
      elevation,
      starts,
      time,
      repeated: counts.repeatedPoints,
    }
  }
  const at = (metres: number, elevation = NaN): Place => [1 + metres * metre, 7, elevation]

  it('are one, with the first elevation that is known', () => {
    expect(kept(part(at(0), at(0, 5), at(0, 9), at(10, 3), at(10, 4), at(20)))).toEqual({
      north: [0, 10, 20],
      elevation: [5, 3, NaN],
      starts: [1, 0, 0],
      time: [0, 3, 5],
      repeated: 3,
    })
  })

  it('are nearer to each other than 5 mm, each to the one that is kept: who creeps goes on', () => {
    expect(kept(part(at(0), at(0.0047), at(0.0053), at(0.0099), at(5))).north).toEqual([0, 0.005, 5])
    expect(kept(part(at(0), at(0.0053), at(0.0106))).repeated).toBe(0)
    expect(kept(part(at(0), at(0.0047), at(0.0001), at(0.0047))).north).toEqual([0])
  })

  it('begin no part of their own: it goes on from the one before', () => {
    expect(kept(part(at(0), at(10)), part(at(10), at(20)), part(at(30), at(30), at(40))).starts).toEqual([
      1, 0, 0, 1, 0,
    ])
  })
})

it('points without some of them have their columns, steps anew, and starts that pass on', () => {
  const points = gather(
    [part([1, 1, 5], [1, 1.001, 6], [1, 1.003, 7]), part([1, 1.006, 8], [1, 1.01, 9], [1, 1.015, 10])],
    noCounts(),
  )
  expect(columns(without(points, Uint8Array.of(0, 1, 0, 1, 0, 0)))).toEqual({
    places: [
      [1, 1],
      [1, 1.003],
      [1, 1.01],
      [1, 1.015],
    ],
    elevation: [5, 7, 9, 10],
    time: [0, 2, 1, 2],
    starts: [1, 0, 1, 0],
    step: [0, 334, 779, 557],
  })
  expect(columns(without(points, Uint8Array.of(1, 0, 0, 0, 0, 0))).step[0]).toBe(0)
  expect(columns(without(points, new Uint8Array(6)))).toEqual(columns(points))
})

describe('what is ridden', () => {
  const track = Float64Array.of(0, 10, 20, 30, 40)
  const places = Array.from(track, (_, i): Place => [50, 7 + i / 1000, 100 + i])
  const of = (...travelled: [number, number][]) => {
    const { latitude, longitude, elevation, time, distance, stretches } = ridden(
      gather([part(...places)], noCounts()),
      track,
      travelled.map(([from, to]) => ({ from, to })),
    )
    expect([...latitude]).toEqual(Array.from(distance, () => 50))
    longitude.forEach((east, i) => near((east - 7) * 1000, elevation[i]! - 100, 1e-6))
    elevation.forEach((height, i) => near(height - 100, time[i]!, 1e-9))
    return { time: [...time], distance: [...distance], stretches: stretches.map(({ first, last }) => [first, last]) }
  }

  it('is the whole track where nothing is travelled', () => {
    expect(of()).toEqual({ time: [0, 1, 2, 3, 4], distance: [0, 10, 20, 30, 40], stretches: [[0, 4]] })
  })

  it('is cut at the points or between them', () => {
    expect(of([10, 30])).toEqual({
      time: [0, 1, 3, 4],
      distance: [0, 10, 10, 20],
      stretches: [
        [0, 1],
        [2, 3],
      ],
    })
    expect(of([5, 10], [22.5, 27.5])).toEqual({
      time: [0, 0.5, 1, 2, 2.25, 2.75, 3, 4],
      distance: [0, 5, 5, 15, 17.5, 17.5, 20, 30],
      stretches: [
        [0, 1],
        [2, 4],
        [5, 7],
      ],
    })
    expect(of([12.5, 17.5])).toEqual({
      time: [0, 1, 1.25, 1.75, 2, 3, 4],
      distance: [0, 10, 12.5, 12.5, 15, 25, 35],
      stretches: [
        [0, 2],
        [3, 6],
      ],
    })
  })

  it('begins behind what is travelled at the start, and ends before what is at the end', () => {
    expect(of([0, 15], [35, 40])).toEqual({
      time: [1.5, 2, 3, 3.5],
      distance: [0, 5, 15, 20],
      stretches: [[0, 3]],
    })
    expect(of([0, 40])).toEqual({ time: [], distance: [], stretches: [] })
  })
})
