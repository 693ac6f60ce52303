import { describe, expect, it } from 'vitest'
import { arrange } from '../../src/model/route/arrange'
import type { Line } from '../../src/model/route/lines'
import { survey } from '../../src/model/route/survey'
import { outlineOf } from '../../src/view/which/outline'
import { within } from '../asserts'

/** Kilometres in a degree of latitude. */
const degree = 111.2
type Spot = readonly [north: number, east: number]

/** A line through places, km from 41 N, 151 W, a point each 100 m; times from an hour on, at 5 m/s. */
function line(spots: readonly Spot[], { kind = 'track' as Line['kind'], from = NaN, name = '' } = {}): Line {
  const latitude: number[] = []
  const longitude: number[] = []
  spots.slice(1).forEach(([north, east], i) => {
    const [n, e] = spots[i]!
    const steps = Math.max(1, Math.round(10 * Math.hypot(north - n, east - e)))
    for (let k = i === 0 ? 0 : 1; k <= steps; k++) {
      latitude.push(41 + (n + ((north - n) * k) / steps) / degree)
      longitude.push(-151 + (e + ((east - e) * k) / steps) / (degree * Math.cos((41 * Math.PI) / 180)))
    }
  })
  const column = (values: number[]) => Float64Array.from(values)
  const part = {
    latitude: column(latitude),
    longitude: column(longitude),
    elevation: column(latitude).fill(NaN),
    time: column(latitude).map((_, i) => 1.9e9 + 3600 * from + 20 * i),
  }
  return { name, kind, parts: [part], fromExtensions: 0 }
}

const arranged = (...lines: Line[]) => {
  const { rides, all, proposed, question } = arrange(lines.map((line) => ({ line, summary: survey(line) })))
  return { rides: rides.map(({ lines }) => lines), all: all.lines, proposed: proposed.lines, question }
}
/** North from one place to another, km. */
const north = (from: number, to: number, east = 0): Spot[] => [
  [from, east],
  [to, east],
]

describe('lines without times', () => {
  it('that meet are one ride in the order that leaves least to cross', () => {
    const stages = [0, 10, 11, 1, 2, 3, 4, 5, 6, 7, 8, 9].map((k) => line(north(20 * k, 20 * k + 20)))
    const order = [0, 3, 4, 5, 6, 7, 8, 9, 10, 11, 1, 2]
    expect(arranged(...stages)).toEqual({ rides: [order], all: order, proposed: order, question: undefined })
  })

  it('stay in the order of the file where another saves nothing', () => {
    const there = [line(north(0, 10)), line(north(10.1, 20)), line(north(20.2, 30))]
    expect(arranged(...there).proposed).toEqual([0, 1, 2])
    // There and back on one road.
    expect(arranged(line(north(0, 10)), line(north(10, 0)))).toMatchObject({ proposed: [0, 1], question: undefined })
  })

  it('that lie more than 10 km apart are asked about, as one ride where there is little to cross', () => {
    const near = [line(north(0, 40)), line(north(52, 90))]
    expect(arranged(...near)).toMatchObject({ rides: [[0], [1]], proposed: [0, 1], question: 'apart' })
    const far = [line(north(0, 40)), line(north(152, 190)), line(north(191, 200))]
    expect(arranged(...far)).toMatchObject({ rides: [[0], [1, 2]], proposed: [1, 2], question: 'apart' })
  })

  it('that together are more than a day’s ride are asked about', () => {
    const tour = Array.from({ length: 5 }, (_, k) => line(north(130 * k, 130 * k + 130 + k)))
    expect(arranged(...tour)).toMatchObject({ rides: [[0], [1], [2], [3], [4]], proposed: [4], question: 'long' })
  })

  it('from one place to the same other are choices', () => {
    const hill = line([
      [0, 0],
      [10, -6],
      [20, 0],
    ])
    expect(arranged(line(north(0, 20)), hill)).toMatchObject({ rides: [[0], [1]], proposed: [1], question: 'variants' })
  })

  it('that share half of the way in the same direction are choices', () => {
    const forks = [0, 5].map((east) =>
      line([
        [0, 0],
        [12, 0],
        [20, east],
      ]),
    )
    expect(arranged(...forks).question).toBe('variants')
    // A third of the way is no choice, but one after the other.
    const other = line([
      [20, 0],
      [12, 20],
      [12, 0],
    ])
    expect(arranged(forks[0]!, other).question).toBeUndefined()
  })
})

