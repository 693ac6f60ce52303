import { describe, expect, it } from 'vitest'
import { arrange } from '../../src/model/route/arrange'
import type { Line } from '../../src/model/route/line'
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

describe('at their bounds', () => {
  it('stubs are shorter than 100 m', () => {
    const track = line(north(0, 20))
    expect(arranged(track, line(north(20, 20.0995))).all).toEqual([0])
    expect(arranged(track, line(north(20, 20.1005))).all).toEqual([0, 1])
  })

  it('lines lie apart beyond 10 km, and are one ride up to half as much between as is ridden', () => {
    expect(arranged(line(north(0, 40)), line(north(49.9, 90))).question).toBeUndefined()
    expect(arranged(line(north(0, 40)), line(north(50.1, 90))).question).toBe('apart')
    const crossed = (share: number) =>
      arranged(line(north(0, 20)), line(north(20 + 40 * share, 39.9 + 40 * share))).proposed
    expect([crossed(0.49), crossed(0.51)]).toEqual([[0, 1], [0]])
  })

  it('lines without times are more than a day’s ride together beyond 600 km', () => {
    const both = (length: number) => arranged(line(north(0, length)), line(north(length, 2 * length))).question
    expect([both(298), both(302)]).toEqual([undefined, 'long'])
    expect(arranged(line(north(0, 610))).question).toBeUndefined()
  })

  it('another order must save 300 m', () => {
    /** From the end of the second 100 m to the beginning of the first; the other way round as much more. */
    const saved = (more: number) =>
      arranged(
        line([
          [10, 0.1],
          [0, 0.1 + more],
        ]),
        line(north(0, 10)),
      ).all
    expect([saved(0.29), saved(0.31)]).toEqual([
      [0, 1],
      [1, 0],
    ])
  })

  it('more than 60 lines are taken as they are', () => {
    const backward = (count: number) =>
      Array.from({ length: count }, (_, k) => line(north(0.2 * (count - k), 0.2 * (count - k) + 0.2)))
    // One of them twice, at the end of the file.
    const sixty = [...backward(59), backward(59)[20]!]
    const { all, question } = arranged(...sixty)
    expect([all.slice(0, 3), question]).toEqual([[58, 57, 56], 'variants'])
    const more = [...backward(60), backward(60)[20]!]
    expect(arranged(...more)).toMatchObject({ all: more.map((_, k) => k), question: undefined })
  })

  it('recordings are of other days from six hours on, and at once where one begins before another ends', () => {
    const timed = (...spans: [first: number, last: number][]) => {
      const { rides, proposed, question } = arrange(
        spans.map(([first, last], k) => {
          const road = line(north(20 * k, 20 * k + 20 + k))
          return { line: road, summary: { ...survey(road), times: { first, last } } }
        }),
      )
      return [question, rides.map(({ lines }) => lines), proposed.lines]
    }
    const hours = 3600
    expect(timed([0, 100], [100 + 6 * hours - 1, 90_000])).toEqual([undefined, [[0, 1]], [0, 1]])
    expect(timed([0, 100], [100 + 6 * hours, 90_000])).toEqual(['days', [[0], [1]], [1]])
    expect(timed([0, 100], [100, 200])).toEqual([undefined, [[0, 1]], [0, 1]])
    expect(timed([50, 150], [0, 51])).toEqual(['variants', [[0], [1]], [1]])
    // A day apart and a jump of more than 10 km: other days, whichever comes first.
    const far = (spans: [number, number][]) =>
      arrange(
        spans.map(([first, last], k) => {
          const road = line(north(50 * k, 50 * k + 20))
          return { line: road, summary: { ...survey(road), times: { first, last } } }
        }),
      ).question
    expect(
      far([
        [0, 100],
        [200, 300],
        [80_000, 90_000],
      ]),
    ).toBe('days')
    expect(
      far([
        [0, 100],
        [80_000, 90_000],
        [90_100, 90_200],
      ]),
    ).toBe('days')
    expect(
      far([
        [0, 100],
        [200, 300],
      ]),
    ).toBe('apart')
  })

  it('a route is taken where one alone is more than twice as long as all tracks together', () => {
    const route = (length: number) => line(north(0, length), { kind: 'route' })
    const tracks = [line(north(0, 10)), line(north(10, 20))]
    expect(arranged(...tracks, route(39.9), route(5)).all).toEqual([0, 1])
    expect(arranged(...tracks, route(40.1)).all).toEqual([2])
  })

  const isChoice = (...lines: Line[]) => arranged(...lines).question === 'variants'

  it('lines lead to the same place within 1 km, or a twentieth of the shorter', () => {
    /** Straight, and round over the west from a little aside to a little aside. */
    const ends = (length: number, start: number, end: number) =>
      isChoice(
        line([
          [0, start],
          [length / 2, -length],
          [length, end],
        ]),
        line(north(0, length)),
      )
    expect([ends(40, 0.95, 0.95), ends(40, 1.05, 0), ends(40, 0, 1.05)]).toEqual([true, false, false])
    expect([ends(10, 0.48, 0.48), ends(10, 0.52, 0), ends(10, 0, 0.52)]).toEqual([true, false, false])
  })

  it('lines go the same way with half of the shorter on the other, or a little beside', () => {
    const straight = line(north(0, 20))
    const turning = (at: number) =>
      line([
        [0, 0],
        [at, 0],
        [at, 20 - at],
      ])
    expect([9.2, 10.2].map((at) => isChoice(straight, turning(at)))).toEqual([false, true])
    const beside = (east: number) => isChoice(straight, line(north(5, 25, east)))
    expect([0.15, 0.7].map(beside)).toEqual([true, false])
    // Of a short one at fifty places: each 20 m.
    const short = (east: number) => isChoice(line(north(0, 1)), line(north(0.25, 1.25, east)))
    expect([0.03, 0.15].map(short)).toEqual([true, false])
    // Next to each other, one in bends of 27° to either side; and across.
    const bends = line(Array.from({ length: 201 }, (_, k) => [5 + k / 10, k % 2 === 0 ? 0 : 0.05] as const))
    expect(isChoice(straight, bends)).toBe(true)
    const across = line(Array.from({ length: 201 }, (_, k) => [10, k / 10 - 10] as const))
    expect(isChoice(straight, across)).toBe(false)
  })
})

