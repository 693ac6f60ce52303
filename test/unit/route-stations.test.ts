import { describe, expect, it } from 'vitest'
import { scaleAt } from '../../src/model/geo/scale'
import { buildRoute } from '../../src/model/route/build'
import { clean } from '../../src/model/route/clean'
import type { Part } from '../../src/model/route/parts'
import { penalties, smoothOver, weightsByLength } from '../../src/model/route/smooth'
import { near, within } from '../asserts'
import { normal, profiles, routeOf, straightRoad } from '../profiles'

const { north } = scaleAt(41)
/** Straight north from so many km on, m of height over it. */
const road = (from: number, count: number, height: (at: number) => number, step = 25): Part => {
  const part = straightRoad(
    Float64Array.from({ length: count }, (_, i) => height(i * step)),
    step,
  )
  return { ...part, latitude: part.latitude.map((degrees) => degrees + (1000 * from) / north) }
}
const noise = normal(4)
const rough = Array.from({ length: 400 }, () => 2 * noise())
const hills = (at: number) => profiles.rolling(at) + rough[Math.round(at / 25)]!

describe('stations of stretches', () => {
  const route = routeOf([road(0, 41, () => 10), road(20, 13, () => 10, 50 / 12), road(30, 81, () => 10)], [], 60)

  it('lie evenly on each from its first point to its last, and not between', () => {
    expect(route.sections).toEqual([
      { first: 0, last: 17, firstPoint: 0, lastPoint: 40 },
      { first: 18, last: 19, firstPoint: 41, lastPoint: 53 },
      { first: 20, last: 53, firstPoint: 54, lastPoint: 134 },
    ])
    const { distance, latitude, longitude } = route.stations
    expect(distance.length).toBe(54)
    const at = (station: number) => [distance[station]!, (latitude[station]! - 41) * north]
    for (const [station, ridden, metres] of [
      [0, 0, 0],
      [1, 1000 / 17, 1000 / 17],
      [17, 1000, 1000],
      [18, 1000, 20_000],
      [19, 1050, 20_050],
      [20, 1050, 30_000],
      [21, 1050 + 2000 / 33, 30_000 + 2000 / 33],
      [53, 3050, 32_000],
    ] as const) {
      near(at(station)[0]!, ridden, 0.3, `ridden distance of station ${station}`)
      within(at(station)[1]! || 1, metres || 1, 1e-6, `place of station ${station}`)
    }
    expect(longitude.every((east) => east === -151)).toBe(true)
    expect(distance[17]).toBe(distance[18])
    expect(route.crossings.map(({ after }) => after)).toEqual([0, 1])
  })

  it('have no gradient over what lies between, and the heading before it', () => {
    const up = routeOf([road(0, 41, (at) => 0.05 * at), road(20, 41, (at) => 300 - 0.03 * at)])
    const { gradient, heading, elevation } = up.stations
    const { last } = up.sections[0]!
    expect([gradient[last], gradient.at(-1)]).toEqual([0, 0])
    near(gradient[last - 1]!, 0.05, 1e-6)
    near(gradient[last + 1]!, -0.03, 1e-6)
    expect([heading[last], heading.at(-1)]).toEqual([heading[last - 1], heading.at(-2)])
    near(elevation[last]!, 50, 1e-6)
    near(elevation[last + 1]!, 300, 1e-6)
    near(up.ascent, 50, 1e-4)
    near(up.descent, 30, 1e-4)
  })
})

