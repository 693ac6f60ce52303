import { BarController, BarElement, CategoryScale, Chart, Legend, LinearScale, Tooltip } from 'chart.js'
import { number } from '../format'
import type { ChartColours } from '../theme.svelte'

Chart.register(BarController, BarElement, CategoryScale, Legend, LinearScale, Tooltip)

/** Bars that add up, a row or column a label. */
export interface BarScene {
  labels: string[]
  /** Of one cause: its name, its colour, and what it does at each label, min. */
  parts: { name: string; colour: string; values: number[] }[]
  isUpright: boolean
  unit: string
  colours: ChartColours
}

const font = { family: "'Overpass Variable', sans-serif", size: 12 }

/** Minutes by cause as bars: what is gained goes to one side of nought, what is lost to the other. */
export class CauseChart {
  readonly #chart: Chart<'bar'>

  constructor(canvas: HTMLCanvasElement) {
    this.#chart = new Chart<'bar'>(canvas, {
      type: 'bar',
      data: { labels: [], datasets: [] },
      options: { responsive: true, maintainAspectRatio: false, animation: false },
    })
  }

  show({ labels, parts, isUpright, unit, colours }: BarScene): void {
    const axis = { stacked: true, grid: { color: colours.line }, border: { color: colours.line } }
    const ticks = { color: colours.inkSoft, font }
    const values = { ...axis, title: { display: true, text: unit, color: colours.inkSoft, font }, ticks }
    const names = { ...axis, grid: { display: false }, ticks }
    this.#chart.data = {
      labels,
      datasets: parts.map(({ name, colour, values }) => ({
        ...{ label: name, data: values, backgroundColor: colour, borderColor: colours.ink, borderWidth: 1 },
        ...{ borderSkipped: false, maxBarThickness: 34 },
      })),
    }
    this.#chart.options.indexAxis = isUpright ? 'x' : 'y'
    this.#chart.options.scales = isUpright ? { x: names, y: values } : { x: values, y: names }
    this.#chart.options.plugins = {
      legend: { position: 'bottom', labels: { color: colours.ink, font, boxWidth: 14, boxHeight: 14 } },
      tooltip: {
        ...{ titleFont: font, bodyFont: font },
        callbacks: { label: ({ dataset, raw }) => `${dataset.label}: ${number(Number(raw), 1)} ${unit}` },
      },
    }
    this.#chart.update('none')
  }

  destroy(): void {
    this.#chart.destroy()
  }
}