describe('lines with odd points', () => {
  const without = (given: Line, change: (part: Line['parts'][number]) => void): Line => {
    const parts = given.parts.map((part) => ({
      ...part,
      latitude: part.latitude.slice(),
      longitude: part.longitude.slice(),
    }))
    parts.forEach(change)
    return { ...given, parts }
  }

  it('are compared all the same', () => {
    const straight = line(north(0, 20))
    // A point at latitude 0, longitude 0, one that is none, and one twice.
    const odd = without(line(north(5, 25)), ({ latitude, longitude }) => {
      latitude[50] = longitude[50] = 0
      latitude[90] = NaN
      latitude[120] = latitude[119]!
    })
    expect(arranged(straight, odd).question).toBe('variants')
    const elsewhere = without(line(north(5, 25, 3)), ({ latitude, longitude }) => {
      latitude[50] = longitude[50] = 0
    })
    expect(arranged(straight, elsewhere).question).not.toBe('variants')
  })

  it('that have no place are nowhere', () => {
    const none = without(line(north(0, 5)), ({ latitude }) => latitude.fill(NaN))
    expect(arranged(none, line(north(0, 20)))).toMatchObject({ proposed: [1], question: undefined })
    expect(arranged(none, none)).toMatchObject({ proposed: [0], question: undefined })
  })

  it('of several parts are compared part by part', () => {
    const [one, two] = [line(north(0, 6)), line(north(14, 20))]
    const both: Line = { ...one, parts: [...one.parts, ...two.parts] }
    expect(arranged(line(north(-3, 30)), both).question).toBe('variants')
    // What lies between its parts is no way of its own.
    expect(arranged(both, line(north(6.5, 13.5))).question).not.toBe('variants')
  })

  it('may lie over the antimeridian, and far north', () => {
    const moved = (given: Line, latitude: number, longitude: number) =>
      without(given, (part) => {
        part.latitude.forEach((at, i) => (part.latitude[i] = at - 41 + latitude))
        part.longitude.forEach((at, i) => (part.longitude[i] = ((at + 151 + longitude + 540) % 360) - 180))
      })
    const along = [
      [0, -5],
      [0, 15],
    ] as const
    const later = [
      [0, 0],
      [0, 20],
    ] as const
    for (const [latitude, longitude] of [
      [-17, 179.9],
      [69, 10],
    ] as const) {
      const isOne = arranged(moved(line(along), latitude, longitude), moved(line(later), latitude, longitude)).question
      expect(isOne, `${latitude}`).toBe('variants')
    }
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
