import { Chart, Legend, LinearScale, LineController, LineElement, PointElement, Tooltip } from 'chart.js'
import { number } from '../format'
import type { ChartColours } from '../theme.svelte'

Chart.register(Legend, LinearScale, LineController, LineElement, PointElement, Tooltip)

/** Curves, as of the finish over the length of a stop, a line a place; the first is the one that counts. */
export interface CurveScene {
  /** Minutes, and finish, s since the start; or what the words of the axes say. */
  lines: { name: string; points: { x: number; y: number }[] }[]
  clock: (time: number) => string
  words: { length: string; finish: string; minutes: string }
  colours: ChartColours
  /** Of what holds over places: in steps, from nothing on. */
  stepped?: boolean
}

export const font = { family: "'Overpass Variable', sans-serif", size: 12 }
const dashes = [[], [7, 4], [2, 3], [10, 3, 2, 3]]
const tick = 5 * 60 // s

/** A step of an axis of times, s, with which it has some six. */
export const tickOf = (low: number, high: number): number => tick * Math.max(1, Math.ceil((high - low) / tick / 6))

/** A straight axis in the page's colours. */
export const axisOf =
  (colours: ChartColours) =>
  (text: string): { type: 'linear'; grid: object; border: object; title: object } => ({
    type: 'linear',
    grid: { color: colours.line },
    border: { color: colours.line },
    title: { display: true, text, color: colours.inkSoft, font },
  })

/** Curves of the finish over the length of a stop. */
export class CurveChart {
  readonly #chart: Chart<'line'>

  constructor(canvas: HTMLCanvasElement) {
    this.#chart = new Chart<'line'>(canvas, {
      type: 'line',
      data: { datasets: [] },
      options: { responsive: true, maintainAspectRatio: false, animation: false },
    })
  }

  show({ lines, clock, words, colours, stepped = false }: CurveScene): void {
    const axis = axisOf(colours)
    const values = lines.flatMap(({ points }) => points.map(({ y }) => y))
    const [low, high] = [Math.min(...values), Math.max(...values)]
    const step = stepped ? Math.max(1, Math.ceil(high / 5)) : tickOf(low, high)
    this.#chart.data = {
      datasets: lines.map(({ name, points }, k) => ({
        ...{ label: name, data: points, borderColor: k === 0 ? colours.charge : colours.inkSoft },
        ...{ backgroundColor: k === 0 ? colours.charge : colours.inkSoft, borderDash: dashes[k % dashes.length]! },
        ...{ borderWidth: k === 0 ? 3 : 1.5, pointRadius: 0, pointHitRadius: 8, order: k, stepped },
      })),
    }
    this.#chart.options.scales = {
      x: {
        ...axis(words.length),
        min: 0,
        max: Math.max(...lines.flatMap(({ points }) => points.map(({ x }) => x))),
        ticks: { color: colours.inkSoft, font, includeBounds: false, callback: (value) => number(Number(value)) },
      },
      y: {
        ...axis(words.finish),
        min: stepped ? 0 : step * Math.floor(low / step),
        ticks: { color: colours.inkSoft, font, stepSize: step, callback: (value) => clock(Number(value)) },
      },
    }
    this.#chart.options.plugins = {
      legend: { position: 'bottom', labels: { color: colours.ink, font, boxWidth: 28, boxHeight: 1 } },
      tooltip: {
        ...{ titleFont: font, bodyFont: font },
        callbacks: {
          title: ([item]) => (item === undefined ? '' : `${number(item.parsed.x ?? 0)} ${words.minutes}`),
          label: ({ dataset, parsed }) => `${dataset.label}: ${clock(parsed.y ?? 0)}`,
        },
      },
    }
    this.#chart.update('none')
  }

  destroy(): void {
    this.#chart.destroy()
  }
}
