import type { Route } from '../../model/route/route'
import { restClass, type Shading } from '../ramp'
import type { ChartColours } from '../theme.svelte'
import type { Columns } from './columns'
import { elevationY, xOf, type Frame } from './frame'
import type { Point } from './lines'

type Context = CanvasRenderingContext2D

const crossingWidth = 7

/**
 * Fills the ground under the elevation line in the colours of the shading; where the motor rests it is hatched paper.
 *
 * @param from first column
 * @param to the one after the last
 */
export function fillRibbon(
  context: Context,
  frame: Frame,
  { count, elevation }: Columns,
  classes: Uint8Array,
  shading: Shading,
  rest: string,
  from: number,
  to: number,
): void {
  const { left, right, bottom } = frame
  const width = (right - left) / count
  const height = (c: number) => elevationY(frame, elevation[Math.min(Math.max(c, 0), count - 1)]!)
  const between = (c: number) => (height(c - 1) + height(c)) / 2
  const areas = new Map<number, Path2D>()
  for (let start = from; start < to;) {
    let end = start + 1
    while (end < to && classes[end] === classes[start]) end++
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

/** Level lines at the heights of the axis, m. */
export function drawLevels(context: Context, frame: Frame, heights: readonly number[], line: string): void {
  context.beginPath()
  for (const height of heights) {
    const y = Math.round(elevationY(frame, height)) + 0.5
    context.moveTo(frame.left, y)
    context.lineTo(frame.right, y)
  }
  context.lineWidth = 1
  context.strokeStyle = line
  context.stroke()
}

/** A band of paper with a dashed line where the route is travelled but not ridden. */
export function drawCrossings(context: Context, frame: Frame, route: Route, { paper, inkSoft }: ChartColours): void {
  for (const { distance } of route.crossings) {
    const x = Math.round(xOf(frame, distance)) + 0.5
    context.fillStyle = paper
    context.fillRect(x - crossingWidth / 2, frame.top, crossingWidth, frame.bottom - frame.top)
    context.strokeStyle = inkSoft
    context.lineWidth = 1
    context.setLineDash([4, 4])
    context.beginPath()
    context.moveTo(x, frame.top)
    context.lineTo(x, frame.bottom)
    context.stroke()
    context.setLineDash([])
  }
}

export function drawGroundLine(context: Context, frame: Frame, elevation: readonly Point[], ink: string): void {
  context.beginPath()
  for (const { x, y } of elevation) context.lineTo(xOf(frame, x), elevationY(frame, y))
  context.lineJoin = 'round'
  context.lineWidth = 1.25
  context.strokeStyle = ink
  context.stroke()
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
