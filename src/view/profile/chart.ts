import { Chart, LineController, LineElement, LinearScale, PointElement, type Plugin, type Scale } from 'chart.js'
import type { Outcome } from '../../model/outcome/outcome'
import type { Route } from '../../model/route/route'
import { distanceUnit, heightUnit, inDistance, inHeight, inSpeed, number, type Units } from '../format'
import type { Shading } from '../ramp'
import { columnClasses, columnsOf, type Columns } from './columns'
import { chargeY, type Frame } from './frame'
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
const pixelsPerChargeTick = 15

const line = { parsing: false, normalized: true, pointRadius: 0, pointHitRadius: 0 } as const
/** Chart.js draws the last dataset first. */
const chargeIndex = 0

/** The profile's canvas: Chart.js draws axes and lines, a plugin of ours the ribbon below and the labels above. */
export class ProfileChart {
  #scene: Scene | undefined
  #columns: { route: Route; frame: Frame; of: Columns; elevation: Point[] } | undefined
  #classes = new Uint8Array()
  #speed: { line: Point[]; top: number } | undefined
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
    const { frame, outcome, colours } = scene
    const before = this.#scene
    this.#scene = scene
    if (this.#columns?.route !== outcome.route || this.#columns.frame !== frame) {
      const of = columnsOf(outcome.route, frame.right - frame.left)
      this.#columns = { route: outcome.route, frame, of, elevation: elevationLine(of) }
    }
    const { of, elevation } = this.#columns
    this.#classes = columnClasses(of, scene.shading.byStation)
    this.#speed = scene.showSpeed ? speedOf(of, scene) : undefined
    this.#chart.data.datasets = [
      { ...line, data: chargeLine(of, outcome), yAxisID: 'charge', borderColor: colours.charge, borderWidth: 2.5 },
      { ...line, data: this.#speed?.line ?? [], yAxisID: 'speed', borderColor: colours.ink, borderWidth: 1 },
      { ...line, data: elevation, yAxisID: 'elevation', borderColor: colours.ink, borderWidth: 1.5 },
    ]
    if (
      before?.frame !== frame ||
      before.units !== scene.units ||
      before.colours !== colours ||
      before.showSpeed !== scene.showSpeed
    )
      this.#setAxes(scene)
    if (before?.frame !== frame) this.#chart.resize(frame.width, frame.height)
    else this.#chart.update('none')
  }

  destroy(): void {
    this.#chart.destroy()
  }

  #setAxes({ frame, units, colours }: Scene): void {
    const distances = roundTicks(0, inDistance(frame.length, units), (frame.right - frame.left) / pixelsPerDistanceTick)
    const heights = roundTicks(
      inHeight(frame.lowest, units),
      inHeight(frame.high, units),
      (frame.bottom - frame.top) / pixelsPerHeightTick,
    )
    const axis = (values: number[], factor: number, unit: string, fit: (scale: Scale) => void) => ({
      type: 'linear' as const,
      afterFit: fit,
      afterBuildTicks: (scale: Scale) => void (scale.ticks = values.map((value) => ({ value: value * factor }))),
      border: { color: colours.line },
      grid: { color: colours.line, tickLength: 5, drawOnChartArea: false },
      ticks: {
        color: colours.inkSoft,
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
        ...axis(distances, 1 / inDistance(1, units), distanceUnit(units), (scale) => {
          scale.height = frame.height - frame.bottom
        }),
        position: 'bottom',
        min: 0,
        max: frame.length,
      },
      elevation: {
        ...axis(heights, 1 / inHeight(1, units), heightUnit(units), (scale) => {
          scale.width = frame.left
        }),
        position: 'left',
        min: frame.low,
        max: frame.high,
        grid: { color: colours.line, tickLength: 5 },
      },
      charge: {
        ...axis([0, 25, 50, 75, 100], 0.01, '%', (scale) => {
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
      beforeDatasetsDraw: ({ ctx }) => {
        const scene = this.#scene
        if (scene === undefined || this.#columns === undefined) return
        fillRibbon(ctx, scene.frame, this.#columns.of, this.#classes, scene.shading, scene.colours.rest)
        drawCrossings(ctx, scene.frame, scene.outcome, scene.colours)
      },
      beforeDatasetDraw: ({ ctx }, { index, meta }) => {
        const scene = this.#scene
        if (scene === undefined || index !== chargeIndex) return
        drawReserve(ctx, scene.frame, scene.outcome, scene.colours)
        ctx.beginPath()
        ;(meta.dataset as LineElement).path(ctx, { move: true } as never)
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
