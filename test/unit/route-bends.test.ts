import { describe, expect, it } from 'vitest'
import { defaultPlan } from '../../src/model/plan/defaults'
import { scaleAt } from '../../src/model/geo/scale'
import { simulate } from '../../src/model/forecast/simulate'
import type { Part } from '../../src/model/route/parts'
import type { Route } from '../../src/model/route/route'
import { near, within } from '../asserts'
import { normal, routeOf } from '../profiles'

const { north, east } = scaleAt(41)

/** A straight, or an arc to the left of so many m radius (to the right where negative), of a length in m. */
interface Piece {
  length: number
  radius?: number
}

/** How far points lie beside the road: normal, with a standard deviation in m, correlated over a length in m; white where that is 0. */
interface Jitter {
  deviation: number
  over: number
  seed: number
}

const exact: Jitter = { deviation: 0, over: 0, seed: 1 }

/** Points at even steps of a road made of pieces, falling evenly. */
function recordingOf(pieces: readonly Piece[], step: number, jitter: Jitter = exact, slope = 0): Part {
  const noise = normal(jitter.seed)
  const keep = jitter.over === 0 ? 0 : Math.exp(-step / jitter.over)
  const fresh = jitter.deviation * Math.sqrt(1 - keep * keep)
  const off = [jitter.deviation * noise(), jitter.deviation * noise()] as [number, number]
  const columns = { latitude: [] as number[], longitude: [] as number[], elevation: [] as number[] }
  let [x, y, heading, way, next] = [0, 0, 0, 0, 0]
  const tiny = 0.25
  for (const { length, radius } of pieces) {
    const parts = Math.round(length / tiny)
    for (let k = 0; k < parts; k++) {
      if (way >= next) {
        off[0] = keep * off[0] + fresh * noise()
        off[1] = keep * off[1] + fresh * noise()
        columns.latitude.push(41 + (y + off[1]) / north)
        columns.longitude.push(-151 + (x + off[0]) / east)
        columns.elevation.push(900 + slope * way)
        next += step
      }
      const turn = radius === undefined ? 0 : length / parts / radius
      x += (length / parts) * Math.cos(heading + turn / 2)
      y += (length / parts) * Math.sin(heading + turn / 2)
      heading += turn
      way += length / parts
    }
  }
  return {
    latitude: Float64Array.from(columns.latitude),
    longitude: Float64Array.from(columns.longitude),
    elevation: Float64Array.from(columns.elevation),
    time: new Float64Array(columns.latitude.length).fill(NaN),
  }
}

/** Legs of 150 m with half a circle between them, to either side in turn. */
const zigzag = (radius: number): Piece[] =>
  Array.from({ length: 40 }, (_, k) => [
    { length: 150 },
    { length: Math.PI * radius, radius: k % 2 === 0 ? radius : -radius },
  ]).flat()

/** Blocks of 120 m with a corner of 6 m radius after each, as a town has them. */
const town: Piece[] = Array.from({ length: 60 }, (_, k) => [
  { length: 120 },
  { length: 3 * Math.PI, radius: k % 4 < 2 ? 6 : -6 },
]).flat()

const straight: Piece[] = [{ length: 10_000 }]
/** Bends of 150 m radius, which no rider brakes for. */
const gentle: Piece[] = Array.from({ length: 50 }, (_, k) => ({ length: 200, radius: k % 2 === 0 ? 150 : -150 }))

function ridingTime(route: Route, lateralAcceleration?: number): number {
  const plan = defaultPlan()
  plan.stops = []
  if (lateralAcceleration !== undefined) plan.bike.lateralAcceleration = lateralAcceleration
  return simulate(route, plan).columns.ridingTime.at(-1)!
}

/** Share of the riding time that bends add. */
const addedBy = (route: Route) => ridingTime(route) / ridingTime(route, 1e6) - 1

/** Median of the speeds, m/s, that 2.2 m/s² allows in the arcs of a road of straights and arcs in turn. */
function middleSpeed({ stations, length }: Route, road: readonly Piece[]): number {
  const stretch = length / road.reduce((sum, piece) => sum + piece.length, 0)
  const speeds: number[] = []
  let way = 0
  for (const piece of road) {
    const middle = (way + piece.length / 2) * stretch
    way += piece.length
    if (piece.radius === undefined) continue
    const about = stations.curvature.filter((_, i) => Math.abs(stations.distance[i]! - middle) < 40)
    speeds.push(Math.sqrt(2.2 / Math.max(...about)))
  }
  return speeds.sort((a, b) => a - b)[speeds.length >> 1]!
}

describe('jitter of a recording', () => {
  for (const [name, road] of [
    ['a straight road', straight],
    ['a road of gentle bends', gentle],
  ] as const) {
    for (const slope of [0, -0.04]) {
      for (const [deviation, over, step] of [
        [2, 0, 5],
        [3, 0, 5],
        [5, 0, 5],
        [5, 0, 20],
        [2, 60, 6],
        [3, 60, 3],
        [5, 60, 6],
        [5, 200, 6],
        [5, 200, 18],
      ] as const) {
        // prettier-ignore
        it(`of ${deviation} m, ${over === 0 ? 'white' : `correlated over ${over} m`}, every ${step} m adds under 3 % to ${name}, ${100 * slope} %`, () => {
          const route = routeOf([recordingOf(road, step, { deviation, over, seed: 3 + step }, slope)])
          expect(addedBy(route)).toBeLessThan(0.03)
        })
      }
    }
  }

  it('leaves the corners of a town: they add time, and jitter of 2 m lets the middle one be taken no more than 20 % faster', () => {
    const exactly = routeOf([recordingOf(town, 4)])
    expect(addedBy(exactly)).toBeGreaterThan(0.03)
    const jittered = routeOf([recordingOf(town, 4, { deviation: 2, over: 150, seed: 5 })])
    within(middleSpeed(jittered, town), middleSpeed(exactly, town), 0.2)
  })

  it('leaves hairpins: the middle one within 10 % of its speed', () => {
    for (const radius of [10, 15, 20]) {
      for (const [deviation, over] of [
        [0, 0],
        [1, 60],
        [2, 150],
        [3, 150],
      ] as const) {
        const route = routeOf([recordingOf(zigzag(radius), 5, { deviation, over, seed: 7 })])
        within(
          middleSpeed(route, zigzag(radius)),
          Math.sqrt(2.2 * radius),
          0.1,
          `${radius} m, jitter of ${deviation} m`,
        )
      }
    }
  })
})

describe('stations of 5 and 2.5 m', () => {
  it('give the riding time of those of 10 m within 0.3 %, with corners, hairpins and jitter', () => {
    for (const road of [town, zigzag(12)]) {
      for (const jitter of [exact, { deviation: 2, over: 100, seed: 9 }]) {
        const part = recordingOf(road, 5, jitter)
        const time = ridingTime(routeOf([part]))
        for (const spacing of [5, 2.5]) within(ridingTime(routeOf([part], [], spacing)), time, 0.003, `${spacing} m`)
      }
    }
  })
})

describe('turning round on the spot', () => {
  it('is a turn over 15 m, half a circle of 5 m radius', () => {
    const out = recordingOf([{ length: 400 }], 5)
    const back = (column: Float64Array) => Float64Array.from([...column, ...column.slice(0, -1).reverse()])
    const { curvature } = routeOf([
      {
        latitude: back(out.latitude),
        longitude: back(out.longitude),
        elevation: back(out.elevation),
        time: back(out.time),
      },
    ]).stations
    near(Math.max(...curvature), Math.PI / 15, 0.03)
  })
})
