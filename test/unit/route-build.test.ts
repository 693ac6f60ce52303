import { describe, expect, it } from 'vitest'
import { nearestPlace } from '../../src/model/route/place'
import { scaleAt } from '../../src/model/geo/scale'
import { readRoute } from '../../src/model/route/read'
import type { Part } from '../../src/model/route/parts'
import { near, within } from '../asserts'
import { seeded } from '../bench/big-gpx'
import { normal, profiles, routeOf, straightRoad } from '../profiles'

const { north, east } = scaleAt(41)

/** Points of a path given in metres, at steps of a length. */
function along(path: (at: number) => [number, number], length: number, step: number): Part {
  const n = Math.floor(length / step) + 1
  const places = Array.from({ length: n }, (_, i) => path(i * step))
  return {
    latitude: Float64Array.from(places, ([, y]) => 41 + y / north),
    longitude: Float64Array.from(places, ([x]) => -151 + x / east),
    elevation: new Float64Array(n).fill(10),
    time: new Float64Array(n).fill(NaN),
  }
}

/** Straight, then a turn of half a circle to the left, then straight back. */
const hairpin =
  (radius: number) =>
  (at: number): [number, number] => {
    const turn = (at - 300) / radius
    if (turn < 0) return [at, 0]
    if (turn > Math.PI) return [300 - (at - 300 - Math.PI * radius), 2 * radius]
    return [300 + radius * Math.sin(turn), radius - radius * Math.cos(turn)]
  }

describe('stations', () => {
  const route = routeOf([
    straightRoad(
      Float64Array.from({ length: 300 }, (_, i) => profiles.rolling(i * 17)),
      17,
    ),
  ])
  const { stations } = route

  it('lie on an even grid near the asked spacing, from the first point to the last', () => {
    const last = stations.distance.length - 1
    expect(last).toBe(Math.round((299 * 17) / 10))
    const spacing = route.length / last
    stations.distance.forEach((d, i) => near(d, i * spacing, 1e-6))
    expect(stations.distance[last]).toBe(route.length)
    near(route.length, 299 * 17, 0.2)
    near(stations.latitude[last]!, route.points.latitude[299]!, 1e-12)
  })

  it('of half the spacing are twice as many, and give the same climb', () => {
    const fine = routeOf(
      [
        straightRoad(
          Float64Array.from({ length: 300 }, (_, i) => profiles.rolling(i * 17)),
          17,
        ),
      ],
      [],
      5,
    )
    expect(fine.stations.distance.length).toBe(Math.round((299 * 17) / 5) + 1)
    within(fine.ascent, route.ascent, 0.002)
  })

  it('are spread wider where there would be more than 400,000', () => {
    const long = routeOf([straightRoad(new Float64Array(6000).fill(5), 1000)])
    expect(long.length).toBeGreaterThan(5_000_000)
    expect(long.stations.distance.length).toBeLessThanOrEqual(400_001)
  })

  it('have the gradient and the heading of the step to the next', () => {
    for (let i = 0; i + 1 < stations.distance.length; i++) {
      const run = stations.distance[i + 1]! - stations.distance[i]!
      near(stations.gradient[i]! * run, stations.elevation[i + 1]! - stations.elevation[i]!, 1e-9)
      near(Math.sin(stations.heading[i]!), 0, 1e-6) // the smoother's rounding on a grid of 2.5 m
      near(Math.cos(stations.heading[i]!), 1, 1e-9)
    }
  })

  it('keep distance from the points, not from the smoothed path', () => {
    const part = along(hairpin(10), 600, 5)
    let length = 0
    for (let i = 1; i < part.latitude.length; i++) {
      const dx = (part.longitude[i]! - part.longitude[i - 1]!) * east
      const dy = (part.latitude[i]! - part.latitude[i - 1]!) * north
      length += Math.hypot(dx, dy)
    }
    within(routeOf([part]).length, length, 1e-5)
  })
})

