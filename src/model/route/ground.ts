import { worldX, worldY } from '../geo/mercator'
import { EQUATORIAL_RADIUS } from '../geo/wgs84'

/**
 * Heights of the land about a route, where its file has none: of a terrain model's pixels those that the way touches. Pixels divide the square world of
 * EPSG:3857 evenly, each with its height in its middle, as tiles of heights have them.
 */
export interface Ground {
  /** Pixels from one side of the world to the other, a power of two. */
  across: number
  /** Numbers of pixels, row · across + column, from the north-west; ascending. */
  pixels: Float64Array
  /** Of each, m; NaN where the model has none. */
  heights: Float32Array
}

/** A piece of the way without elevation: from one point to another, both inclusive, which have some, or are an end of a ridden stretch. */
export interface Lacking {
  first: number
  last: number
}

interface Places {
  /** Degrees. */
  latitude: Float64Array
  longitude: Float64Array
}

/** Most pixels across the world, so that the number of a pixel stays a whole one. */
const MOST_ACROSS = 2 ** 26
/** The least that a piece is sampled at, pixels: so the way passes from one pixel's neighbours to the next ones'. */
const FINE = 0.5

/** Width of a pixel at a latitude, m: the circle of that latitude on the sphere of EPSG:3857, divided evenly. @param latitude degrees */
export const pixelWidth = (across: number, latitude: number): number =>
  (2 * Math.PI * EQUATORIAL_RADIUS * Math.cos((latitude * Math.PI) / 180)) / across

/**
 * Height at a place, m: bilinear between the middles of the four pixels about it; NaN where one of them is not known.
 *
 * @param latitude degrees
 * @param longitude degrees; may pass 180
 */
export function heightAt({ across, pixels, heights }: Ground, latitude: number, longitude: number): number {
  const x = worldX(longitude) * across - 0.5
  const y = worldY(latitude) * across - 0.5
  const [column, row] = [Math.floor(x), Math.floor(y)]
  const of = (row: number, column: number) => {
    const i = indexOf(pixels, pixelAt(across, row, column))
    return i === undefined ? NaN : heights[i]!
  }
  const [east, south] = [x - column, y - row]
  const north = of(row, column) * (1 - east) + of(row, column + 1) * east
  return north * (1 - south) + (of(row + 1, column) * (1 - east) + of(row + 1, column + 1) * east) * south
}

/**
 * Numbers of the pixels that heights anywhere on some pieces of a way are taken from, ascending.
 *
 * @param points of the way, joined by straight lines in degrees
 * @param across pixels across the world
 */
export function pixelsAlong({ latitude, longitude }: Places, pieces: readonly Lacking[], across: number): Float64Array {
  const found = new Set<number>()
  const addAbout = (row: number, column: number) => {
    found.add(pixelAt(across, row, column)).add(pixelAt(across, row, column + 1))
    found.add(pixelAt(across, row + 1, column)).add(pixelAt(across, row + 1, column + 1))
  }
  for (const { first, last } of pieces) {
    let [rowBefore, columnBefore] = [NaN, NaN]
    for (let i = first; i <= last; i++) {
      const next = Math.min(i + 1, last)
      const dx = Math.abs(longitude[next]! - longitude[i]!) / 360
      const dy = Math.abs(worldY(latitude[next]!) - worldY(latitude[i]!))
      const steps = Math.max(1, Math.ceil((Math.max(dx, dy) * across) / FINE))
      for (let k = 0; k < steps; k++) {
        const share = k / steps
        const row = Math.floor(worldY(latitude[i]! * (1 - share) + latitude[next]! * share) * across - 0.5)
        const column = Math.floor(worldX(longitude[i]! * (1 - share) + longitude[next]! * share) * across - 0.5)
        if (row === rowBefore && column === columnBefore) continue
        addAbout(row, column)
        // Between two places a corner may be passed on either side.
        if (row !== rowBefore && column !== columnBefore && !Number.isNaN(rowBefore)) {
          addAbout(rowBefore, column)
          addAbout(row, columnBefore)
        }
        rowBefore = row
        columnBefore = column
      }
    }
  }
  return Float64Array.from(found).sort()
}

/** Number of a pixel; the world goes round, and ends in the north and the south. */
function pixelAt(across: number, row: number, column: number): number {
  return Math.min(Math.max(row, 0), across - 1) * across + (((column % across) + across) % across)
}

function indexOf(ascending: Float64Array, value: number): number | undefined {
  let [low, high] = [0, ascending.length - 1]
  while (low <= high) {
    const middle = (low + high) >> 1
    const found = ascending[middle]!
    if (found === value) return middle
    if (found < value) low = middle + 1
    else high = middle - 1
  }
  return undefined
}

const VERSION = 1
const HEAD = 13

/**
 * Ground as bytes that belong to a day: a version, pixels across, how many there are, the steps from each number to the next in groups of seven bits
 * (LEB128), and the heights, of four bytes each; all little-endian.
 */
export function writeGround({ across, pixels, heights }: Ground): Uint8Array<ArrayBuffer> {
  const steps: number[] = []
  let before = 0
  for (const pixel of pixels) {
    let step = pixel - before
    before = pixel
    for (; step > 127; step = Math.floor(step / 128)) steps.push((step % 128) + 128)
    steps.push(step)
  }
  const bytes = new Uint8Array(HEAD + steps.length + 4 * heights.length)
  const view = new DataView(bytes.buffer)
  view.setUint8(0, VERSION)
  view.setFloat64(1, across, true)
  view.setUint32(9, pixels.length, true)
  bytes.set(steps, HEAD)
  heights.forEach((height, i) => view.setFloat32(HEAD + steps.length + 4 * i, height, true))
  return bytes
}

/** Ground from its bytes, which may be anything; undefined where they are none. */
export function readGround(bytes: Uint8Array): Ground | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  if (bytes.length < HEAD || view.getUint8(0) !== VERSION) return undefined
  const across = view.getFloat64(1, true)
  const count = view.getUint32(9, true)
  if (!(across >= 1 && across <= MOST_ACROSS && Number.isInteger(across)) || bytes.length < HEAD + 5 * count)
    return undefined
  const pixels = new Float64Array(count)
  let at = HEAD
  for (let i = 0; i < count; i++) {
    let [step, unit] = [0, 1]
    for (; bytes[at]! > 127; unit *= 128) step += (bytes[at++]! - 128) * unit
    step += bytes[at++]! * unit
    pixels[i] = (pixels[i - 1] ?? 0) + step
    if (!(pixels[i]! < across * across) || (i > 0 && step === 0)) return undefined
  }
  if (bytes.length !== at + 4 * count) return undefined
  return { across, pixels, heights: Float32Array.from(pixels, (_, i) => view.getFloat32(at + 4 * i, true)) }
}
