import { restClass, type Shading } from '../ramp'
import type { Columns } from './columns'
import { elevationY, type Frame } from './frame'

type Context = CanvasRenderingContext2D

/** Fills the ground under the elevation line in the colours of the shading; where the motor rests it is hatched paper. */
export function fillRibbon(
  context: Context,
  frame: Frame,
  { count, elevation }: Columns,
  classes: Uint8Array,
  shading: Shading,
  rest: string,
): void {
  const { left, right, bottom } = frame
  const width = (right - left) / count
  const height = (c: number) => elevationY(frame, elevation[Math.min(Math.max(c, 0), count - 1)]!)
  const between = (c: number) => (height(c - 1) + height(c)) / 2
  const areas = new Map<number, Path2D>()
  for (let start = 0; start < count;) {
    let end = start + 1
    while (end < count && classes[end] === classes[start]) end++
    const area = areas.get(classes[start]!) ?? new Path2D()
    areas.set(classes[start]!, area)
    area.moveTo(left + start * width, bottom)
    area.lineTo(left + start * width, between(start))
    for (let c = start; c < end; c++) area.lineTo(left + (c + 0.5) * width, height(c))
    area.lineTo(left + end * width, between(end))
    area.lineTo(left + end * width, bottom)
    start = end
  }
  for (const [index, area] of areas) {
    context.fillStyle = index === restClass ? hatch(context, rest) : shading.classes[index]!.colour
    context.fill(area)
  }
}

const hatches = new Map<string, CanvasPattern | string>()

/** Thin slanted lines on nothing. */
function hatch(context: Context, colour: string): CanvasPattern | string {
  const kept = hatches.get(colour)
  if (kept !== undefined) return kept
  const size = 6
  const tile = document.createElement('canvas')
  tile.width = tile.height = size
  const on = tile.getContext('2d')!
  on.strokeStyle = colour
  on.globalAlpha = 0.55
  on.lineWidth = 0.8
  for (const shift of [-size, 0, size]) {
    on.moveTo(shift, size)
    on.lineTo(shift + size, 0)
  }
  on.stroke()
  const pattern = context.createPattern(tile, 'repeat') ?? 'transparent'
  hatches.set(colour, pattern)
  return pattern
}
