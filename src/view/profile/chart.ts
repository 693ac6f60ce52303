import { Chart, LinearScale, type Scale } from 'chart.js'
import type { Route } from '../../model/route/route'
import { distanceUnit, heightUnit, inDistance, inHeight, number, type Units } from '../format'
import type { Shading } from '../ramp'
import type { ChartColours } from '../theme'
import { columnClasses, columnsOf, type Columns } from './columns'
import type { Frame } from './frame'
import { elevationLine, type Point } from './lines'
import { drawCrossings, drawGroundLine, drawLevels, fillRibbon } from './ribbon'
import { roundTicks } from './ticks'

Chart.register(LinearScale)

/** The route in columns, and the line through them. */
interface Ground {
  columns: Columns
  elevation: Point[]
}

/** All that is drawn. */
export interface Scene {
  frame: Frame
  route: Route
  shading: Shading
  units: Units
  colours: ChartColours
}

const font = { family: "'Overpass Variable', sans-serif", size: 12 }
const pixelsPerDistanceTick = 64
const pixelsPerHeightTick = 44

/**
 * The profile's ground on a canvas: Chart.js lays out and draws the axes, a plugin of ours the ribbon. What follows a drag frame by frame, the
 * charge and the labels, lies above it in `Lines.svelte`; here only columns whose colour differs are drawn again, for a whole canvas costs
 * some 5 ms where there is no graphics processor.
 */
export class ProfileChart {
  #scene: Scene | undefined
  #ground: Ground | undefined
  #classes: Uint8Array = new Uint8Array()
  #chart: Chart<'line', []>

  constructor(canvas: HTMLCanvasElement) {
    this.#chart = new Chart<'line', []>(canvas, {
      type: 'line',
      data: { datasets: [] },
      options: { responsive: false, maintainAspectRatio: false, animation: false, events: [] },
      plugins: [{ id: 'ribbon', afterDatasetsDraw: ({ ctx }) => this.#draw(ctx, 0, this.#classes.length) }],
    })
  }

  show(scene: Scene): void {
    const { frame, route, shading, units, colours } = scene
    const before = this.#scene
    this.#scene = scene
    if (before?.route !== route || before.frame !== frame || this.#ground === undefined) {
      const columns = columnsOf(route, frame.right - frame.left)
      this.#ground = { columns, elevation: elevationLine(columns) }
    }
    const shown = this.#classes
    this.#classes = columnClasses(this.#ground.columns, shading.byStation)
    if (
      before?.frame === frame &&
      before.units === units &&
      before.colours === colours &&
      before.shading.classes === shading.classes
    ) {
      this.#repair(shown)
      return
    }
    this.#setAxes(scene)
    if (this.#chart.width !== frame.width || this.#chart.height !== frame.height)
      this.#chart.resize(frame.width, frame.height)
    else this.#chart.update('none')
  }

  destroy(): void {
    this.#chart.destroy()
  }

  /** Draws the columns again whose class is another than the one shown. */
  #repair(shown: Uint8Array): void {
    const { ctx, currentDevicePixelRatio: ratio } = this.#chart
    const { frame } = this.#scene!
    const classes = this.#classes
    const width = (frame.right - frame.left) / classes.length
    for (let from = 0; from < classes.length; from++) {
      if (classes[from] === shown[from]) continue
      let to = from + 1
      while (to < classes.length && classes[to] !== shown[to]) to++
      // Whole pixels, so that no seam is left.
      const left = Math.floor((frame.left + from * width) * ratio) / ratio
      const right = Math.ceil((frame.left + to * width) * ratio) / ratio
      ctx.save()
      ctx.beginPath()
      ctx.rect(left, frame.top, right - left, frame.bottom - frame.top)
      ctx.clip()
      ctx.clearRect(left, frame.top, right - left, frame.bottom - frame.top)
      this.#draw(ctx, from - 2, to + 2)
      ctx.restore()
      from = to
    }
  }

  /** Draws some of the columns. */
  #draw(ctx: CanvasRenderingContext2D, from: number, to: number): void {
    if (this.#scene === undefined || this.#ground === undefined) return
    const { frame, route, shading, colours } = this.#scene
    const { columns, elevation } = this.#ground
    const first = Math.max(from, 0)
    const last = Math.min(to, columns.count)
    ctx.save()
    drawLevels(ctx, frame, this.#chart.scales.elevation!.ticks, colours.line)
    fillRibbon(ctx, frame, columns, this.#classes, shading, colours.rest, first, last)
    drawCrossings(ctx, frame, route, colours)
    drawGroundLine(ctx, frame, elevation.slice(first, last + 2), colours.ink)
    ctx.restore()
  }

  #setAxes({ frame, route, units, colours }: Scene): void {
    const distances = roundTicks(0, inDistance(frame.length, units), (frame.right - frame.left) / pixelsPerDistanceTick)
    const heights =
      route.elevationKnown === 'none'
        ? []
        : roundTicks(
            inHeight(frame.lowest, units),
            inHeight(frame.high, units),
            (frame.bottom - frame.top) / pixelsPerHeightTick,
          )
    const axis = (values: number[], factor: number, unit: string, color: string, fit: (scale: Scale) => void) => ({
      type: 'linear' as const,
      afterFit: fit,
      afterBuildTicks: (scale: Scale) => void (scale.ticks = values.map((value) => ({ value: value * factor }))),
      border: { color: colours.line },
      grid: { color: colours.line, tickLength: 5, drawOnChartArea: false },
      ticks: {
        color,
        font,
        autoSkip: false,
        maxRotation: 0,
        padding: 2,
        callback: (_: unknown, i: number) => tickText(values, i, unit),
      },
    })
    const options = this.#chart.options
    options.layout = { padding: { top: frame.top }, autoPadding: false }
    options.scales = {
      x: {
        ...axis(distances, 1 / inDistance(1, units), distanceUnit(units), colours.inkSoft, (scale) => {
          scale.height = frame.height - frame.bottom
        }),
        position: 'bottom',
        min: 0,
        max: frame.length,
      },
      elevation: {
        ...axis(heights, 1 / inHeight(1, units), heightUnit(units), colours.inkSoft, (scale) => {
          scale.width = frame.left
        }),
        position: 'left',
        min: frame.low,
        max: frame.high,
      },
      charge: {
        ...axis([0, 25, 50, 75, 100], 0.01, '%', colours.charge, (scale) => {
          scale.width = frame.width - frame.right
        }),
        position: 'right',
        min: 0,
        max: 1,
      },
    }
  }
}

function tickText(values: number[], i: number, unit: string): string {
  const digits = values.some((value) => value % 1 !== 0) ? 1 : 0
  return `${number(values[i]!, digits)}${i === values.length - 1 ? ` ${unit}` : ''}`
}
