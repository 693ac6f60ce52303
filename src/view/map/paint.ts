import type { Route } from '../../model/route/route'
import { radiansPerDegree } from '../../model/units'
import { restClass, type Shading } from '../ramp'
import type { Box } from './labels'
import { arrowsAlong, eachPiece, evenLength, runsOf, segmentClasses, widen, type Frame, type Line } from './line'
import type { World } from '../../model/geo/mercator'

/** Of the theme; asking the page for them in each frame would cost more than the drawing. */
export interface Inks {
  casing: string
  inner: string
  hollow: string
  rest: string
  /** Of the marks beside a stretch. */
  ticks: string
}

/** A part of the route, from one station to another. */
export interface Stations {
  first: number
  last: number
}

export interface Scene {
  inks: Inks
  frame: Frame
  line: Line
  world: World
  /** Of the route's crossings, between their ends; none where it is not known. */
  ways: readonly (World | undefined)[]
  route: Route
  shading: Shading
  /** Of each segment of the line, from `shadesOf`. */
  classes: Uint8Array
  leg: Stations | undefined
  stretches: readonly Stations[]
  /** What is to be seen of it, pixels; a line outside need not be drawn. */
  extent: Box
}

const casingWidth = 8.5
const innerWidth = 6.5
const shadeWidth = 4.5
/** Across the line, so that marks stick out on both sides. */
const ticksWidth = 18
const ticks = [1.75, 4.25]
const shadeEvery = 6
const arrowEvery = 90
const arrowsApart = 45
/** More than half of the widest line. */
const beyond = 10

/** Draws the route: crossings, casing, shading, direction. The context's unit is the CSS pixel of the frame. */
export function paint(context: CanvasRenderingContext2D, scene: Scene): void {
  const { casing, inner } = scene.inks
  context.lineJoin = 'round'
  context.lineCap = 'round'
  const whole = new Path2D()
  eachPiece(scene.line, (first, last) => traceWithin(whole, scene, first, last))

  drawCrossings(context, scene)
  drawStretches(context, scene)
  if (scene.leg !== undefined) {
    const stretch = new Path2D()
    eachPart(scene.line, scene.leg, (first, last) => traceWithin(stretch, scene, first, last))
    stroke(context, stretch, casingWidth + 8, casing)
    stroke(context, stretch, casingWidth + 4, inner)
  }
  stroke(context, whole, casingWidth, casing)
  stroke(context, whole, innerWidth, inner)
  drawShades(context, scene)
  drawArrows(context, scene)
}

function trace(path: Path2D, { x, y }: Line, first: number, last: number): void {
  path.moveTo(x[first]!, y[first]!)
  for (let v = first + 1; v <= last; v++) path.lineTo(x[v]!, y[v]!)
}

/** As `trace`, without the segments that lie outside; not for a line with dashes, which would begin anew. */
function traceWithin(path: Path2D, { line: { x, y }, extent }: Scene, first: number, last: number): void {
  const left = extent.left - beyond
  const right = extent.right + beyond
  const top = extent.top - beyond
  const bottom = extent.bottom + beyond
  let drawn = -1
  for (let v = first + 1; v <= last; v++) {
    const [fromX, fromY, toX, toY] = [x[v - 1]!, y[v - 1]!, x[v]!, y[v]!]
    if ((fromX < left && toX < left) || (fromX > right && toX > right)) continue
    if ((fromY < top && toY < top) || (fromY > bottom && toY > bottom)) continue
    if (drawn !== v - 1) path.moveTo(fromX, fromY)
    path.lineTo(toX, toY)
    drawn = v
  }
}

function stroke(context: CanvasRenderingContext2D, path: Path2D, width: number, colour: string): void {
  context.lineWidth = width
  context.strokeStyle = colour
  context.stroke(path)
}

/** Vertices of the line that lie within some stations. */
function eachPart(line: Line, part: Stations, call: (first: number, last: number) => void): void {
  eachPiece(line, (first, last) => {
    let from = first
    while (from < last && line.station[from + 1]! <= part.first) from++
    let to = from
    while (to < last && line.station[to]! < part.last) to++
    if (to > from && line.station[to]! > part.first && line.station[from]! < part.last) call(from, to)
  })
}

/** Class of each segment of the line, evened out to what can be seen at this zoom. */
export function shadesOf({
  frame,
  line,
  route,
  shading,
}: Pick<Scene, 'frame' | 'line' | 'route' | 'shading'>): Uint8Array {
  const every = evenLength(shadeEvery * metresPerPixel(frame, route))
  return segmentClasses(line, shading.byStation, route.stations.distance, every, restClass)
}

