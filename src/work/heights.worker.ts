import { expose, transfer } from 'comlink'
import { heightsOf, type HeightFault, type HeightTile } from './heights'

const mostSide = 1024 // pixels

const api = {
  /** The heights of a tile, a picture of any kind that the browser knows. */
  async read(bytes: ArrayBuffer): Promise<HeightTile | HeightFault> {
    if (isAltered()) return { code: 'altered' }
    let bitmap: ImageBitmap
    try {
      bitmap = await createImageBitmap(new Blob([bytes]), { colorSpaceConversion: 'none', premultiplyAlpha: 'none' })
    } catch {
      return { code: 'noPicture' }
    }
    const { width: size, height } = bitmap
    if (size !== height || size > mostSide || !Number.isInteger(Math.log2(size))) return { code: 'noHeights' }
    const context = contextOf(size)
    context.drawImage(bitmap, 0, 0)
    bitmap.close()
    const heights = heightsOf(context.getImageData(0, 0, size, size).data)
    return heights === undefined ? { code: 'noHeights' } : transfer({ size, heights }, [heights.buffer])
  },
}

function contextOf(size: number): OffscreenCanvasRenderingContext2D {
  const context = new OffscreenCanvas(size, size).getContext('2d', { willReadFrequently: true })
  if (context === null) throw new Error('no canvas')
  return context
}

/** Some browsers change what is read from pictures, against being recognised by it; in heights a changed colour can be 256 m. */
function isAltered(): boolean {
  const side = 16
  const context = contextOf(side)
  const drawn = context.createImageData(side, side)
  drawn.data.forEach((_, i) => (drawn.data[i] = i % 4 === 3 ? 255 : (i * 37) % 256))
  context.putImageData(drawn, 0, 0)
  const read = context.getImageData(0, 0, side, side).data
  return drawn.data.some((value, i) => read[i] !== value)
}

export type HeightsWorker = typeof api

expose(api)
