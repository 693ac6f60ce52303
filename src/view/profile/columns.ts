import { indexAtOrBelow, interpolate } from '../../model/columns'
import type { Route } from '../../model/route/route'
import { restClass } from '../ramp'

/** The route cut into columns of equal width; depends on route and size only. */
export interface Columns {
  count: number
  /** Steps from[c] to before[c] - 1, each from a station to the next, are those of column c; never none. */
  from: Int32Array
  before: Int32Array
  /** Elevation drawn at the column's middle, m: its peak or trough where it has one, so that none is lost between pixels. */
  elevation: Float32Array
  /** Ridden distance at the columns' edges, m, count + 1 entries, and the step in which each lies. */
  edge: Float64Array
  edgeStep: Int32Array
}

const mostColumns = 1200

/** @param width px */
export function columnsOf(route: Route, width: number): Columns {
  const { distance, elevation } = route.stations
  const count = Math.max(1, Math.min(Math.round(width), mostColumns))
  const lastStep = distance.length - 2
  const columns: Columns = {
    count,
    from: new Int32Array(count),
    before: new Int32Array(count),
    elevation: new Float32Array(count),
    edge: Float64Array.from({ length: count + 1 }, (_, c) => (route.length * c) / count),
    edgeStep: new Int32Array(count + 1),
  }
  const { edge, edgeStep, from, before } = columns
  for (let c = 0; c <= count; c++) edgeStep[c] = Math.min(indexAtOrBelow(distance, edge[c]!), lastStep)
  let step = 0
  for (let c = 0; c < count; c++) {
    const first = step
    while (step <= lastStep && (distance[step]! + distance[step + 1]!) / 2 < edge[c + 1]!) step++
    const middle = (edge[c]! + edge[c + 1]!) / 2
    const here = Math.min(indexAtOrBelow(distance, middle), lastStep)
    from[c] = step > first ? first : here
    before[c] = step > first ? step : here + 1
    columns.elevation[c] = drawnElevation(distance, elevation, edge[c]!, edge[c + 1]!, first, step)
  }
  return columns
}

/** The peak or trough, by stations strictly within, that lies farthest from the value at the middle; that value where there is neither. */
function drawnElevation(
  distance: Float64Array,
  elevation: Float64Array,
  start: number,
  end: number,
  first: number,
  last: number,
): number {
  const middle = interpolate(distance, elevation, (start + end) / 2)
  const atStart = interpolate(distance, elevation, start)
  const atEnd = interpolate(distance, elevation, end)
  let peak = Math.max(atStart, atEnd)
  let trough = Math.min(atStart, atEnd)
  let drawn = middle
  for (let i = first; i <= last && i < distance.length; i++) {
    if (distance[i]! <= start || distance[i]! >= end) continue
    const here = elevation[i]!
    if (here > peak) peak = here
    else if (here < trough) trough = here
    else continue
    if (Math.abs(here - middle) > Math.abs(drawn - middle)) drawn = here
  }
  return drawn
}

const restSlot = 15

/**
 * The shade class that most steps of each column have.
 *
 * @param byStation class of each step, as in a Shading
 * @returns one class a column
 */
export function columnClasses({ count, from, before }: Columns, byStation: Uint8Array): Uint8Array {
  const classes = new Uint8Array(count)
  const steps = new Int32Array(restSlot + 1)
  for (let c = 0; c < count; c++) {
    steps.fill(0)
    let most = restSlot
    for (let i = from[c]!; i < before[c]!; i++) {
      const slot = byStation[i] === restClass ? restSlot : byStation[i]!
      if (++steps[slot]! > steps[most]! || most === slot) most = slot
    }
    classes[c] = most === restSlot ? restClass : most
  }
  return classes
}
