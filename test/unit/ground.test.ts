import { describe, expect, it } from 'vitest'
import { worldX, worldY } from '../../src/model/geo/mercator'
import { heightAt, pixelsAlong, pixelWidth, readGround, writeGround, type Ground } from '../../src/model/route/ground'
import { readRoute } from '../../src/model/route/read'
import { WHOLE_FILE, type RouteChoice } from '../../src/model/route/reading'
import { near } from '../asserts'
import { seeded } from '../bench/big-gpx'
import { groundOf, type Surface } from '../ground'

const across = 256 * 2 ** 12
/** North-east from 41 N, 151 W: 12 km of points about 130 m apart. */
const road = {
  latitude: Float64Array.from({ length: 90 }, (_, i) => 41 + i * 0.001),
  longitude: Float64Array.from({ length: 90 }, (_, i) => -151 + i * 0.0009),
}
/** Level planes of the square world, on which bilinear interpolation is exact. */
const plane: Surface = (latitude, longitude) =>
  400 + 3e6 * (worldX(longitude) - 0.08) - 2e6 * (worldY(latitude) - 0.375)

const gpx = (height: (i: number) => number | undefined, { latitude, longitude } = road) =>
  new TextEncoder().encode(
    `<gpx><trk><trkseg>${Array.from(latitude, (lat, i) => {
      const h = height(i)
      return `<trkpt lat="${lat}" lon="${longitude[i]!}">${h === undefined ? '' : `<ele>${h}</ele>`}</trkpt>`
    }).join('')}</trkseg></trk></gpx>`,
  )
const choice: RouteChoice = { ...WHOLE_FILE, ground: { key: 'a', from: 'land.pmtiles', attribution: 'Surveyors' } }

async function read(bytes: Uint8Array, ground: Ground | Uint8Array | undefined, chosen = choice) {
  const raw = ground === undefined || ground instanceof Uint8Array ? ground : writeGround(ground)
  const reading = await readRoute(bytes, 'a.gpx', chosen, undefined, raw)
  if (!reading.ok) throw new Error(reading.fault.code)
  return reading.route
}

describe('the ground', () => {
  it('is exact on a plane, anywhere on the way and between its pixels', () => {
    const ground = groundOf(plane, road, across)
    const random = seeded(5)
    for (let n = 0; n < 500; n++) {
      const at = random() * 89
      const [i, share] = [Math.floor(at), at % 1]
      const [latitude, longitude] = (['latitude', 'longitude'] as const).map(
        (key) => road[key][i]! * (1 - share) + road[key][i + 1]! * share,
      ) as [number, number]
      near(heightAt(ground, latitude, longitude), plane(latitude, longitude), 1e-4, `${latitude} ${longitude}`)
    }
  })

  it('is unknown where a pixel about it is, or none was taken', () => {
    const ground = groundOf(() => 100, road, across)
    expect(heightAt(ground, 41.02, -150.982)).toBe(100)
    expect(heightAt(ground, 41.02, -150.98)).toBeNaN()
    const holed = { ...ground, heights: ground.heights.map((height, i) => (i % 2 === 0 ? NaN : height)) }
    expect(heightAt(holed, 41.02, -150.982)).toBeNaN()
  })

  it('counts pixels as tiles do: by the published example of tile numbers, and round the world', () => {
    // Public wiki of slippy map tile names, figures from memory: zoom 18 at 35.6590699 N, 139.7006793 E is tile 232798, 103246.
    const tokyo = { latitude: Float64Array.of(35.6590699), longitude: Float64Array.of(139.7006793) }
    const [pixel] = pixelsAlong(tokyo, [{ first: 0, last: 0 }], 2 ** 18)
    const [row, column] = [Math.floor(pixel! / 2 ** 18), pixel! % 2 ** 18]
    // The place lies between the middles of the first pixel and the next ones.
    expect([232798 - column, 103246 - row].every((step) => step === 0 || step === 1)).toBe(true)
    const line = { latitude: Float64Array.of(0, 0), longitude: Float64Array.of(179.99, 180.01) }
    const columns = new Set(Array.from(pixelsAlong(line, [{ first: 0, last: 1 }], 2 ** 12), (pixel) => pixel % 2 ** 12))
    expect(columns).toEqual(new Set([2 ** 12 - 1, 0]))
  })

  it('has pixels as wide as published for web maps at the equator and at 60°', () => {
    // Resolution of zoom 0 and 15 at the equator with tiles of 256 pixels, m (public documentation of web map tiles, from memory).
    near(pixelWidth(256, 0), 156543.03, 0.01)
    near(pixelWidth(256 * 2 ** 15, 0), 4.777, 0.001)
    near(pixelWidth(256, 60), 156543.03 / 2, 0.01)
  })

  it('goes round as bytes, and what is none gives none', () => {
    const ground = groundOf(plane, road, across)
    const bytes = writeGround(ground)
    expect(readGround(bytes)).toEqual(ground)
    expect(bytes.length).toBeLessThan(8 * ground.pixels.length)
    for (const wrong of [
      new Uint8Array(0),
      bytes.subarray(0, bytes.length - 1),
      Uint8Array.from([...bytes, 0]),
      Uint8Array.from(bytes, (byte, i) => (i === 0 ? 9 : byte)),
      Uint8Array.from(bytes, (byte, i) => (i >= 1 && i < 9 ? 255 : byte)),
      Uint8Array.from(bytes, (byte, i) => (i === 12 ? 255 : byte)),
      Uint8Array.from(bytes, (byte, i) => (i === 14 ? 0 : byte)),
    ])
      expect(readGround(wrong)).toBeUndefined()
  })
})

