import { Compression, PMTiles, TileType, type Source } from 'pmtiles'

/** What an area of a map, a PMTiles file of version 3, says of itself. */
export interface AreaFacts {
  /** Heights are pictures that say so of themselves, or that the rider brought as such. */
  kind: 'vector' | 'raster' | 'heights'
  /** West, south, east and north, degrees. */
  bounds: readonly [number, number, number, number]
  minZoom: number
  maxZoom: number
  /** Plain text. */
  attribution: string
  /** Of vector tiles. */
  layers: readonly string[]
}

/** Why a file is no area of a map that can be drawn. */
export type AreaFault = { code: 'notPmtiles' | 'damaged' | 'otherTiles' } | { code: 'otherVersion'; version: number }

const magic = 'PMTiles'
const version = 3
const pictures = [TileType.Png, TileType.Jpeg, TileType.Webp, TileType.Avif]
const compressions = [Compression.Unknown, Compression.None, Compression.Gzip]

/** Reads the tiles of a file, of which only what is asked for comes into memory. */
export const openArchive = (file: Blob): PMTiles =>
  new PMTiles({
    getKey: () => 'area',
    getBytes: async (offset, length) => ({ data: await file.slice(offset, offset + length).arrayBuffer() }),
  } satisfies Source)

/** What a file says of itself, or why it can't be drawn; never throws. */
export async function readArea(file: Blob): Promise<AreaFacts | AreaFault> {
  const start = new Uint8Array(await file.slice(0, magic.length + 1).arrayBuffer())
  if (String.fromCharCode(...start.subarray(0, magic.length)) !== magic) return { code: 'notPmtiles' }
  if (start.at(-1) !== version) return { code: 'otherVersion', version: start.at(-1)! }
  try {
    const archive = openArchive(file)
    const header = await archive.getHeader()
    const { minLon, minLat, maxLon, maxLat, minZoom, maxZoom, tileType } = header
    const bounds = [minLon, minLat, maxLon, maxLat] as const
    if (header.tileDataOffset + (header.tileDataLength ?? 0) > file.size) return { code: 'damaged' }
    if (!(minLon < maxLon && minLat < maxLat && minZoom <= maxZoom)) return { code: 'damaged' }
    const isVector = tileType === TileType.Mvt && compressions.includes(header.tileCompression)
    if (!isVector && !pictures.includes(tileType)) return { code: 'otherTiles' }
    // The root directory is read too: a tile that is not there is no fault.
    await archive.getZxy(minZoom, 0, 0)
    const { attribution, encoding, vector_layers: layers } = (await archive.getMetadata()) as Record<string, unknown>
    return {
      // Only of heights written as colours is an encoding told.
      kind: isVector ? 'vector' : typeof encoding === 'string' ? 'heights' : 'raster',
      bounds,
      minZoom,
      maxZoom,
      attribution: typeof attribution === 'string' ? textOf(attribution) : '',
      layers: Array.isArray(layers) ? layers.map(idOf).filter((id) => id !== undefined) : [],
    }
  } catch {
    return { code: 'damaged' }
  }
}

function idOf(layer: unknown): string | undefined {
  const id = typeof layer === 'object' && layer !== null && 'id' in layer ? layer.id : undefined
  return typeof id === 'string' ? id : undefined
}

/** Attributions are customarily written as markup; only their text is of use here. */
const textOf = (markup: string): string =>
  markup
    .slice(0, 500)
    .replace(/<[^>]*>/g, '')
    .replace(/&copy;/g, '©')
    .replace(/&amp;/g, '&')
    .trim()
