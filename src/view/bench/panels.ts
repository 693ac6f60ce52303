import type { TransferColumns } from '../../model/battery/transfer-run'
import { momentAt } from '../../model/battery/moment'

type Column = Exclude<keyof TransferColumns, 'limit' | 'time'>

/** The bike's pack, or the carried one. */
export type Side = 'bike' | 'carried'

interface Panel extends Record<Side, Column> {
  id: string
  unit: string
  factor: number
  digits: number
  /** From 0, or as the values lie. */
  fromZero: boolean
}

/** From the top. */
export const panels: readonly Panel[] = [
  { id: 'voltage', unit: 'V', factor: 1, digits: 1, bike: 'outputVoltage', carried: 'inputVoltage', fromZero: false },
  { id: 'current', unit: 'A', factor: 1, digits: 1, bike: 'current', carried: 'sourceCurrent', fromZero: true },
  { id: 'power', unit: 'W', factor: 1, digits: 0, bike: 'given', carried: 'drawn', fromZero: true },
  { id: 'charge', unit: '%', factor: 100, digits: 0, bike: 'charge', carried: 'sourceCharge', fromZero: true },
]

/** Minutes and values of a panel's side from the start to the chart's end, at most about so many, the last one read between two rows. */
export function lineOf(panel: Panel, side: Side, columns: TransferColumns, until: number, most: number) {
  const { time } = columns
  const inside = time.findLastIndex((at) => at < until) + 1
  const every = Math.max(1, Math.ceil(inside / most))
  const points: { x: number; y: number }[] = []
  for (let i = 0; i < inside; i += every) points.push({ x: time[i]! / 60, y: columns[panel[side]][i]! * panel.factor })
  points.push({ x: until / 60, y: momentAt(columns, until)[panel[side]] * panel.factor })
  return points
}

export interface Range {
  min: number
  max: number
  /** From one mark to the next. */
  step: number
}

export const isSame = (one: Range, other: Range | undefined): boolean => one.min === other?.min && one.max === other.max

/** Whether an axis that stands has room for what another would show, and not too much of it: so it stands while a stop is dragged. */
export const isRoomy = (range: Range, standing: Range | undefined): boolean =>
  standing !== undefined &&
  standing.min <= range.min &&
  standing.max >= range.max &&
  standing.max - standing.min <= 2 * (range.max - range.min)

/** What a panel's axis shows, to round values, so that it seldom changes while a stop is dragged. */
export function roundRange(panel: Panel, columns: TransferColumns, until: number): Range {
  if (panel.id === 'charge') return { min: 0, max: 100, step: 50 }
  const values = (['bike', 'carried'] as const).flatMap((side) =>
    lineOf(panel, side, columns, until, Infinity).map(({ y }) => y),
  )
  const low = panel.fromZero ? 0 : Math.min(...values)
  const high = Math.max(...values, low + 1e-6)
  const step = roundStep((high - low) / 3)
  return { min: Math.floor(low / step) * step, max: Math.ceil(high / step) * step, step }
}

/** The least of 1, 2 and 5 times a power of ten that is no less. */
function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least))
  return power * [1, 2, 5, 10].find((times) => times * power >= least)!
}
