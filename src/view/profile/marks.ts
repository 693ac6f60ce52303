import type { Outcome } from '../../model/outcome/outcome'
import { interpolate } from '../../model/columns'
import { inSpeed, number, percent, place, speedUnit, type Units } from '../format'
import { chargeY, elevationY, xOf, type Frame } from './frame'
import type { Point } from './lines'

type Context = CanvasRenderingContext2D

export interface Colours {
  ink: string
  inkSoft: string
  line: string
  paper: string
  charge: string
  rest: string
}

const lineHeight = 15
const crossingWidth = 7

/** Text with a rim of paper, so that it is legible on any fill. */
function write(context: Context, text: string, x: number, y: number, colour: string, paper: string): void {
  context.lineJoin = 'round'
  context.lineWidth = 4
  context.strokeStyle = paper
  context.strokeText(text, x, y)
  context.fillStyle = colour
  context.fillText(text, x, y)
}

function upright(context: Context, x: number, from: number, to: number): void {
  context.beginPath()
  context.moveTo(x, from)
  context.lineTo(x, to)
  context.stroke()
}

/** A band of paper with a dashed line where the route is travelled but not ridden. */
export function drawCrossings(context: Context, frame: Frame, outcome: Outcome, { paper, inkSoft }: Colours): void {
  for (const { distance } of outcome.route.crossings) {
    const x = Math.round(xOf(frame, distance)) + 0.5
    context.fillStyle = paper
    context.fillRect(x - crossingWidth / 2, frame.top, crossingWidth, frame.bottom - frame.top)
    context.strokeStyle = inkSoft
    context.lineWidth = 1
    context.setLineDash([4, 4])
    upright(context, x, frame.top, frame.bottom)
    context.setLineDash([])
  }
}

/** The reserve as a thin dashed line on the charge's axis. */
export function drawReserve(context: Context, frame: Frame, outcome: Outcome, { charge, paper }: Colours): void {
  if (outcome.reserve === 0) return
  const y = Math.round(chargeY(frame, outcome.reserve / outcome.usable)) + 0.5
  const along = (colour: string, width: number, dash: number[]) => {
    context.setLineDash(dash)
    context.strokeStyle = colour
    context.lineWidth = width
    context.beginPath()
    context.moveTo(frame.left, y)
    context.lineTo(frame.right, y)
    context.stroke()
    context.setLineDash([])
  }
  along(paper, 2, [])
  along(charge, 1, [6, 4])
}

/** Names the lines where they begin or end, and marks where the reserve is reached and where the motor stops for good. */
export function drawLabels(
  context: Context,
  frame: Frame,
  outcome: Outcome,
  speed: { line: Point[]; top: number } | undefined,
  units: Units,
  colours: Colours,
): void {
  const { ink, inkSoft, paper, charge } = colours
  const { left, right, bottom } = frame
  const { columns, route, usable, reserve } = outcome
  context.textBaseline = 'alphabetic'
  const reserveY = chargeY(frame, reserve / usable)
  let free = bottom - 6
  let reserveLeft = right
  context.textAlign = 'right'
  if (reserve > 0) {
    const text = `reserve ${percent(reserve / usable)}`
    write(context, text, right - 4, reserveY - 4, charge, paper)
    reserveLeft = right - 8 - context.measureText(text).width
    free = reserveY - 4 - lineHeight
  }
  if (speed !== undefined) {
    const text = `speed, 0 to ${number(inSpeed(speed.top, units))} ${speedUnit(units)}`
    const y = bottom - ((bottom - frame.top) * speed.line.at(-1)!.y) / speed.top
    write(context, text, right - 4, Math.min(y - 6, free), ink, paper)
  }
  context.textAlign = 'left'
  const chargeStart = chargeY(frame, outcome.leftAtStart / usable)
  const groundStart = elevationY(frame, route.stations.elevation[0]!)
  write(context, 'charge', left + 4, chargeStart - 6, charge, paper)
  if (Math.abs(groundStart - chargeStart) > lineHeight)
    write(
      context,
      route.elevationKnown === 'none' ? 'no elevation in the file: flat ground assumed' : 'elevation',
      left + 4,
      groundStart - 6,
      ink,
      paper,
    )
  for (const { distance } of route.crossings) {
    const x = xOf(frame, distance)
    if (x + context.measureText('crossing').width + 12 > reserveLeft) continue
    const high = frame.top + lineHeight
    const line = chargeY(frame, interpolate(route.stations.distance, columns.left, distance) / usable)
    const ground = elevationY(frame, interpolate(route.stations.distance, route.stations.elevation, distance))
    write(context, 'crossing', x + 6, Math.abs(line - high) > lineHeight ? high : ground - 6, inkSoft, paper)
  }
  if (outcome.reserveAt !== undefined)
    mark(
      context,
      frame,
      outcome.reserveAt,
      reserveY,
      34,
      `reserve reached, ${place(outcome.reserveAt, units)}`,
      colours,
    )
  if (outcome.emptyAt !== undefined)
    mark(context, frame, outcome.emptyAt, bottom, 16, `motor stops, ${place(outcome.emptyAt, units)}`, colours)
}

/** A short upright mark with its text at its head, on the side where there is room. */
function mark(
  context: Context,
  frame: Frame,
  distance: number,
  foot: number,
  height: number,
  text: string,
  { ink, paper }: Colours,
): void {
  const x = Math.round(xOf(frame, distance)) + 0.5
  const head = foot - height
  for (const [colour, width] of [
    [paper, 5],
    [ink, 2],
  ] as const) {
    context.strokeStyle = colour
    context.lineWidth = width
    upright(context, x, foot, head)
  }
  const flip = x + 6 + context.measureText(text).width > frame.right
  context.textAlign = flip ? 'right' : 'left'
  write(context, text, flip ? x - 6 : x + 6, head + 10, ink, paper)
}
