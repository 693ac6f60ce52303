import { wrap } from 'comlink'
import { worldX, worldY } from '../model/geo/mercator'
import { pixelsAlong, pixelWidth, type Ground, type Lacking } from '../model/route/ground'
import type { Route } from '../model/route/route'
import { openArchive, type AreaFacts } from './area'
import type { HeightFault, HeightTile } from './heights'
import type { HeightsWorker } from './heights.worker'

/** Where tiles of heights come from. */
export interface TileStore {
  minZoom: number
  maxZoom: number
  /** May be coarser than it says: where the first tiles are missing coarser ones are looked for. */
  isUnsure: boolean
  /** Bytes of a tile, undefined where there is none. @throws GroundError where it can't be had */
  tile: (z: number, x: number, y: number, signal: AbortSignal) => Promise<ArrayBuffer | undefined>
}

/** Why there are no heights for a route: also none of the tiles is there, or the server does not answer, or not with tiles. */
export type GroundFault =
  | HeightFault
  | { code: 'noTiles'; tiles: number }
  | { code: 'unreachable' | 'notStarted' }
  | { code: 'refused'; status: number }

export class GroundError extends Error {
  constructor(readonly fault: GroundFault) {
    super(fault.code)
  }
}

/** The tiles of one zoom that heights are taken from. */
export interface TilesAsked {
  zoom: number
  tiles: readonly { x: number; y: number }[]
  /** Width of a pixel there, m, of tiles of 256 pixels. */
  width: number
}

/** Pixels of a side of the tiles that zooms are reckoned for. */
const usual = 256
/** The coarsest pixel that is asked for where there is a finer one, m, and the most tiles. Choices. */
const coarsest = 30
const mostTiles = 400
/** Zooms that are looked for below the one that was asked for. */
const mostCoarser = 2
const atOnce = 4

/**
 * The tiles with heights for the pieces of a route on which its file has none: with pixels of 15 to 30 m, or coarser where that would be more than 400 tiles
 * or there are no finer ones.
 */
export function tilesFor(
  { points, lacking }: Pick<Route, 'points' | 'lacking'>,
  { minZoom, maxZoom }: Pick<TileStore, 'minZoom' | 'maxZoom'>,
): TilesAsked {
  const middle = points.latitude[points.latitude.length >> 1]!
  const wanted = Math.ceil(Math.log2(pixelWidth(usual, middle) / coarsest))
  for (let zoom = Math.max(minZoom, Math.min(wanted, maxZoom)); ; zoom--) {
    const found = tilesAlong(points, lacking, zoom)
    if (found.size > mostTiles && zoom > minZoom) continue
    const tiles = Array.from(found, (tile) => ({ x: tile % 2 ** zoom, y: Math.floor(tile / 2 ** zoom) }))
    return { zoom, tiles, width: pixelWidth(usual * 2 ** zoom, middle) }
  }
}

/** Numbers, row · 2^zoom + column, of the tiles with the pixels about each place of a way: of those half a pixel to each side. */
function tilesAlong({ latitude, longitude }: Route['points'], pieces: readonly Lacking[], zoom: number): Set<number> {
  const across = 2 ** zoom
  const half = 0.5 / usual
  const found = new Set<number>()
  const tileOf = (row: number, column: number) =>
    Math.min(Math.max(Math.floor(row), 0), across - 1) * across + (((Math.floor(column) % across) + across) % across)
  const add = (row: number, column: number) => {
    for (const y of [row - half, row + half]) for (const x of [column - half, column + half]) found.add(tileOf(y, x))
  }
  /** Halves a line until it lies in one tile, or is shorter than half a pixel. */
  const addLine = (lat: number, lon: number, toLat: number, toLon: number) => {
    const [y, x, toY, toX] = [
      worldY(lat) * across,
      worldX(lon) * across,
      worldY(toLat) * across,
      worldX(toLon) * across,
    ]
    add(y, x)
    add(toY, toX)
    const north = Math.floor(Math.min(y, toY) - half)
    const west = Math.floor(Math.min(x, toX) - half)
    if (Math.floor(Math.max(y, toY) + half) === north && Math.floor(Math.max(x, toX) + half) === west) return
    if (Math.max(Math.abs(toY - y), Math.abs(toX - x)) < half) return
    const [midLat, midLon] = [(lat + toLat) / 2, (lon + toLon) / 2]
    addLine(lat, lon, midLat, midLon)
    addLine(midLat, midLon, toLat, toLon)
  }
  for (const { first, last } of pieces)
    for (let i = first; i < last; i++) addLine(latitude[i]!, longitude[i]!, latitude[i + 1]!, longitude[i + 1]!)
  return found
}

/** Reads the heights of tiles, in a worker until it is closed. */
export interface TileReader {
  read: (bytes: ArrayBuffer) => Promise<HeightTile | HeightFault>
  close: () => void
}

