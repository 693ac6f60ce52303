import { Chart, LinearScale, LineController, LineElement, PointElement, type Plugin, type Scale } from 'chart.js'
import type { TransferColumns } from '../../model/battery/transfer-run'
import { number } from '../format'
import type { ChartColours } from '../theme.svelte'
import { momentAt } from '../../model/battery/moment'
import { isRoomy, isSame, lineOf, panels, roundRange, type Range, type Side } from './panels'

Chart.register(LinearScale, LineController, LineElement, PointElement)

/** All that is drawn. */
export interface Scene {
  columns: TransferColumns
  /** The chart's end, the slider's place and the end of the stop, s. */
  until: number
  time: number
  stay: number
  width: number
  height: number
  /** Of its letters and the room for them. */
  scale: number
  /** Whether a stop is dragged: its axes stand where they can. */
  isMoving: boolean
  colours: ChartColours
  words: { bike: string; carried: string; stopEnds: string }
}

/** Room for axes at the left and names at the right, px; the band and the slider keep the same. */
export const margins = { left: 50, right: 104 }

const font = { family: "'Overpass Variable', sans-serif", size: 12 }
const dash = [5, 4]
const pixelsPerPoint = 4
const nameHeight = 15 // px

const sides: readonly Side[] = ['carried', 'bike']

/** Both sides of a charge over time, a panel a quantity: the bike's pack by a full line, the carried one by a broken one. */
export class BenchChart {
  #scene: Scene | undefined
  #ranges: Range[] = []
  #chart: Chart<'line', { x: number; y: number }[]>

