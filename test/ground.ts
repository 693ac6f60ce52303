import { crc32, deflateSync } from 'node:zlib'
import { pixelsAlong, type Ground, type Lacking } from '../src/model/route/ground'
import { tilesOver, writePmtiles } from './pmtiles'

/** A height, m, at a place, degrees. */
export type Surface = (latitude: number, longitude: number) => number

/** Place of a pixel's middle, degrees: the tile formulas of Web Mercator read backwards. */
export function placeOf(across: number, column: number, row: number): { latitude: number; longitude: number } {
  const y = Math.PI * (1 - (2 * (row + 0.5)) / across)
  return { latitude: (Math.atan(Math.sinh(y)) * 180) / Math.PI, longitude: ((column + 0.5) / across) * 360 - 180 }
}

/** Ground of a surface along a way. */
export function groundOf(
  surface: Surface,
  way: { latitude: Float64Array; longitude: Float64Array },
  across: number,
  pieces: readonly Lacking[] = [{ first: 0, last: way.latitude.length - 1 }],
): Ground {
  const pixels = pixelsAlong(way, pieces, across)
  const heights = Float32Array.from(pixels, (pixel) => {
    const { latitude, longitude } = placeOf(across, pixel % across, Math.floor(pixel / across))
    return surface(latitude, longitude)
  })
  return { across, pixels, heights }
}

/** How a height is written as a colour, red the highest of three bytes: in steps of 0.1 m above -10,000 m, or of 1/256 m above -32,768 m. */
const written = {
  tenths: (height: number) => Math.round((height + 10_000) * 10),
  parts: (height: number) => Math.round((height + 32_768) * 256),
}
export type Written = keyof typeof written

/** A tile of a surface as a PNG, by its public specification (ISO/IEC 15948): 8 bits, red, green and blue; a height that is NaN is transparent. */
export function heightTile(
  surface: Surface,
  [z, x, y]: readonly [number, number, number],
  as: Written,
  size = 256,
): Buffer {
  const across = size * 2 ** z
  const middles = Array.from({ length: size }, (_, i) => placeOf(across, x * size + i, y * size + i))
  const lines = Buffer.alloc(size * (1 + 4 * size))
  for (let row = 0; row < size; row++)
    for (let column = 0; column < size; column++) {
      const height = surface(middles[row]!.latitude, middles[column]!.longitude)
      const at = row * (1 + 4 * size) + 1 + 4 * column
      if (!Number.isNaN(height)) lines.writeUInt32BE(written[as](height) * 256 + 255, at)
    }
  return png(size, lines)
}

function png(size: number, lines: Buffer): Buffer {
  const chunk = (type: string, data: Buffer) => {
    const body = Buffer.concat([Buffer.from(type, 'latin1'), data])
    const framed = Buffer.alloc(body.length + 8)
    framed.writeUInt32BE(data.length, 0)
    framed.set(body, 4)
    framed.writeUInt32BE(crc32(body), body.length + 4)
    return framed
  }
  const header = Buffer.alloc(13)
  header.writeUInt32BE(size, 0)
  header.writeUInt32BE(size, 4)
  // 8 bits, truecolour with alpha.
  header.set([8, 6, 0, 0, 0], 8)
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(lines, { level: 1 })),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

/** A file of the heights of a surface within bounds: west, south, east and north, degrees. */
export const heightArchive = (
  surface: Surface,
  bounds: readonly [number, number, number, number],
  zoom: number,
  as: Written,
  attribution = '',
  /** What the file says of its colours. */
  encoding?: string,
): Buffer =>
  writePmtiles({
    tiles: [...tilesOver(bounds, zoom)].map(({ x, y }) => ({
      ...{ z: zoom, x, y },
      bytes: heightTile(surface, [zoom, x, y], as),
    })),
    type: 2,
    bounds,
    metadata: { attribution, ...(encoding === undefined ? {} : { encoding }) },
  })
