import { Chart, LinearScale, PointElement, ScatterController, Tooltip, type ChartDataset, type Plugin } from 'chart.js'
import type { ChartColours } from '../theme.svelte'
import { axisOf, font, tickOf } from './chart'

Chart.register(LinearScale, PointElement, ScatterController, Tooltip)

/** Something one could choose: finish, s since the start, and days of 100 on which the charge lasts. */
export interface FrontierPoint {
  x: number
  y: number
  name: string
  /** Both in words. */
  text: string
  /** Why it is no choice; undefined where it is one. */
  why: string | undefined
}

/** What could be chosen, by when it ends and how sure it is. */
export interface FrontierScene {
  points: FrontierPoint[]
  clock: (time: number) => string
  words: { finish: string; chance: string }
  colours: ChartColours
}

/** Points with their names, of which those that are no choice stand back. */
export class FrontierChart {
  readonly #chart: Chart<'scatter', FrontierPoint[]>

  constructor(canvas: HTMLCanvasElement) {
    this.#chart = new Chart<'scatter', FrontierPoint[]>(canvas, {
      type: 'scatter',
      data: { datasets: [] },
      options: { responsive: true, maintainAspectRatio: false, animation: false },
      plugins: [names],
    })
  }

  show({ points, clock, words, colours }: FrontierScene): void {
    const axis = axisOf(colours)
    const set = (
      some: FrontierPoint[],
      colour: string,
      pointRadius: number,
    ): ChartDataset<'scatter', FrontierPoint[]> => ({
      ...{ data: some, backgroundColor: colour, borderColor: colour, pointRadius, pointHoverRadius: pointRadius + 2 },
      pointHitRadius: 10,
    })
    this.#chart.data = {
      datasets: [
        set(
          points.filter(({ why }) => why === undefined),
          colours.charge,
          6,
        ),
        set(
          points.filter(({ why }) => why !== undefined),
          colours.inkSoft,
          4,
        ),
      ],
    }
    const times = points.map(({ x }) => x)
    const step = tickOf(Math.min(...times), Math.max(...times))
    const low = Math.min(...points.map(({ y }) => y))
    this.#chart.options.layout = { padding: { top: 18, right: 24 } }
    this.#chart.options.scales = {
      x: {
        ...axis(words.finish),
        min: step * (Math.floor(Math.min(...times) / step) - 1),
        max: step * (Math.ceil(Math.max(...times) / step) + 1),
        ticks: {
          color: colours.inkSoft,
          font,
          stepSize: step,
          maxRotation: 0,
          callback: (value) => clock(Number(value)),
        },
      },
      y: {
        ...axis(words.chance),
        min: Math.max(0, 10 * Math.floor(low / 10 - 0.5)),
        max: 100,
        ticks: { color: colours.inkSoft, font, stepSize: 10 },
      },
    }
    this.#chart.options.plugins = {
      legend: { display: false },
      tooltip: {
        ...{ titleFont: font, bodyFont: font, footerFont: { ...font, weight: 'normal' }, displayColors: false },
        callbacks: {
          title: ([item]) => (item === undefined ? '' : (item.raw as FrontierPoint).name),
          label: ({ raw }) => (raw as FrontierPoint).text,
          footer: ([item]) => (item === undefined ? '' : ((item.raw as FrontierPoint).why ?? '')),
        },
      },
    }
    this.#chart.update('none')
  }

  destroy(): void {
    this.#chart.destroy()
  }
}

interface Box {
  left: number
  top: number
  width: number
  height: number
}

const meets = (one: Box, other: Box): boolean =>
  one.left < other.left + other.width &&
  other.left < one.left + one.width &&
  one.top < other.top + other.height &&
  other.top < one.top + one.height

/** Writes the names of what is a choice beside its point where there is room: a name lies on no other, on no point, and in the frame, or is left to the tooltip. */
const names: Plugin<'scatter'> = {
  id: 'names',
  afterDatasetsDraw(chart) {
    const { ctx, chartArea, data } = chart
    const [choices] = data.datasets
    if (choices === undefined) return
    const [radius, height] = [7, 16]
    const taken = [0, 1].flatMap((set) =>
      chart
        .getDatasetMeta(set)
        .data.map(({ x, y }): Box => ({ left: x - radius, top: y - radius, width: 2 * radius, height: 2 * radius })),
    )
    ctx.save()
    ctx.font = `${font.size}px ${font.family}`
    ctx.fillStyle = String(choices.borderColor)
    ctx.textBaseline = 'middle'
    chart.getDatasetMeta(0).data.forEach(({ x, y }, k) => {
      const { name } = choices.data[k] as FrontierPoint
      const { width } = ctx.measureText(name)
      const [above, below] = [y - radius - height, y + radius]
      const place = [
        [x, above],
        [x - width, above],
        [x - width / 2, above],
        [x, below],
        [x - width, below],
        [x + radius + 3, y - height / 2],
        [x - radius - 3 - width, y - height / 2],
      ]
        .map(([left, top]): Box => ({ left: left!, top: top!, width, height }))
        .find(
          (box) =>
            box.left >= chartArea.left &&
            box.left + width <= chart.width &&
            box.top >= 0 &&
            box.top + height <= chartArea.bottom &&
            !taken.some((one) => meets(box, one)),
        )
      if (place === undefined) return
      taken.push(place)
      ctx.fillText(name, place.left, place.top + height / 2)
    })
    ctx.restore()
  },
}