function drawShades(context: CanvasRenderingContext2D, scene: Scene): void {
  const { line, shading, classes, inks } = scene
  const paths = new Map<number, Path2D>()
  for (const run of runsOf(line, classes)) {
    let path = paths.get(run.class)
    if (path === undefined) paths.set(run.class, (path = new Path2D()))
    if (run.class === restClass) trace(path, line, run.first, run.last)
    else traceWithin(path, scene, run.first, run.last)
  }
  context.lineCap = 'butt'
  for (const [shade, path] of paths)
    if (shade !== restClass) stroke(context, path, shadeWidth, shading.classes[shade]!.colour)
  const rest = paths.get(restClass)
  if (rest === undefined) return
  stroke(context, rest, shadeWidth, inks.hollow)
  context.lineCap = 'round'
  context.setLineDash([0.1, 4])
  stroke(context, rest, 2, inks.rest)
  context.setLineDash([])
}

/** Marks across the line, as on a ruler. */
function drawStretches(context: CanvasRenderingContext2D, { line, stretches, inks }: Scene): void {
  if (stretches.length === 0) return
  const path = new Path2D()
  for (const stretch of stretches) eachPart(line, stretch, (first, last) => trace(path, line, first, last))
  context.lineCap = 'butt'
  context.lineJoin = 'bevel'
  context.setLineDash(ticks)
  stroke(context, path, ticksWidth, inks.ticks)
  context.setLineDash([])
  context.lineCap = 'round'
  context.lineJoin = 'round'
}

/** What a part of the line covers, pixels; undefined where none of it is in the frame. */
export function extentOf(line: Line, part: Stations): Box | undefined {
  const extent: Box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity }
  eachPart(line, part, (first, last) => {
    for (let v = first; v <= last; v++) widen(extent, line.x[v]!, line.y[v]!)
  })
  return extent.left === Infinity ? undefined : extent
}

/** What the line and the ways of the crossings cover, pixels; undefined where nothing of them is in the frame. */
export function routeExtent(
  frame: Frame,
  { x, y }: Line,
  world: World,
  ways: readonly (World | undefined)[],
  { crossings, sections }: Route,
): Box | undefined {
  const extent: Box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity }
  for (let v = 0; v < x.length; v++) widen(extent, x[v]!, y[v]!)
  crossings.forEach(({ after }, i) => {
    for (const station of [sections[after]!.last, sections[after + 1]!.first])
      widen(extent, ...pixel(frame, world, station))
    const way = ways[i]
    for (let k = 0; k < (way?.x.length ?? 0); k++) widen(extent, ...pixel(frame, way!, k))
  })
  return extent.left === Infinity ? undefined : extent
}

function drawCrossings(context: CanvasRenderingContext2D, { frame, world, ways, route, inks }: Scene): void {
  const path = new Path2D()
  route.crossings.forEach(({ after }, i) => {
    const from = route.sections[after]
    const to = route.sections[after + 1]
    if (from === undefined || to === undefined) return
    let [x, y] = pixel(frame, world, from.last)
    path.moveTo(x, y)
    const way = ways[i]
    for (let k = 0; k < (way?.x.length ?? 0); k++) {
      const [nextX, nextY] = pixel(frame, way!, k)
      if (Math.abs(nextX - x) < 1 && Math.abs(nextY - y) < 1) continue
      path.lineTo(nextX, nextY)
      x = nextX
      y = nextY
    }
    path.lineTo(...pixel(frame, world, to.first))
  })
  context.lineCap = 'butt'
  stroke(context, path, 4, inks.inner)
  context.setLineDash([6, 5])
  stroke(context, path, 2, inks.casing)
  context.setLineDash([])
  context.lineCap = 'round'
}

const pixel = ({ scale, originX, originY }: Frame, { x, y }: World, station: number): [number, number] => [
  x[station]! * scale - originX,
  y[station]! * scale - originY,
]

const equator = 40_075_017 // m, WGS84

const metresPerPixel = ({ scale }: Frame, { stations }: Route) =>
  (equator * Math.cos(stations.latitude[0]! * radiansPerDegree)) / scale

function drawArrows(context: CanvasRenderingContext2D, { frame, line, route, inks }: Scene): void {
  const { distance } = route.stations
  const path = new Path2D()
  const every = evenLength(arrowEvery * metresPerPixel(frame, route))
  for (const { x, y, angle } of arrowsAlong(line, distance, every, arrowsApart)) {
    const cosine = Math.cos(angle)
    const sine = Math.sin(angle)
    const corner = (ahead: number, aside: number): [number, number] => [
      x + ahead * cosine - aside * sine,
      y + ahead * sine + aside * cosine,
    ]
    path.moveTo(...corner(5, 0))
    path.lineTo(...corner(-4, 5))
    path.lineTo(...corner(-2, 0))
    path.lineTo(...corner(-4, -5))
    path.closePath()
  }
  context.lineJoin = 'miter'
  stroke(context, path, 2, inks.inner)
  context.fillStyle = inks.casing
  context.fill(path)
}
