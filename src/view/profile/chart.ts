import { Chart, LineController, LineElement, LinearScale, PointElement, type Plugin, type Scale } from 'chart.js'
import type { Outcome } from '../../model/outcome/outcome'
import type { Route } from '../../model/route/route'
import { distanceUnit, heightUnit, inDistance, inHeight, inSpeed, number, type Units } from '../format'
import type { Shading } from '../ramp'
import { columnClasses, columnsOf, type Columns } from './columns'
import type { Frame } from './frame'
import { chargeLine, elevationLine, speedLine, type Point } from './lines'
import { drawCrossings, drawLabels, drawReserve, type Colours } from './marks'
import { fillRibbon } from './ribbon'
import { roundTicks } from './ticks'

Chart.register(LineController, LineElement, LinearScale, PointElement)

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

/** Top to bottom: Chart.js draws the last first. */
const lineNames = ['charge', 'speed', 'elevation'] as const
const lineWidths = { charge: 2.5, speed: 1.25, elevation: 1.25 }
const speedDash = [2, 2.5]
const casing = 2

/** The profile's canvas: Chart.js draws axes and lines, a plugin of ours the ribbon below and the labels above. */
export class ProfileChart {
  #scene: Scene | undefined
  #columns: { route: Route; frame: Frame; of: Columns; elevation: Point[] } | undefined
  #classes: Uint8Array = new Uint8Array()
  #speed: { line: Point[]; top: number } | undefined
  /** From frame to frame only the lines change; laying out the axes again would be half the work. */
  #axesStand = false
  #chart: Chart<'line', Point[]>

  constructor(canvas: HTMLCanvasElement) {
    this.#chart = new Chart<'line', Point[]>(canvas, {
      type: 'line',
      data: {
        datasets: lineNames.map((name) => ({
          data: [],
          yAxisID: name,
          borderWidth: lineWidths[name],
          parsing: false,
          normalized: true,
          pointRadius: 0,
          borderDash: name === 'speed' ? speedDash : [],
        })),
      },
      options: {
        responsive: false,
        maintainAspectRatio: false,
        animation: false,
        events: [],
        scales: Object.fromEntries(['x', ...lineNames].map((name) => [name, { type: 'linear' }])),
      },
      plugins: [this.#ribbon()],
    })
  }

  show(scene: Scene): void {
    const { frame, outcome, colours } = scene
    const before = this.#scene
    this.#scene = scene
    if (this.#columns?.route !== outcome.route || this.#columns.frame !== frame) {
      const of = columnsOf(outcome.route, frame.right - frame.left)
      this.#columns = { route: outcome.route, frame, of, elevation: elevationLine(of) }
    }
    const { of, elevation } = this.#columns
    this.#classes = columnClasses(of, scene.shading.byStation)
    const top = this.#speed?.top
    this.#speed = scene.showSpeed ? speedOf(of, scene) : undefined
    this.#draw('charge', chargeLine(of, outcome), colours.charge)
    this.#draw('speed', this.#speed?.line ?? [], colours.ink)
    this.#draw('elevation', elevation, colours.ink)
    const anew =
      before?.frame !== frame || before.units !== scene.units || before.colours !== colours || this.#speed?.top !== top
    if (anew) this.#setAxes(scene)
    this.#axesStand = !anew
    if (before?.frame !== frame) this.#chart.resize(frame.width, frame.height)
    else this.#chart.update('none')
  }

  destroy(): void {
    this.#chart.destroy()
  }

  #draw(name: (typeof lineNames)[number], points: Point[], colour: string): void {
    const dataset = this.#chart.data.datasets[lineNames.indexOf(name)]!
    dataset.data = points
    dataset.borderColor = colour
  }

  #setAxes({ frame, units, colours }: Scene): void {
    const distances = roundTicks(0, inDistance(frame.length, units), (frame.right - frame.left) / pixelsPerDistanceTick)
    const heights = roundTicks(
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
      speed: { type: 'linear', display: false, min: 0, max: this.#speed?.top ?? 1 },
    }
  }

  #ribbon(): Plugin<'line'> {
    return {
      id: 'ribbon',
      beforeLayout: () => !this.#axesStand,
      beforeDatasetsDraw: ({ ctx }) => {
        const scene = this.#scene
        if (scene === undefined || this.#columns === undefined) return
        fillRibbon(ctx, scene.frame, this.#columns.of, this.#classes, scene.shading, scene.colours.rest)
        drawCrossings(ctx, scene.frame, scene.outcome, scene.colours)
      },
      beforeDatasetDraw: ({ ctx }, { index, meta }) => {
        const scene = this.#scene
        if (scene === undefined || lineNames[index] !== 'charge') return
        drawReserve(ctx, scene.frame, scene.outcome, scene.colours)
        ctx.beginPath()
        ;(meta.dataset as LineElement).path(ctx)
        ctx.lineJoin = 'round'
        ctx.lineWidth = lineWidths.charge + 2 * casing
        ctx.strokeStyle = scene.colours.paper
        ctx.stroke()
      },
      afterDatasetsDraw: ({ ctx }) => {
        const scene = this.#scene
        if (scene === undefined) return
        ctx.save()
        ctx.font = fontText
        drawLabels(ctx, scene.frame, scene.outcome, this.#speed, scene.units, scene.colours)
        ctx.restore()
      },
    }
  }
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
