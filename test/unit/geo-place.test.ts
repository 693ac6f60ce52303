import { describe, expect, it } from 'vitest'
import { nearestPlace, type Placed, positionAt } from '../../src/model/route/place'
import { distance, scaleAt } from '../../src/model/geo/scale'
import { near } from '../asserts'
import { seeded } from '../bench/big-gpx'

const { north, east } = scaleAt(41)

/** Points given in metres east and north of 41 N, 151 W; sections by their numbers of points. */
function placed(metres: [number, number][], sizes = [metres.length]): Placed {
  const latitude = Float64Array.from(metres, ([, y]) => 41 + y / north)
  const longitude = Float64Array.from(metres, ([x]) => -151 + x / east)
  const along = new Float64Array(metres.length)
  const sections: Placed['sections'] = []
  let first = 0
  for (const size of sizes) {
    for (let i = first; i < first + size; i++) {
      const step = i === first ? 0 : distance(latitude[i - 1]!, longitude[i - 1]!, latitude[i]!, longitude[i]!)
      along[i] = (along[i - 1] ?? 0) + step
    }
    sections.push({ first, last: first + size - 1, firstPoint: first, lastPoint: first + size - 1 })
    first += size
  }
  return { points: { latitude, longitude, distance: along }, sections }
}

const at = (x: number, y: number) => [41 + y / north, -151 + x / east] as const

/** East for 1 km, then a loop that comes back across it at 500 m. */
const crossing = placed([
  [0, 0],
  [1000, 0],
  [1000, 500],
  [500, 500],
  [500, -500],
])

describe('nearestPlace', () => {
  it('finds the foot on a line and the offset', () => {
    const { distance: along, offset } = nearestPlace(crossing, ...at(250, 40))
    near(along, 250, 0.01)
    near(offset, 40, 0.01)
  })

  it('holds to the ends', () => {
    near(nearestPlace(crossing, ...at(-300, 0)).distance, 0, 0)
    near(nearestPlace(crossing, ...at(500, -900)).distance, 3000, 0.3)
  })

  it('finds the corner where no foot lies on either line', () => {
    near(nearestPlace(crossing, ...at(1030, -30)).distance, 1000, 0.01)
  })

  it('stays on its own pass of a route that crosses itself', () => {
    const first = nearestPlace(crossing, ...at(501, 10), { around: 480, reach: 300 })
    near(first.distance, 501, 0.01)
    const second = nearestPlace(crossing, ...at(510, 1), { around: 2480, reach: 300 })
    near(second.distance, 2499, 0.3)
    near(nearestPlace(crossing, ...at(510, 1)).distance, 510, 0.01)
  })

  it('goes no farther than the window reaches', () => {
    near(nearestPlace(crossing, ...at(900, 0), { around: 200, reach: 100 }).distance, 300, 1e-6)
    near(nearestPlace(crossing, ...at(100, 0), { around: 700, reach: 100 }).distance, 600, 1e-6)
    near(nearestPlace(crossing, ...at(100, 0), { around: -50, reach: 20 }).distance, 20, 1e-6)
    near(nearestPlace(crossing, ...at(100, 0), { around: 9000, reach: 100 }).distance, 2900, 0.3)
  })

  it('begins and ends in a window anywhere on the route, also on one of several sections', () => {
    near(nearestPlace(crossing, ...at(1000, 500), { around: 1200, reach: 50 }).distance, 1250, 0.01)
    near(nearestPlace(crossing, ...at(1000, 0), { around: 1200, reach: 50 }).distance, 1150, 0.01)
    const three = placed(
      [
        [0, 0],
        [100, 0],
        [100, 900],
        [0, 900],
        [0, 0],
        [100, 0],
      ],
      [2, 2, 2],
    )
    const on = (around: number, reach: number) => nearestPlace(three, ...at(50, 10), { around, reach }).distance
    near(on(20, 5), 25, 1e-6)
    near(on(50, 1000), 50, 1e-6)
    near(on(150, 49), 150, 0.05)
    near(on(120, 10), 130, 0.05)
    near(on(250, 20), 250, 0.05)
    near(on(280, 20), 260, 0.05)
    near(on(210, 20), 230, 0.05)
  })

  it('never lands on a crossing between sections', () => {
    const two = placed(
      [
        [0, 0],
        [100, 0],
        [5000, 0],
        [5100, 0],
      ],
      [2, 2],
    )
    const { distance: along, offset } = nearestPlace(two, ...at(2000, 0))
    near(along, 100, 1e-6)
    near(offset, 1900, 0.1)
    near(nearestPlace(two, ...at(5030, 5)).distance, 130, 0.01)
  })

  it('finds a place whatever turn its longitude is given in', () => {
    const [latitude, longitude] = at(250, 0)
    near(nearestPlace(crossing, latitude, longitude + 360).distance, 250, 0.01)
    near(nearestPlace(crossing, latitude, longitude - 720).distance, 250, 0.01)
  })

  it('agrees with a scan in steps of 1 m on a random walk (seed 5)', () => {
    const random = seeded(5)
    let [x, y] = [0, 0]
    const walk = placed(
      Array.from({ length: 60 }, () => [(x += 60 * random() - 20), (y += 60 * random() - 30)] as [number, number]),
    )
    const length = walk.points.distance[59]!
    for (let k = 0; k < 40; k++) {
      const [latitude, longitude] = at(x * random(), 200 * (random() - 0.5))
      let least = Infinity
      for (let d = 0; d <= length; d += 1) {
        const place = positionAt(walk, d)
        least = Math.min(least, distance(latitude, longitude, place.latitude, place.longitude))
      }
      const { distance: along, offset } = nearestPlace(walk, latitude, longitude)
      expect(offset).toBeLessThanOrEqual(least + 1e-3)
      near(offset, least, 0.6)
      const place = positionAt(walk, along)
      near(distance(latitude, longitude, place.latitude, place.longitude), offset, 1e-3)
    }
  })
})

describe('positionAt', () => {
  it('lies on the line between points', () => {
    const place = positionAt(crossing, 250)
    near((place.longitude + 151) * east, 250, 0.01)
    near(place.latitude, 41, 1e-9)
  })

  it('holds to the ends', () => {
    expect(positionAt(crossing, -5)).toEqual({ latitude: 41, longitude: -151 })
    near(positionAt(crossing, 1e9).latitude, 41 - 500 / north, 1e-12)
  })

  it('is one of two points at one place', () => {
    const twice = placed([
      [0, 0],
      [0, 0],
      [100, 0],
    ])
    expect(positionAt(twice, 0)).toEqual({ latitude: 41, longitude: -151 })
  })

  it('is the end before a crossing, and goes on behind it', () => {
    const two = placed(
      [
        [0, 0],
        [100, 0],
        [5000, 0],
        [5100, 0],
      ],
      [2, 2],
    )
    const end = two.points.distance[1]!
    near((positionAt(two, end).longitude + 151) * east, 100, 1e-6)
    near((positionAt(two, end + 10).longitude + 151) * east, 5010, 0.01)
  })
})
