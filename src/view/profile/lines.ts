import { interpolate } from '../../model/columns'
import type { Outcome } from '../../model/forecast/outcome'
import { inSpeed, type Units } from '../format'
import type { Columns } from './columns'

/** A place of a line: ridden distance, m, and a value. */
export interface Point {
  x: number
  y: number
}

/** Elevation, m, through the columns' middles. */
export function elevationLine({ count, elevation, edge }: Columns): Point[] {
  const points: Point[] = [{ x: 0, y: elevation[0]! }]
  for (let c = 0; c < count; c++) points.push({ x: (edge[c]! + edge[c + 1]!) / 2, y: elevation[c]! })
  points.push({ x: edge[count]!, y: elevation[count - 1]! })
  return points
}

/** Charge as a share of all usable energy, 0 to 1, at the columns' edges; what is charged at a halt stands as two points in one place. */
export function chargeLine({ edge, edgeStep }: Columns, { columns, halts, usable, route }: Outcome): Point[] {
  const { distance } = route.stations
  const { left } = columns
  const leaving = new Map<number, number>()
  const points: Point[] = []
  let halt = 0
  for (let e = 0; e < edge.length; e++) {
    const x = edge[e]!
    for (; halt < halts.length && halts[halt]!.distance <= x; halt++) {
      const { station, distance, leftBefore, leftAfter } = halts[halt]!
      leaving.set(station, leftAfter)
      if (leftAfter !== leftBefore)
        points.push({ x: distance, y: leftBefore / usable }, { x: distance, y: leftAfter / usable })
    }
    const i = edgeStep[e]!
    const length = distance[i + 1]! - distance[i]!
    const share = length > 0 ? (x - distance[i]!) / length : 0
    const start = leaving.get(i) ?? left[i]!
    const end = (share < 1 ? undefined : leaving.get(i + 1)) ?? left[i + 1]!
    points.push({ x, y: (start + (end - start) * share) / usable })
  }
  return points
}

const speedColumns = 14
const speedLength = 300 // m

/** Speed, m/s, in motion, evened over 300 m or fourteen columns, whichever is more, so that each bend does not show as a spike. */
export function speedLine({ edge, count }: Columns, { columns, route }: Outcome): Point[] {
  const { distance } = route.stations
  const { ridingTime } = columns
  const half = Math.max(speedLength, (speedColumns * route.length) / count) / 2
  return Array.from(edge, (x) => {
    const from = Math.max(x - half, 0)
    const to = Math.min(x + half, route.length)
    const time = interpolate(distance, ridingTime, to) - interpolate(distance, ridingTime, from)
    return { x, y: time > 0 ? (to - from) / time : 0 }
  })
}

/** Speeds of the ride, m/s, and the one at the top of their axis: round in the rider's units. */
export interface SpeedLine {
  line: Point[]
  top: number
}

export function speedOf(columns: Columns, outcome: Outcome, units: Units): SpeedLine {
  const line = speedLine(columns, outcome)
  const fastest = line.reduce((most, { y }) => Math.max(most, y), 0)
  const shown = Math.max(10, 10 * Math.ceil(inSpeed(fastest, units) / 10))
  return { line, top: shown / inSpeed(1, units) }
}
