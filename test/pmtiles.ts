import { readFileSync } from 'node:fs'
import { gzipSync } from 'node:zlib'
import GeoJSONVT from 'geojson-vt'
import { fromGeojsonVt } from '@maplibre/vt-pbf'
import { zxyToTileId } from 'pmtiles'
import type { FeatureCollection } from 'geojson'

/** PMTiles of version 3 by its public specification: a header of 127 bytes, one directory, metadata, tiles; all but pictures gzipped. */
interface Tile {
  z: number
  x: number
  y: number
  bytes: Uint8Array
}

export interface Archive {
  tiles: readonly Tile[]
  /** 1: vector tiles, 2: PNG. */
  type: 1 | 2
  /** West, south, east, north, degrees. */
  bounds: readonly [number, number, number, number]
  metadata: Record<string, unknown>
}

const headerLength = 127
const gzip = 2
const none = 1

export function writePmtiles({ tiles, type, bounds, metadata }: Archive): Buffer {
  const entries = tiles
    .map(({ z, x, y, bytes }) => ({ id: zxyToTileId(z, x, y), bytes: type === 1 ? gzipSync(bytes) : bytes }))
    .sort((one, other) => one.id - other.id)
  const directory = gzipSync(
    Buffer.from([
      ...varint(entries.length),
      ...entries.flatMap(({ id }, i) => varint(id - (entries[i - 1]?.id ?? 0))),
      ...entries.flatMap(() => varint(1)),
      ...entries.flatMap(({ bytes }) => varint(bytes.length)),
      // An offset of 0 stands for: behind the one before.
      ...entries.flatMap((_, i) => varint(i === 0 ? 1 : 0)),
    ]),
  )
  const json = gzipSync(JSON.stringify(metadata))
  const data = Buffer.concat(entries.map(({ bytes }) => bytes))
  const header = Buffer.alloc(headerLength)
  header.write('PMTiles', 0, 'latin1')
  header[7] = 3
  let offset = headerLength
  const part = (at: number, length: number) => {
    header.writeBigUInt64LE(BigInt(offset), at)
    header.writeBigUInt64LE(BigInt(length), at + 8)
    offset += length
  }
  part(8, directory.length)
  part(24, json.length)
  part(40, 0)
  part(56, data.length)
  for (const at of [72, 80, 88]) header.writeBigUInt64LE(BigInt(entries.length), at)
  const zooms = tiles.map(({ z }) => z)
  header.set([1, gzip, type === 1 ? gzip : none, type, Math.min(...zooms), Math.max(...zooms)], 96)
  bounds.forEach((degrees, i) => header.writeInt32LE(Math.round(degrees * 1e7), 102 + 4 * i))
  return Buffer.concat([header, directory, json, data])
}

function varint(value: number): number[] {
  const bytes: number[] = []
  for (; value > 127; value = Math.floor(value / 128)) bytes.push((value % 128) + 128)
  return [...bytes, value]
}

/** Where the invented islands lie: west, south, east, north, degrees. */
export const islands = [-152.3, 40.5, -150.8, 41.5] as const

/** The invented islands as vector tiles: land and places. */
export function islandTiles(maxZoom = 10): Buffer {
  const coast = JSON.parse(
    readFileSync(new URL('../sample-routes/coast.geojson', import.meta.url), 'utf8'),
  ) as FeatureCollection
  const layer = (isOf: (type: string) => boolean) =>
    new GeoJSONVT(
      { ...coast, features: coast.features.filter(({ geometry }) => isOf(geometry.type)) },
      { maxZoom, indexMaxZoom: maxZoom, indexMaxPoints: 0 },
    )
  const layers = { earth: layer((type) => type.endsWith('Polygon')), places: layer((type) => type === 'Point') }
  const tiles: Tile[] = []
  for (let z = 0; z <= maxZoom; z++)
    for (const { x, y } of tilesOver(islands, z)) {
      const inside = Object.entries(layers).flatMap(([name, index]) => {
        const tile = index.getTile(z, x, y)
        return tile === null ? [] : [[name, tile] as const]
      })
      if (inside.length > 0)
        tiles.push({ z, x, y, bytes: fromGeojsonVt(Object.fromEntries(inside), { version: 2, extent: 4096 }) })
    }
  return writePmtiles({
    tiles,
    type: 1,
    bounds: islands,
    metadata: {
      attribution:
        '<a href="https://maps.example.test/">Surveyors of Tarrovay</a> &copy; <img src=x onerror="1">nobody',
      vector_layers: Object.keys(layers).map((id) => ({ id, fields: {} })),
    },
  })
}

/** The tiles of a zoom that touch some bounds. */
export function* tilesOver(
  [west, south, east, north]: readonly [number, number, number, number],
  z: number,
): Generator<{ x: number; y: number }> {
  const column = (longitude: number) => Math.floor(((longitude + 180) / 360) * 2 ** z)
  const row = (latitude: number) =>
    Math.floor((0.5 - Math.asinh(Math.tan((latitude * Math.PI) / 180)) / (2 * Math.PI)) * 2 ** z)
  for (let x = column(west); x <= column(east); x++) for (let y = row(north); y <= row(south); y++) yield { x, y }
}
