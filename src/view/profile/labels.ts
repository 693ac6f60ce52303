import type { Passage } from '../../model/world/controls'
import type { Outcome } from '../../model/forecast/outcome'
import { interpolate } from '../../model/columns'
import type { Units } from '../format'
import { wordsIn } from '../words/words'
import { chargeY, elevationY, xOf, type Frame } from './frame'
import type { Point, SpeedLine } from './lines'

/** Where a text stands: its baseline's start, or its end, px. */
interface Spot {
  x: number
  y: number
  end: boolean
}

/** A text of the profile and where it would stand, the best place first. */
export interface Wish {
  key: string
  text: string
  kind: 'ink' | 'soft' | 'charge'
  /** Shown even where it covers others. */
  must: boolean
  spots: Spot[]
}

export interface Label extends Omit<Wish, 'must' | 'spots'>, Spot {}

/** An upright mark with its foot on the ribbon, px. */
export interface Upright {
  key: 'reserve' | 'empty'
  x: number
  foot: number
  head: number
}

const lineHeight = 15
const rise = 12
const drop = 3
const gateWidth = 9 // px from the middle, with a little to spare

/** Marks where the reserve is reached and where the motor stops for good. */
export function uprightsOf(frame: Frame, { reserveAt, emptyAt, reserve, usable }: Outcome): Upright[] {
  const upright = (key: Upright['key'], at: number, foot: number, height: number): Upright => ({
    key,
    x: Math.round(xOf(frame, at)),
    foot,
    head: foot - height,
  })
  const marks: Upright[] = []
  if (reserveAt !== undefined) marks.push(upright('reserve', reserveAt, chargeY(frame, reserve / usable), 34))
  if (emptyAt !== undefined) marks.push(upright('empty', emptyAt, frame.bottom, 16))
  return marks
}

/** Names of the lines where they begin or end, of the uprights, controls and crossings, the most important first. */
export function wishesOf(
  frame: Frame,
  outcome: Outcome,
  passages: readonly Passage[],
  speed: SpeedLine | undefined,
  units: Units,
): Wish[] {
  const { place, profile } = wordsIn(units)
  const words = profile.lines
  const { left, right, bottom, top } = frame
  const { columns, route, usable, reserve, reserveAt, emptyAt } = outcome
  const { distance: at, elevation } = route.stations
  const beside = (x: number, y: number, gap = 6): Spot[] => [
    { x: x + gap, y, end: false },
    { x: x - gap, y, end: true },
  ]
  const above = (x: number, y: number, end: boolean, lines: readonly number[]): Spot[] =>
    lines.map((line) => ({ x, y: y - line * lineHeight, end }))
  const wishes: Wish[] = uprightsOf(frame, outcome).map(({ key, x, head }) => ({
    key,
    text: key === 'reserve' ? words.reserveReached(reserveAt!) : words.motorStops(emptyAt!),
    kind: 'ink',
    must: true,
    spots: beside(x, head + 10),
  }))
  if (reserve > 0)
    wishes.push({
      key: 'reserve-line',
      text: words.reserve(reserve / usable),
      kind: 'charge',
      must: true,
      spots: above(right - 4, chargeY(frame, reserve / usable) - 4, true, [0, -1.3]),
    })
  wishes.push({
    key: 'charge',
    text: words.charge,
    kind: 'charge',
    must: true,
    spots: above(left + 4, chargeY(frame, outcome.leftAtStart / usable) - 6, false, [0]),
  })
  if (speed !== undefined) {
    const y = Math.min(bottom - ((bottom - top) * speed.line.at(-1)!.y) / speed.top - 6, bottom - 6)
    wishes.push({
      key: 'speed',
      text: words.speed(speed.top),
      kind: 'ink',
      must: true,
      spots: above(right - 4, y, true, [0, 1, 2, 3]),
    })
  }
  const controls = passages.filter(({ kind }) => kind === 'control')
  const firstMissed = controls.find(({ met }) => !met)
  for (const control of controls) {
    const { id, name, distance, met } = control
    const x = xOf(frame, distance)
    const ground = elevationY(frame, interpolate(at, elevation, distance))
    wishes.push({
      key: `control ${id}`,
      text: met ? place(name) : words.missed(place(name)),
      kind: 'ink',
      must: control === firstMissed,
      spots: [-3, 14, 31, -20].flatMap((line) => beside(x, ground + line, gateWidth + 3)),
    })
  }
  const ground = elevationY(frame, elevation[0]!)
  wishes.push({
    key: 'elevation',
    text: route.elevationKnown === 'none' ? words.noElevation : words.elevation,
    kind: 'ink',
    must: route.elevationKnown === 'none',
    spots: above(left + 4, ground - 6, false, [0, -1.4, 1, 2, 3, 4]),
  })
  route.crossings.forEach(({ distance }, i) => {
    const x = xOf(frame, distance)
    const line = chargeY(frame, interpolate(at, columns.left, distance) / usable)
    const high = top + lineHeight
    const low = elevationY(frame, interpolate(at, elevation, distance)) - 6
    const heights = Math.abs(line - high) > lineHeight ? [high, low] : [low, high]
    wishes.push({
      key: `crossing ${i}`,
      text: words.crossing,
      kind: 'soft',
      must: false,
      spots: heights.flatMap((y) => beside(x, y)),
    })
  })
  return wishes
}

/**
 * Puts the texts where none covers another, a line or the ribbon's edge. What finds no such room is left out, if it may be; else it covers a line
 * rather than another.
 *
 * @param wishes the most important first; what must be shown goes before what may be left out
 * @param line points left in sight, px
 * @param widthOf width of a text, px
 */
export function placeLabels(
  wishes: readonly Wish[],
  { left, right }: Frame,
  line: readonly Point[],
  widthOf: (text: string) => number,
): Label[] {
  const taken: Box[] = []
  const inOrder = wishes.toSorted((a, b) => Number(b.must) - Number(a.must))
  return inOrder.flatMap(({ must, spots, ...wish }) => {
    const width = widthOf(wish.text)
    const places = spots.map((spot) => ({ spot, box: boxOf(spot, width) }))
    const inside = places.filter(({ box }) => box.left >= left && box.right <= right)
    const free = inside.filter(({ box }) => !taken.some((other) => overlap(box, other)))
    const clear = free.find(({ box }) => !line.some((point) => holds(box, point)))
    const chosen = clear ?? (must ? (free[0] ?? inside[0] ?? places[0]) : undefined)
    if (chosen === undefined) return []
    taken.push(chosen.box)
    return [{ ...wish, ...chosen.spot }]
  })
}

interface Box {
  left: number
  right: number
  top: number
  bottom: number
}

function boxOf({ x, y, end }: Spot, width: number): Box {
  const left = end ? x - width : x
  return { left, right: left + width, top: y - rise, bottom: y + drop }
}

/** Between two texts beside each other, px. */
const between = 4
const overlap = (a: Box, b: Box) =>
  a.left < b.right + between && b.left < a.right + between && a.top < b.bottom && b.top < a.bottom
const holds = ({ left, right, top, bottom }: Box, { x, y }: Point) => x > left && x < right && y > top && y < bottom