describe('a route without elevation', () => {
  it('lies on the ground that was brought: gradients of a plane within 0.01 %, its ascent to the metre', async () => {
    const flat = await read(
      gpx(() => undefined),
      undefined,
      WHOLE_FILE,
    )
    expect([flat.elevationKnown, flat.ascent, flat.fromGround]).toEqual(['none', 0, 0])
    expect(flat.lacking).toEqual([{ first: 0, last: 89 }])
    const route = await read(
      gpx(() => undefined),
      groundOf(plane, road, across),
    )
    expect(route.elevationKnown).toBe('all')
    near(route.fromGround, route.length, 1e-6)
    const [from, to] = [plane(road.latitude[0]!, road.longitude[0]!), plane(road.latitude[89]!, road.longitude[89]!)]
    near(route.ascent - route.descent, to - from, 0.2)
    near(route.stations.elevation.at(-1)!, to, 0.2)
    expect(route.notes).toContainEqual({
      code: 'ground',
      length: route.fromGround,
      from: 'land.pmtiles',
      attribution: 'Surveyors',
    })
  })

  it('climbs the hills between its points: a sine of 60 m over 2 km, at points 2 km apart', async () => {
    const far = {
      latitude: Float64Array.from({ length: 11 }, (_, i) => 41 + i * 0.018),
      longitude: new Float64Array(11).fill(-151),
    }
    // A wave for each step from point to point: at the points themselves the land is level.
    const hills: Surface = (latitude) => 200 + 60 * Math.sin((2 * Math.PI * (latitude - 41)) / 0.018)
    const route = await read(
      gpx(() => undefined, far),
      groundOf(hills, far, across),
    )
    near(route.ascent, 10 * 120, 12)
    near(Math.max(...route.stations.elevation), 260, 1)
  })

  it('says what is still unknown, and where the ground is lost', async () => {
    const ground = groundOf(plane, road, across)
    const rest = {
      ...ground,
      heights: ground.heights.map((height, i) => (i < ground.heights.length / 2 ? NaN : height)),
    }
    const route = await read(
      gpx(() => undefined),
      rest,
    )
    expect(route.elevationKnown).toBe('part')
    expect(route.notes.map(({ code }) => code)).toEqual(expect.arrayContaining(['ground', 'elevationMissing']))
    expect(route.fromGround).toBeGreaterThan(0.4 * route.length)
    expect(route.fromGround).toBeLessThan(0.6 * route.length)
    for (const none of [undefined, new Uint8Array(3)]) {
      const lost = await read(
        gpx(() => undefined),
        none,
      )
      expect(lost.elevationKnown).toBe('none')
      expect(lost.notes.map(({ code }) => code)).toEqual(['groundLost', 'noElevation'])
    }
  })
})

describe('a route with elevation in parts', () => {
  const own = (i: number) => plane(road.latitude[i]!, road.longitude[i]!) + 25
  const ground = groundOf(plane, road, across)

  it('keeps what it has, and the ground meets it at both ends', async () => {
    const lacks = (i: number) => i >= 20 && i < 60
    const file = gpx((i) => (lacks(i) ? undefined : own(i)))
    const before = await read(file, undefined, WHOLE_FILE)
    expect(before.lacking).toEqual([{ first: 19, last: 60 }])
    expect(before.elevationKnown).toBe('part')
    const route = await read(file, ground)
    expect(route.elevationKnown).toBe('all')
    const whole = await read(gpx(own), undefined, WHOLE_FILE)
    whole.stations.elevation.forEach((height, i) => near(route.stations.elevation[i]!, height, 0.3, `station ${i}`))
    near(route.fromGround, route.points.distance[60]! - route.points.distance[19]!, 1e-6)
  })

  it('takes the ground at an open end as high as the elevation beside it says', async () => {
    const route = await read(
      gpx((i) => (i < 50 ? undefined : own(i))),
      ground,
    )
    near(route.stations.elevation[0]!, own(0), 0.5)
  })

  it('does without the ground where it has all, or short pieces only', async () => {
    const whole = await read(gpx(own), ground)
    expect(whole).toMatchObject({ fromGround: 0, lacking: [], notes: [] })
    const near100 = {
      latitude: Float64Array.from({ length: 200 }, (_, i) => 41 + i * 0.0002),
      longitude: new Float64Array(200).fill(-151),
    }
    const holed = await read(
      gpx((i) => (i % 4 === 0 ? 100 : undefined), near100),
      undefined,
      WHOLE_FILE,
    )
    expect(holed.lacking).toEqual([])
  })
})
