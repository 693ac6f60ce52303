import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { thinned, Waypoints } from '../../src/view/map/waypoints'
import { worldOf } from '../../src/model/geo/mercator'
import { courseRoute } from '../routes'
import { seeded } from '../bench/big-gpx'

const worldWidth = (zoom: number) => 256 * 2 ** zoom

describe('thinned places', () => {
  it('are apart, and each that is left out lies on an earlier one that is not', () => {
    const place = fc.tuple(fc.double({ min: -3, max: 3, noNaN: true }), fc.double({ min: -3, max: 3, noNaN: true }))
    fc.assert(
      fc.property(
        fc.array(place, { maxLength: 80 }),
        fc.double({ min: 0.05, max: 2, noNaN: true }),
        (places, apart) => {
          const world = { x: Float64Array.from(places, ([x]) => x), y: Float64Array.from(places, ([, y]) => y) }
          const kept = thinned(world, apart)
          const between = (i: number, k: number) => Math.hypot(world.x[i]! - world.x[k]!, world.y[i]! - world.y[k]!)
          for (const i of kept) for (const k of kept) if (i !== k) expect(between(i, k)).toBeGreaterThanOrEqual(apart)
          for (let i = 0; i < places.length; i++)
            expect(kept.some((k) => k <= i && (k === i || between(i, k) < apart))).toBe(true)
        },
      ),
      { seed: 7, numRuns: 300 },
    )
  })
})

describe('waypoints in view', () => {
  const random = seeded(3)
  const route = {
    ...courseRoute({ length: 1000 }),
    waypoints: Array.from({ length: 20_000 }, (_, i) => ({
      name: `Place ${i}`,
      latitude: 41 + random() / 50,
      longitude: -151 + 3 * random(),
      distance: undefined,
    })),
  }
  const all = new Waypoints()
  all.setRoute(route)
  const { x, y } = worldOf(
    Float64Array.from(route.waypoints, ({ latitude }) => latitude),
    Float64Array.from(route.waypoints, ({ longitude }) => longitude),
  )
  /** A map of 1,100 by 400 px with a place in its middle. */
  const shownAt = (place: number, zoom: number) => {
    const [across, down] = [x[place]! * worldWidth(zoom), y[place]! * worldWidth(zoom)]
    return all.inView(worldWidth(zoom), {
      left: across - 550,
      right: across + 550,
      top: down - 200,
      bottom: down + 200,
    })
  }

  it('are few at every zoom, of however many', () => {
    for (let zoom = 2; zoom <= 19; zoom += 1)
      for (const place of [0, 5000, 19_999]) expect(shownAt(place, zoom).length).toBeLessThan(300)
  })

  it('are all reached by zooming in, but for those that lie on another', () => {
    const apart = 60 / worldWidth(19)
    const free = new Set(thinned({ x, y }, apart))
    expect(free.size).toBeGreaterThan(19_000)
    for (let i = 0; i < route.waypoints.length; i += 101)
      expect(shownAt(i, 19).some(({ key }) => key === `waypoint-${i}`)).toBe(free.has(i))
  })

  it('stay as the map is moved', () => {
    const zoom = 10
    const [across, down] = [x[0]! * worldWidth(zoom), y[0]! * worldWidth(zoom)]
    const part = { left: across - 550, right: across + 550, top: down - 200, bottom: down + 200 }
    const east = across + 550
    const seen = (shift: number, from: number, to: number) =>
      all
        .inView(worldWidth(zoom), { ...part, left: part.left + shift, right: part.right + shift })
        .map(({ key }) => Number(key.slice('waypoint-'.length)))
        .filter((i) => x[i]! * worldWidth(zoom) >= from && x[i]! * worldWidth(zoom) <= to)
    const both = seen(0, part.left + 101, east)
    expect(both.length).toBeGreaterThan(5)
    expect(seen(101, part.left + 101, east)).toEqual(both)
  })
})