/** A reader that fails where its worker does not start. */
function openReader(): TileReader {
  const worker = new Worker(new URL('./heights.worker.ts', import.meta.url), { type: 'module' })
  const remote = wrap<HeightsWorker>(worker)
  const failed = new Promise<never>((_, reject) =>
    worker.addEventListener('error', () => reject(new GroundError({ code: 'notStarted' }))),
  )
  failed.catch(() => undefined)
  return { read: (bytes) => Promise.race([remote.read(bytes), failed]), close: () => worker.terminate() }
}

/**
 * The ground of a route where its file has no elevation.
 *
 * @param progress called with how many tiles of how many are there
 * @param open the reader; replaced in tests
 * @returns the ground, and how many of the tiles that were asked for are missing
 * @throws GroundError where there is none; what the signal was aborted with
 */
export async function bringGround(
  route: Pick<Route, 'points' | 'lacking'>,
  store: TileStore,
  signal: AbortSignal,
  progress: (done: number, tiles: number) => void,
  open = openReader,
): Promise<{ ground: Ground; tiles: number; missing: number }> {
  const reader = open()
  let isOver = false
  try {
    const read = async (zoom: number, { x, y }: { x: number; y: number }) => {
      const bytes = await store.tile(zoom, x, y, signal)
      signal.throwIfAborted()
      if (bytes === undefined) return undefined
      const tile = await reader.read(bytes)
      signal.throwIfAborted()
      if ('code' in tile) throw new GroundError(tile)
      return tile
    }
    const { zoom, tiles } = store.isUnsure ? await asFineAsThereIs(route, store, read) : tilesFor(route, store)
    progress(0, tiles.length)
    const found = new Map<number, HeightTile>()
    let [next, done] = [0, 0]
    const readOn = async () => {
      while (next < tiles.length && !isOver) {
        const tile = tiles[next++]!
        const heights = await read(zoom, tile)
        if (heights !== undefined) found.set(tile.y * 2 ** zoom + tile.x, heights)
        progress(++done, tiles.length)
      }
    }
    await Promise.all(Array.from({ length: atOnce }, readOn))
    if (found.size === 0) throw new GroundError({ code: 'noTiles', tiles: tiles.length })
    return {
      ground: groundOf(route.points, route.lacking, zoom, found),
      ...{ tiles: tiles.length, missing: tiles.length - found.size },
    }
  } finally {
    isOver = true
    reader.close()
  }
}

/** Where the tiles in the middle and at both ends of those asked for are all missing, those of a coarser zoom that has one. */
async function asFineAsThereIs(
  route: Pick<Route, 'points' | 'lacking'>,
  store: TileStore,
  read: (zoom: number, tile: { x: number; y: number }) => Promise<unknown>,
): Promise<TilesAsked> {
  const finest = tilesFor(route, store)
  for (let coarser = 0; coarser <= mostCoarser; coarser++) {
    const maxZoom = finest.zoom - coarser
    const asked = tilesFor(route, { ...store, maxZoom })
    if (asked.zoom !== maxZoom) break
    const { tiles } = asked
    for (const tile of new Set([tiles[tiles.length >> 1]!, tiles[0]!, tiles.at(-1)!]))
      if ((await read(maxZoom, tile)) !== undefined) return asked
  }
  return finest
}

/** The pixels of tiles that a way touches; those of tiles of another size than most are unknown. */
function groundOf(
  points: Route['points'],
  lacking: readonly Lacking[],
  zoom: number,
  tiles: ReadonlyMap<number, HeightTile>,
): Ground {
  const [{ size } = { size: usual }] = tiles.values()
  const across = size * 2 ** zoom
  const pixels = pixelsAlong(points, lacking, across)
  const heights = Float32Array.from(pixels, (pixel) => {
    const [row, column] = [Math.floor(pixel / across), pixel % across]
    const tile = tiles.get(Math.floor(row / size) * 2 ** zoom + Math.floor(column / size))
    return tile?.size === size ? tile.heights[(row % size) * size + (column % size)]! : NaN
  })
  return { across, pixels, heights }
}

/** The tiles of a file that the rider brought. */
export function tilesOfFile(file: Blob, { minZoom, maxZoom }: AreaFacts): TileStore {
  const archive = openArchive(file)
  const tile: TileStore['tile'] = async (z, x, y) => {
    try {
      return (await archive.getZxy(z, x, y))?.data
    } catch {
      throw new GroundError({ code: 'noPicture' })
    }
  }
  return { minZoom, maxZoom, isUnsure: false, tile }
}

/** The tiles of a server, which are asked for anew each time and not stored. @param addressOf a tile */
export function tilesOfServer(addressOf: (z: number, x: number, y: number) => string): TileStore {
  const tile: TileStore['tile'] = async (z, x, y, signal) => {
    let response: Response
    try {
      response = await fetch(addressOf(z, x, y), { signal, credentials: 'omit' })
      if (response.ok && response.status !== 204) return await response.arrayBuffer()
    } catch (error) {
      signal.throwIfAborted()
      console.warn(error)
      throw new GroundError({ code: 'unreachable' })
    }
    if ([204, 404, 410].includes(response.status)) return undefined
    throw new GroundError({ code: 'refused', status: response.status })
  }
  return { minZoom: 0, maxZoom: finestAsked, isUnsure: true, tile }
}
/** No server is asked for more. */
const finestAsked = 14