  constructor(canvas: HTMLCanvasElement) {
    this.#chart = new Chart<'line', { x: number; y: number }[]>(canvas, {
      type: 'line',
      data: { datasets: [] },
      options: {
        ...{ responsive: false, maintainAspectRatio: false, animation: false, events: [] },
        ...{ parsing: false, normalized: true, pointStyle: false },
      },
      plugins: [this.#marks()],
    })
  }

  show(scene: Scene): void {
    const before = this.#scene
    this.#scene = scene
    const isFramed = (['until', 'width', 'height', 'scale', 'colours', 'words'] as const).every(
      (key) => before?.[key] === scene[key],
    )
    if (isFramed && before?.columns === scene.columns && before.isMoving === scene.isMoving) {
      this.#chart.draw()
      return
    }
    const ranges = panels.map((panel, i) => {
      const range = roundRange(panel, scene.columns, scene.until)
      return isFramed && scene.isMoving && isRoomy(range, this.#ranges[i]) ? this.#ranges[i]! : range
    })
    const areAxesSame = isFramed && ranges.every((range, i) => isSame(range, this.#ranges[i]))
    this.#ranges = ranges
    this.#setLines(scene)
    if (areAxesSame) {
      this.#drawLines()
      return
    }
    this.#setAxes(scene)
    if (this.#chart.width !== scene.width || this.#chart.height !== scene.height)
      this.#chart.resize(scene.width, scene.height)
    this.#chart.update('none')
  }

  /** On axes that are as they were: to lay them out again takes longer than all else, and a drag has no time for it. */
  #drawLines(): void {
    this.#chart.data.datasets.forEach((_, i) => {
      const { controller } = this.#chart.getDatasetMeta(i)
      controller.buildOrUpdateElements()
      controller.update('none')
    })
    this.#chart.draw()
  }

  #setLines({ columns, until, width, colours }: Scene): void {
    const lines = panels.flatMap((panel) => sides.map((side) => ({ panel, side })))
    const { datasets } = this.#chart.data
    lines.forEach(({ panel, side }, i) => {
      const line = (datasets[i] ??= { data: [], yAxisID: panel.id, borderWidth: 2, borderJoinStyle: 'round' })
      line.borderDash = side === 'bike' ? [] : dash
      line.borderColor = panel.id === 'charge' ? colours.charge : colours.ink
      line.data = lineOf(panel, side, columns, until, width / pixelsPerPoint)
    })
  }

  destroy(): void {
    this.#chart.destroy()
  }

  #setAxes({ until, scale, colours }: Scene): void {
    const axis = { border: { color: colours.line }, grid: { color: colours.line } }
    const letters = { ...font, size: scale * font.size }
    const ticks = { color: colours.inkSoft, font: letters, maxRotation: 0, padding: 3, autoSkip: false, sampleSize: 1 }
    const last = (label: string, i: number, all: unknown[], unit: string) =>
      i === all.length - 1 ? `${label} ${unit}` : label
    /** Room between two panels. */
    const gap = {
      type: 'linear' as const,
      position: 'left' as const,
      stack: 'panels',
      stackWeight: 0.3,
      border: { display: false },
      grid: { display: false },
      ticks: { display: false },
    }
    const options = this.#chart.options
    options.layout = { padding: { top: 20 * scale, right: scale * margins.right }, autoPadding: false }
    options.scales = {
      x: {
        ...axis,
        type: 'linear',
        min: 0,
        max: until / 60,
        ticks: {
          ...ticks,
          maxTicksLimit: 8,
          includeBounds: false,
          callback: (value, i, all) => last(number(Number(value)), i, all, 'min'),
        },
      },
      // A stack of axes is built from the bottom.
      ...Object.fromEntries(
        panels.toReversed().flatMap((panel) => {
          const { min, max, step } = this.#ranges[panels.indexOf(panel)]!
          const value = {
            ...axis,
            type: 'linear' as const,
            position: 'left' as const,
            stack: 'panels',
            stackWeight: 1,
            offset: false,
            ...{ min, max },
            afterFit: (axis: Scale) => void (axis.width = scale * margins.left),
            ticks: {
              ...ticks,
              stepSize: step,
              callback: (value: number | string, i: number, all: unknown[]) =>
                last(number(Number(value), Number(value) % 1 === 0 ? 0 : 1), i, all, panel.unit),
            },
          }
          return panel === panels[0]
            ? [[panel.id, value]]
            : [
                [panel.id, value],
                [`above ${panel.id}`, gap],
              ]
        }),
      ),
    }
  }

  #marks(): Plugin<'line'> {
    return {
      id: 'marks',
      afterDatasetsDraw: ({ ctx, chartArea, scales }) => {
        const scene = this.#scene
        const x = scales['x']
        if (scene === undefined || x === undefined) return
        const { columns, time, stay, until, scale, colours, words } = scene
        const { top, bottom, right } = chartArea
        ctx.save()
        ctx.font = `${scale * font.size}px ${font.family}`
        ctx.textBaseline = 'middle'
        const upright = (at: number, pattern: number[], width: number) => {
          ctx.beginPath()
          ctx.setLineDash(pattern)
          ctx.lineWidth = width
          ctx.strokeStyle = colours.ink
          ctx.moveTo(at, top)
          ctx.lineTo(at, bottom)
          ctx.stroke()
          ctx.setLineDash([])
        }
        if (stay > 0 && stay < until) {
          const at = x.getPixelForValue(stay / 60)
          upright(at, [2, 3], 1)
          ctx.fillStyle = colours.inkSoft
          ctx.textAlign = at > (chartArea.left + right) / 2 ? 'right' : 'left'
          ctx.fillText(words.stopEnds, at, top - 10 * scale)
        }
        const at = x.getPixelForValue(time / 60)
        upright(at, [], 1)
        const moment = momentAt(columns, time)
        ctx.textAlign = 'left'
        for (const panel of panels) {
          const y = scales[panel.id]
          if (y === undefined) continue
          const bike = moment[panel.bike] * panel.factor
          const carried = moment[panel.carried] * panel.factor
          const colour = panel.id === 'charge' ? colours.charge : colours.ink
          for (const value of [carried, bike]) {
            ctx.beginPath()
            ctx.arc(at, y.getPixelForValue(value), 3.5, 0, 2 * Math.PI)
            ctx.fillStyle = colour
            ctx.fill()
          }
          ctx.fillStyle = colour
          const [high, low] = apart(
            y.getPixelForValue(Math.max(bike, carried)),
            y.getPixelForValue(Math.min(bike, carried)),
            scale * nameHeight,
          )
          const name = (text: string, value: number, where: number) =>
            ctx.fillText(`${text} ${number(value, panel.digits)} ${panel.unit}`, right + 8, where)
          name(words.bike, bike, bike >= carried ? high : low)
          name(words.carried, carried, bike >= carried ? low : high)
        }
        ctx.restore()
      },
    }
  }
}

/** Two places one above the other, moved apart so that names of a height there do not touch. */
function apart(high: number, low: number, height: number): [number, number] {
  const short = height - (low - high)
  return short <= 0 ? [high, low] : [high - short / 2, low + short / 2]
}
