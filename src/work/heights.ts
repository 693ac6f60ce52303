/** A square tile of heights, its rows from the north, each from the west. */
export interface HeightTile {
  /** Pixels of a side. */
  size: number
  /** m; NaN where unknown. */
  heights: Float32Array
}

/** Why bytes give no heights: no picture, or one whose colours are none; or the browser does not give pictures as they are. */
export type HeightFault = { code: 'noPicture' | 'noHeights' | 'altered' }

/** Heights outside these, m, are marks for 'unknown': no road is outside them. */
const lowest = -500
const highest = 9000

/**
 * The two ways in which tiles of the open style specifications for web maps (source `raster-dem`, its `encoding`) write heights as colours: in steps of
 * 0.1 m from -10,000 m on, or of 1/256 m from -32,768 m on. Every height of a road has a red of 1 or 2 by the one and of 126 to 163 by the other, so that
 * tiles tell which it is.
 */
const ways = [
  (red: number, green: number, blue: number) => -10_000 + (red * 65_536 + green * 256 + blue) * 0.1,
  (red: number, green: number, blue: number) => red * 256 + green + blue / 256 - 32_768,
]

/**
 * Heights that the colours of a picture stand for, m, NaN where a pixel is transparent, black or no possible height; undefined where most pixels are none
 * by either way of writing.
 *
 * @param rgba red, green, blue and opacity of each pixel, 0 to 255
 */
export function heightsOf(rgba: ArrayLike<number>): Float32Array | undefined {
  const count = rgba.length / 4
  let told = 0
  for (let i = 0; i < count; i++) if (isTold(rgba, 4 * i)) told++
  const found = ways.map((height) => {
    const heights = new Float32Array(count).fill(NaN)
    let fits = 0
    for (let i = 0; i < count; i++) {
      const at = 4 * i
      if (!isTold(rgba, at)) continue
      const h = height(rgba[at]!, rgba[at + 1]!, rgba[at + 2]!)
      if (!(h >= lowest && h <= highest)) continue
      heights[i] = h
      fits++
    }
    return { heights, fits }
  })
  return found.find(({ fits }) => 2 * fits >= told)?.heights
}

const isTold = (rgba: ArrayLike<number>, at: number) =>
  rgba[at + 3] === 255 && rgba[at]! + rgba[at + 1]! + rgba[at + 2]! > 0
