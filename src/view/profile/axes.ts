import type { Route } from '../../model/route/route'
import { distanceUnit, heightUnit, inDistance, inHeight, number, type Units } from '../format'
import type { ChartColours } from '../theme.svelte'
import { chargeY, elevationY, xOf, type Frame } from './frame'
import { roundTicks } from './ticks'

const font = "12px 'Overpass Variable', sans-serif"
const pixelsPerDistanceTick = 64
const pixelsPerHeightTick = 44
const mark = 5 // px
const gap = 7 // px from the axis to its numbers
const halfLine = 7 // px

/** Where the axes have numbers: km or mi, and m or ft; no heights where the file has none. */
export interface Ticks {
  distances: number[]
  heights: number[]
}

export function ticksOf({ left, right, top, bottom, length, lowest, high }: Frame, route: Route, units: Units): Ticks {
  return {
    distances: roundTicks(0, inDistance(length, units), (right - left) / pixelsPerDistanceTick),
    heights:
      route.elevationKnown === 'none'
        ? []
        : roundTicks(inHeight(lowest, units), inHeight(high, units), (bottom - top) / pixelsPerHeightTick),
  }
}

/** Axes of distance below, height at the left and charge at the right: their lines, marks and numbers. */
export function drawAxes(
  context: CanvasRenderingContext2D,
  frame: Frame,
  { distances, heights }: Ticks,
  units: Units,
  { line, inkSoft, charge }: ChartColours,
): void {
  // Beside the ribbon, so that it can be drawn again without them.
  const left = Math.round(frame.left) - 0.5
  const right = Math.round(frame.right) + 0.5
  const bottom = Math.round(frame.bottom) + 0.5
  const lines = new Path2D()
  const draw = (x1: number, y1: number, x2: number, y2: number) => {
    lines.moveTo(x1, y1)
    lines.lineTo(x2, y2)
  }
  draw(left, frame.top, left, bottom)
  draw(left, bottom, right, bottom)
  draw(right, bottom, right, frame.top)
  context.font = font
  context.textBaseline = 'middle'

  context.fillStyle = inkSoft
  context.textAlign = 'center'
  for (const [i, distance] of distances.entries()) {
    const x = xOf(frame, distance / inDistance(1, units))
    draw(Math.round(x) + 0.5, bottom, Math.round(x) + 0.5, bottom + mark)
    context.fillText(tickText(distances, i, distanceUnit(units)), x, bottom + gap + halfLine)
  }

  context.textAlign = 'right'
  for (const [i, height] of heights.entries()) {
    const y = elevationY(frame, height / inHeight(1, units))
    draw(left - mark, Math.round(y) + 0.5, left, Math.round(y) + 0.5)
    context.fillText(tickText(heights, i, heightUnit(units)), left - gap, y)
  }

  context.fillStyle = charge
  context.textAlign = 'left'
  const percents = [0, 25, 50, 75, 100]
  for (const [i, percent] of percents.entries()) {
    const y = chargeY(frame, percent / 100)
    draw(right, Math.round(y) + 0.5, right + mark, Math.round(y) + 0.5)
    context.fillText(tickText(percents, i, '%'), right + gap, y)
  }

  context.lineWidth = 1
  context.strokeStyle = line
  context.stroke(lines)
}

function tickText(values: number[], i: number, unit: string): string {
  const digits = values.some((value) => value % 1 !== 0) ? 1 : 0
  return `${number(values[i]!, digits)}${i === values.length - 1 ? ` ${unit}` : ''}`
}