describe('lines with times', () => {
  it('are in their order, and of other days where a night lies between', () => {
    // 20 km take 67 minutes.
    const lines = [line(north(40, 60), { from: 24 }), line(north(20, 40), { from: 2 }), line(north(0, 20), { from: 0 })]
    expect(arranged(...lines)).toEqual({
      rides: [[2, 1], [0]],
      all: [2, 1, 0],
      proposed: [2, 1],
      question: 'days',
    })
    expect(arranged(lines[2]!, lines[1]!)).toMatchObject({ proposed: [0, 1], question: undefined })
  })

  it('recorded at once are choices', () => {
    const two = [line(north(0, 20), { from: 0 }), line(north(0.1, 21), { from: 0.2 })]
    expect(arranged(...two)).toMatchObject({ proposed: [1], question: 'variants' })
  })
})

describe('kinds of lines', () => {
  const track = line(north(0, 20))
  const route = (length: number) => line(north(0, length), { kind: 'route' })

  it('tracks come before routes, unless those are far longer', () => {
    expect(arranged(route(18), track).proposed).toEqual([1])
    expect(arranged(route(39), track).proposed).toEqual([1])
    expect(arranged(route(41), track).proposed).toEqual([0])
  })

  it('stubs are left out, save where there is nothing else', () => {
    const stub = line(north(0, 0.05))
    expect(arranged(stub, route(20)).proposed).toEqual([1])
    expect(arranged(stub, track).all).toEqual([1])
    expect(arranged(stub, line(north(0, 0.09))).proposed).toEqual([1])
  })
})

describe('a small picture of a ride', () => {
  const points = (path: string) =>
    path
      .slice(1)
      .split('L')
      .map((point) => point.split(' ').map(Number))

  it('has the ride in its middle, north up, and the others where they lie', () => {
    const lines = [line(north(0, 10)), line(north(10, 14, 3))].map(survey)
    const { viewBox, ride, others } = outlineOf(lines, [0])
    expect(viewBox).toBe('0 0 1.5 1')
    const drawn = points(ride)
    const [first, last] = [drawn[0]!, drawn.at(-1)!]
    within(first[0]!, 0.75, 0.01)
    within(last[0]!, 0.75, 0.01)
    // 10 km fill 1 / 1.3 of the height, from the bottom up.
    within(first[1]! - last[1]!, 1 / 1.3, 0.01)
    const [other] = points(others)
    within(other![0]! - first[0]!, 3 / 13, 0.01)
    within(other![1]!, last[1]!, 0.01)
  })

  it('is without others that lie out of it, and without any where they are too many to be told apart', () => {
    const ride = survey(line(north(0, 10)))
    const crossing = survey(
      line([
        [5, -9],
        [5, 9],
      ]),
    )
    const far = survey(line(north(40, 50)))
    const { others } = outlineOf([ride, crossing, far], [0])
    expect(others).toBe(outlineOf([ride, crossing], [0]).others)
    expect(others).toMatch(/^M[^M]+$/)
    expect(outlineOf([ride, ...Array.from({ length: 100 }, () => crossing)], [0]).others).toBe('')
  })

  it('is whole across the antimeridian, and empty without points', () => {
    const across = {
      ...survey(line(north(0, 1))),
      outline: [179.9, -179.9].map((longitude) => ({ latitude: 0, longitude })),
    }
    const [from, to] = points(outlineOf([across], [0]).ride)
    within(to![0]! - from![0]!, 1.5 / 1.3, 0.01)
    expect(outlineOf([{ ...across, outline: [] }], [0])).toMatchObject({ ride: '', others: '' })
  })
})
