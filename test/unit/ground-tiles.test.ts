import { inflateSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { worldX, worldY } from '../../src/model/geo/mercator'
import { heightAt, pixelsAlong, type Lacking } from '../../src/model/route/ground'
import { readArea } from '../../src/work/area'
import { bringGround, GroundError, tilesFor, tilesOfFile, tilesOfServer, type TileReader } from '../../src/work/ground'
import { heightsOf } from '../../src/work/heights'
import { near } from '../asserts'
import { seeded } from '../bench/big-gpx'
import { heightArchive, heightTile, placeOf, type Surface, type Written } from '../ground'

const pixel = (...[red, green, blue, opacity = 255]: number[]) => heightsOf([red!, green!, blue!, opacity])?.[0]

describe('heights written as colours', () => {
  it('are by the published formulas of raster-dem: worked by hand', () => {
    // -10000 + (1·65536 + 134·256 + 160)·0.1 = 0, and 8,848.9 m; R·256 + G + B/256 - 32768.
    near(pixel(1, 134, 160)!, 0, 1e-3)
    near(pixel(2, 224, 73)!, 8848.9, 1e-3)
    near(pixel(1, 134, 161)!, 0.1, 1e-6)
    expect(pixel(128, 0, 0)).toBe(0)
    expect(pixel(162, 144, 230)).toBe(8848 + 230 / 256)
    expect(pixel(127, 80, 0)).toBe(-176)
  })

  it('are unknown where a pixel is transparent or black, and none where most are no heights', () => {
    expect(pixel(128, 0, 0, 0)).toBeNaN()
    expect(pixel(0, 0, 0)).toBeNaN()
    expect(pixel(200, 10, 10)).toBeUndefined()
    expect(pixel(0, 255, 0)).toBeUndefined()
    const [one, other] = heightsOf([128, 20, 0, 255, 250, 0, 0, 255])!
    expect([one, other]).toEqual([20, NaN])
  })
})

/** Reads the PNG files of test/ground.ts without a browser. */
const reader = (): TileReader => ({
  close: () => undefined,
  read: (bytes) => {
    const file = Buffer.from(bytes)
    const size = file.readUInt32BE(16)
    const lines = inflateSync(file.subarray(41, 41 + file.readUInt32BE(33)))
    const rgba = Buffer.concat(
      Array.from({ length: size }, (_, row) => lines.subarray(row * (4 * size + 1) + 1, (row + 1) * (4 * size + 1))),
    )
    const heights = heightsOf(rgba)
    return Promise.resolve(heights === undefined ? { code: 'noHeights' } : { size, heights })
  },
})
const plane: Surface = (latitude, longitude) =>
  400 + 3e6 * (worldX(longitude) - 0.08) - 2e6 * (worldY(latitude) - 0.375)
const points = {
  latitude: Float64Array.from({ length: 200 }, (_, i) => 41 + i * 0.0006),
  longitude: Float64Array.from({ length: 200 }, (_, i) => -151 + i * 0.0007),
  distance: Float64Array.from({ length: 200 }, (_, i) => i * 89),
}
const lacking: Lacking[] = [{ first: 0, last: 199 }]
const route = { points, lacking }
const bounds = [-151.01, 40.99, -150.85, 41.13] as const
const still = new AbortController().signal

describe('the tiles of a route', () => {
  it('have pixels of 15 to 30 m, and no more than 400 are asked for', () => {
    const any = { minZoom: 0, maxZoom: 14 }
    // 156,543 m · cos 41.1° / 2^12 = 28.8 m.
    expect(tilesFor(route, any)).toMatchObject({ zoom: 12, width: expect.closeTo(28.78, 1) as number })
    expect(tilesFor(route, any).tiles.length).toBeLessThan(20)
    expect(tilesFor(route, { minZoom: 0, maxZoom: 10 }).zoom).toBe(10)
    const equator = { ...points, latitude: points.latitude.map((latitude) => latitude - 41) }
    expect(tilesFor({ points: equator, lacking }, any).zoom).toBe(13)
    const long = { ...points, longitude: points.longitude.map((_, i) => -151 + i * 0.3) }
    const many = tilesFor({ points: long, lacking }, any)
    expect(many.tiles.length).toBeLessThanOrEqual(400)
    expect(tilesFor({ points: long, lacking }, { minZoom: many.zoom + 1, maxZoom: 14 }).tiles.length).toBeGreaterThan(
      400,
    )
  })

  it('are those of all pixels that the way touches, and none else', () => {
    const random = seeded(11)
    for (let n = 0; n < 20; n++) {
      const walk = (from: number, step: number) => {
        let at = from
        return Float64Array.from({ length: 40 }, () => (at += step * (random() - 0.5)))
      }
      const way = { latitude: walk(41, 0.05), longitude: walk(-151, 0.05), distance: points.distance.subarray(0, 40) }
      const pieces = [{ first: 0, last: 39 }]
      const { zoom, tiles } = tilesFor({ points: way, lacking: pieces }, { minZoom: 12, maxZoom: 12 })
      const across = 256 * 2 ** zoom
      const needed = Array.from(pixelsAlong(way, pieces, across), (pixel) => [
        Math.floor((pixel % across) / 256),
        Math.floor(pixel / across / 256),
      ])
      expect(new Set(tiles.map(({ x, y }) => `${x} ${y}`))).toEqual(new Set(needed.map((tile) => tile.join(' '))))
    }
  })

  it('are only those of the pieces without elevation', () => {
    const piece = tilesFor({ points, lacking: [{ first: 100, last: 110 }] }, { minZoom: 0, maxZoom: 14 })
    expect(piece.tiles.length).toBeLessThanOrEqual(2)
    const { latitude, longitude } = placeOf(256 * 2 ** 12, piece.tiles[0]!.x * 256, piece.tiles[0]!.y * 256)
    // The tile's north-west corner: the piece lies south-east of it, within a tile of 0.088°.
    expect(longitude).toBeLessThan(points.longitude[110]!)
    expect(longitude).toBeGreaterThan(points.longitude[100]! - 0.1)
    expect(latitude).toBeGreaterThan(points.latitude[100]!)
  })

  it.each<[Written, number]>([
    ['tenths', 0.051],
    ['parts', 0.003],
  ])('give the heights of a plane, written in %s, as exactly as those are written', async (as, within) => {
    const file = new Blob([new Uint8Array(heightArchive(plane, bounds, 12, as))])
    const facts = await readArea(file)
    if ('code' in facts) throw new Error(facts.code)
    const told: string[] = []
    const tell = (done: number, of: number) => told.push(`${done}/${of}`)
    const { ground, missing, tiles } = await bringGround(route, tilesOfFile(file, facts), still, tell, reader)
    expect(missing).toBe(0)
    expect([told[0], told.at(-1)]).toEqual([`0/${tiles}`, `${tiles}/${tiles}`])
    for (let i = 0; i < 200; i++) {
      const [latitude, longitude] = [points.latitude[i]!, points.longitude[i]!]
      near(heightAt(ground, latitude, longitude), plane(latitude, longitude), within, `point ${i}`)
    }
  })

  it('may be of 512 pixels, and may be missing here and there', async () => {
    const asked: string[] = []
    const store = {
      ...{ minZoom: 12, maxZoom: 12, isUnsure: false },
      tile: (z: number, x: number, y: number) => {
        asked.push(`${z}/${x}/${y}`)
        return Promise.resolve(
          asked.length === 3 ? undefined : new Uint8Array(heightTile(plane, [z, x, y], 'tenths', 512)).buffer,
        )
      },
    }
    const { ground, missing } = await bringGround(route, store, still, () => undefined, reader)
    expect([ground.across, missing]).toEqual([512 * 2 ** 12, 1])
    const known = Array.from(points.latitude, (latitude, i) => heightAt(ground, latitude, points.longitude[i]!))
    const misses = known.filter(Number.isNaN).length
    expect(misses).toBeGreaterThan(5)
    expect(misses).toBeLessThan(100)
    known.forEach((h, i) => Number.isNaN(h) || near(h, plane(points.latitude[i]!, points.longitude[i]!), 0.051))
  })

  it('are asked for coarser where a server has none so fine', async () => {
    const zooms: number[] = []
    const store = {
      ...{ minZoom: 0, maxZoom: 14, isUnsure: true },
      tile: (z: number, x: number, y: number) => {
        zooms.push(z)
        return Promise.resolve(z > 10 ? undefined : new Uint8Array(heightTile(plane, [z, x, y], 'parts')).buffer)
      },
    }
    const { ground } = await bringGround(route, store, still, () => undefined, reader)
    expect(ground.across).toBe(256 * 2 ** 10)
    expect(zooms.slice(0, 7)).toEqual([12, 12, 12, 11, 11, 11, 10])
  })

  it('are refused where none is there, or they are pictures of something else; and can be left off', async () => {
    const store = (tile: () => Promise<ArrayBuffer | undefined>) => ({
      ...{ minZoom: 12, maxZoom: 12, isUnsure: false },
      tile,
    })
    const bring = (tile: () => Promise<ArrayBuffer | undefined>, signal = still) =>
      bringGround(route, store(tile), signal, () => undefined, reader)
    await expect(bring(() => Promise.resolve(undefined))).rejects.toMatchObject({ fault: { code: 'noTiles' } })
    const photo = new Uint8Array(heightTile(() => 20_000, [12, 0, 0], 'parts')).buffer
    await expect(bring(() => Promise.resolve(photo))).rejects.toThrow(GroundError)
    const stop = new AbortController()
    const tile = new Uint8Array(heightTile(() => 100, [12, 0, 0], 'parts')).buffer
    let asked = 0
    const bringing = bring(() => {
      if (++asked === 2) stop.abort()
      return Promise.resolve(tile)
    }, stop.signal)
    await expect(bringing).rejects.toMatchObject({ name: 'AbortError' })
    expect(asked).toBe(4)
  })
})

describe('tiles of a server', () => {
  const answer = async (status: number) => {
    const before = globalThis.fetch
    globalThis.fetch = () => Promise.resolve(new Response(status === 204 ? null : 'x', { status }))
    try {
      return await tilesOfServer((z, x, y) => `https://heights.example.test/${z}/${x}/${y}`).tile(1, 0, 1, still)
    } finally {
      globalThis.fetch = before
    }
  }
  it('are missing by the status that says so, and refused by any other', async () => {
    expect((await answer(200))?.byteLength).toBe(1)
    for (const status of [204, 404, 410]) expect(await answer(status)).toBeUndefined()
    await expect(answer(403)).rejects.toMatchObject({ fault: { code: 'refused', status: 403 } })
  })
})