describe('elevations of stretches', () => {
  it('are smoothed as much whatever the way rises where it is not ridden', () => {
    const made = (rise: number) =>
      routeOf([road(0, 400, hills), road(40, 400, (at) => hills(at) + rise), road(80, 400, hills)])
    const [level, high] = [made(0), made(500)]
    within(high.smoothingWavelength, level.smoothingWavelength, 1e-9)
    const { first, last } = level.sections[1]!
    level.stations.elevation.forEach((height, i) => {
      near(high.stations.elevation[i]!, height + (i >= first && i <= last ? 500 : 0), 1e-6)
    })
    near(high.ascent, level.ascent, 1e-6)
  })

  it('have half the difference between the climbs by half and by twice the wavelength as spread', () => {
    const part = road(0, 400, hills)
    const route = routeOf([part])
    const at = clean([part], []).distance
    const { length, smoothingWavelength } = route
    const grid = { nodes: Math.round(length / 10) + 1, spacing: length / Math.round(length / 10) }
    const climb = (wavelength: number) => {
      const observed = { at, value: part.elevation, weight: weightsByLength(at, grid.spacing) }
      const line = smoothOver(observed, grid, penalties(grid, wavelength))
      return line.subarray(1).reduce((sum, height, i) => sum + Math.max(0, height - line[i]!), 0)
    }
    const spread = (climb(smoothingWavelength / 2) - climb(2 * smoothingWavelength)) / 2
    expect(spread).toBeGreaterThan(2)
    within(route.ascentSpread, spread, 0.01)
    // Twice of it is twice as much.
    within(routeOf([part, road(40, 400, hills)]).ascentSpread, 2 * spread, 0.2)
  })

  it('are 0 where none are known', () => {
    const { stations, smoothingWavelength, ascentSpread, elevationKnown } = routeOf([road(0, 50, () => NaN)])
    expect([smoothingWavelength, ascentSpread, elevationKnown]).toEqual([0, 0, 'none'])
    for (const column of [stations.elevation, stations.gradient])
      expect(column.every((value) => value === 0)).toBe(true)
  })
})

describe('a route', () => {
  it('says what it was made with, and how far along its waypoints are', () => {
    const part = road(0, 101, () => 10)
    part.time.forEach((_, i) => (part.time[i] = 1_800_000_000 + 5 * i))
    const cleaned = clean([part], [])
    const waypoints = [700, 5000].map((metres) => ({
      name: `${metres}`,
      latitude: 41 + metres / north,
      longitude: -151,
    }))
    const notes = [{ code: 'linesLeft', count: 2 } as const]
    const route = buildRoute('Way', cleaned, waypoints, notes)
    expect(route.waypoints.map(({ name, distance }) => [name, distance && Math.round(distance)])).toEqual([
      ['700', 700],
      ['5000', undefined],
    ])
    expect([route.name, route.notes, route.recordedTime, route.counts]).toEqual(['Way', notes, 500, cleaned.counts])
    expect(route.points).toEqual({
      latitude: cleaned.latitude,
      longitude: cleaned.longitude,
      distance: cleaned.distance,
    })
    expect(route.stations.distance.length).toBe(251)
  })

  it('that is shorter than its spacing has two stations', () => {
    const { stations } = routeOf([road(0, 2, () => 10)], [], 100)
    expect([...stations.distance].map(Math.round)).toEqual([0, 25])
  })

  it('is as curved as its sharpest a third of a step about each station', () => {
    // Twelve corners of 90° at 100 m, of which stations of 30 m see each at most a third of a step off.
    let [x, y] = [0, 0]
    const [latitude, longitude] = [[41], [-151]]
    const { east } = scaleAt(41)
    for (let leg = 0; leg < 12; leg++)
      for (let k = 0; k < 20; k++) {
        if (leg % 2 === 0) x += 5
        else y += 5
        latitude.push(41 + y / north)
        longitude.push(-151 + x / east)
      }
    const column = new Float64Array(latitude.length)
    const part = {
      latitude: Float64Array.from(latitude),
      longitude: Float64Array.from(longitude),
      elevation: column,
      time: column.map(() => NaN),
    }
    const sharpest = (spacing: number) => {
      const { stations } = routeOf([part], [], spacing)
      return Array.from({ length: 11 }, (_, k) => {
        const about = stations.curvature.filter(
          (_, i) => Math.abs(stations.distance[i]! - 100 * (k + 1)) <= spacing / 2 + 1,
        )
        return Math.max(...about)
      })
    }
    const fine = sharpest(2.5)
    const coarse = sharpest(20)
    coarse.forEach((curvature, k) => within(curvature, fine[k]!, 0.15, `corner ${k}`))
  })
})
