import { Chart, LinearScale, type Plugin, type Scale } from 'chart.js'
import type { Outcome } from '../../model/outcome/outcome'
import type { Route } from '../../model/route/route'
import { distanceUnit, heightUnit, inDistance, inHeight, inSpeed, number, type Units } from '../format'
import type { Shading } from '../ramp'
import { columnClasses, columnsOf, type Columns } from './columns'
import { chargeY, elevationY, xOf, type Frame } from './frame'
import { chargeLine, elevationLine, speedLine, type Point } from './lines'
import { drawCrossings, drawLabels, drawReserve, type Colours } from './marks'
import { fillRibbon } from './ribbon'
import { roundTicks } from './ticks'

Chart.register(LinearScale)

/** All that is drawn. */
export interface Scene {
  frame: Frame
  outcome: Outcome
  shading: Shading
  units: Units
  showSpeed: boolean
  colours: Colours
}

const font = { family: "'Overpass Variable', sans-serif", size: 12 }
const fontText = `${font.size}px ${font.family}`
const pixelsPerDistanceTick = 64
const pixelsPerHeightTick = 44
const speedDash = [2, 2.5]

/**
 * The profile's canvas: Chart.js lays out and draws the axes, a plugin of ours the ribbon, the lines and the labels. Lines as Chart.js' own
 * datasets were tried: each frame of a drag then cost about 1.5 ms more, for elements and options that stay the same.
 */
export class ProfileChart {
  #scene: Scene | undefined
  #columns: { route: Route; frame: Frame; of: Columns; elevation: Point[] } | undefined
  #chart: Chart<'line', Point[]>

  constructor(canvas: HTMLCanvasElement) {
    this.#chart = new Chart<'line', Point[]>(canvas, {
      type: 'line',
      data: { datasets: [] },
      options: { responsive: false, maintainAspectRatio: false, animation: false, events: [] },
      plugins: [this.#ribbon()],
    })
  }

  show(scene: Scene): void {
    const { frame, units, colours } = scene
    const before = this.#scene
    this.#scene = scene
    if (before?.frame === frame && before.units === units && before.colours === colours) {
      this.#chart.draw()
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

  #columnsFor({ outcome: { route }, frame }: Scene) {
    if (this.#columns?.route !== route || this.#columns.frame !== frame) {
      const of = columnsOf(route, frame.right - frame.left)
      this.#columns = { route, frame, of, elevation: elevationLine(of) }
    }
    return this.#columns
  }

  #setAxes({ frame, outcome, units, colours }: Scene): void {
    const distances = roundTicks(0, inDistance(frame.length, units), (frame.right - frame.left) / pixelsPerDistanceTick)
    const heights =
      outcome.route.elevationKnown === 'none'
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
        grid: { color: colours.line, tickLength: 5 },
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

  #ribbon(): Plugin<'line'> {
    return {
      id: 'ribbon',
      afterDatasetsDraw: ({ ctx }) => {
        const scene = this.#scene
        if (scene === undefined) return
        const { frame, outcome, shading, units, colours } = scene
        const { of, elevation } = this.#columnsFor(scene)
        const speed = scene.showSpeed ? speedOf(of, scene) : undefined
        ctx.save()
        ctx.font = fontText
        fillRibbon(ctx, frame, of, columnClasses(of, shading.byStation), shading, colours.rest)
        drawCrossings(ctx, frame, outcome, colours)
        drawLine(ctx, frame, elevation, (height) => elevationY(frame, height), colours.ink, 1.25)
        if (speed !== undefined)
          drawLine(ctx, frame, speed.line, (y) => chargeY(frame, y / speed.top), colours.ink, 1.25, speedDash)
        drawReserve(ctx, frame, outcome, colours)
        const charge = chargeLine(of, outcome)
        drawLine(ctx, frame, charge, (share) => chargeY(frame, share), colours.paper, 6.5)
        drawLine(ctx, frame, charge, (share) => chargeY(frame, share), colours.charge, 2.5)
        drawLabels(ctx, frame, outcome, speed, units, colours)
        ctx.restore()
      },
    }
  }
}

function drawLine(
  context: CanvasRenderingContext2D,
  frame: Frame,
  points: Point[],
  yOf: (value: number) => number,
  colour: string,
  width: number,
  dash: number[] = [],
): void {
  context.beginPath()
  for (const { x, y } of points) context.lineTo(xOf(frame, x), yOf(y))
  context.lineJoin = 'round'
  context.lineWidth = width
  context.strokeStyle = colour
  context.setLineDash(dash)
  context.stroke()
  context.setLineDash([])
}

function speedOf(columns: Columns, { outcome, units }: Scene): { line: Point[]; top: number } {
  const line = speedLine(columns, outcome)
  const fastest = line.reduce((most, { y }) => Math.max(most, y), 0)
  const shown = Math.max(10, 10 * Math.ceil(inSpeed(fastest, units) / 10))
  return { line, top: shown / inSpeed(1, units) }
}

function tickText(values: number[], i: number, unit: string): string {
  const digits = values.some((value) => value % 1 !== 0) ? 1 : 0
  return `${number(values[i]!, digits)}${i === values.length - 1 ? ` ${unit}` : ''}`
}