describe('curvature', () => {
  for (const radius of [10, 20, 40]) {
    it(`of a hairpin of ${radius} m radius is roughly that of its circle, whatever the spacing of its points`, () => {
      for (const step of [3, 5, 8, 12]) {
        const { curvature } = routeOf([along(hairpin(radius), 600 + Math.PI * radius, step)]).stations
        within(1 / Math.max(...curvature), radius, 0.2, `points every ${step} m`)
      }
    })
  }

  /** Drift of a receiver: correlated over `seconds` at 6 m/s, in both directions. */
  function jittery(deviation: number, seconds: number, step: number, seed: number): Part {
    const noise = normal(seed)
    const keep = Math.exp(-step / 6 / seconds)
    const fresh = deviation * Math.sqrt(1 - keep * keep)
    let [x, y] = [deviation * noise(), deviation * noise()]
    return along(
      (at) => {
        x = keep * x + fresh * noise()
        y = keep * y + fresh * noise()
        return [at + x, y]
      },
      20_000,
      step,
    )
  }

  it('of a straight road under jitter of 3 m lets a rider go faster than 40 km/h at 2.2 m/s² nearly everywhere', () => {
    const sharpest = 2.2 / (40 / 3.6) ** 2
    for (const [seconds, step, seed] of [
      [30, 6, 1],
      [30, 3, 2],
      [60, 18, 3],
      [10, 6, 4],
    ] as const) {
      // prettier-ignore
      const { curvature } = routeOf([jittery(3, seconds, step, seed)]).stations
      const slow = curvature.filter((k) => k > sharpest).length
      expect(slow / curvature.length).toBeLessThan(0.005)
      expect(Math.max(...curvature)).toBeGreaterThan(0)
    }
  })
})

describe('the antimeridian', () => {
  it('makes no jump: longitudes are continuous', () => {
    const n = 200
    const part: Part = {
      latitude: new Float64Array(n).fill(-17),
      longitude: Float64Array.from({ length: n }, (_, i) => ((179.99 + i * 1e-4 + 180) % 360) - 180),
      elevation: new Float64Array(n).fill(3),
      time: new Float64Array(n).fill(NaN),
    }
    expect(part.longitude[n - 1]!).toBeLessThan(0)
    const route = routeOf([part])
    expect(route.sections.length).toBe(1)
    near(route.length, (n - 1) * 1e-4 * scaleAt(-17).east, 0.01)
    route.stations.heading.forEach((h) => near(h, Math.PI / 2, 1e-6))
  })
})

describe('waypoints', () => {
  it('lie at the ridden distance of the nearest place, or beside the route', async () => {
    const points = Array.from({ length: 100 }, (_, i) => `<trkpt lat="${41 + i * 1e-4}" lon="-151"/>`).join('')
    const text = `<gpx><wpt lat="41.005" lon="-150.9995"><name>Well</name></wpt><wpt lat="41.005" lon="-150.99"/><trk><trkseg>${points}</trkseg></trk></gpx>`
    const reading = await readRoute(new TextEncoder().encode(text), 'a.gpx')
    if (!reading.ok) throw new Error(reading.fault.code)
    const [well, far] = reading.route.waypoints
    expect(well!.name).toBe('Well')
    near(well!.distance!, 0.005 * scaleAt(41.0025).north, 0.01)
    expect(far!.distance).toBeUndefined()
  })

  it('agree with a search of the whole route, on a winding one of two sections', async () => {
    const random = seeded(9)
    const walk = (from: number) => {
      let [latitude, longitude, heading] = [from, -151, 0]
      return Array.from({ length: 900 }, () => {
        heading += random() - 0.5
        latitude += Math.cos(heading) * 2e-4
        longitude += Math.sin(heading) * 2e-4
        return `<trkpt lat="${latitude}" lon="${longitude}"/>`
      }).join('')
    }
    const places = Array.from({ length: 200 }, () => [41 + 0.2 * random(), -151 + 0.04 * (random() - 0.5)])
    const waypoints = places.map(([latitude, longitude]) => `<wpt lat="${latitude}" lon="${longitude}"/>`).join('')
    const text = `<gpx>${waypoints}<trk><trkseg>${walk(41)}</trkseg><trkseg>${walk(41.1)}</trkseg></trk></gpx>`
    const reading = await readRoute(new TextEncoder().encode(text), 'a.gpx')
    if (!reading.ok) throw new Error(reading.fault.code)
    const { route } = reading
    expect(route.sections.length).toBe(2)
    let beside = 0
    for (const { latitude, longitude, distance } of route.waypoints) {
      const place = nearestPlace(route, latitude, longitude)
      expect(distance !== undefined).toBe(place.offset <= 500)
      if (distance === undefined) continue
      near(distance, place.distance, 1e-6)
      beside++
    }
    expect(beside).toBeGreaterThan(10)
    expect(beside).toBeLessThan(200)
  })
})
