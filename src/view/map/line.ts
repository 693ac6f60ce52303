import type { Section } from '../../model/route/route'
import type { Box } from './labels'
import type { World } from '../../model/geo/mercator'

/** How the world lies on the canvas: pixel = world × scale − origin. */
export interface Frame {
  scale: number
  originX: number
  originY: number
  left: number
  top: number
  right: number
  bottom: number
}

/** The route in pixels of one view, thinned to the pixel. */
export interface Line {
  x: Float32Array
  y: Float32Array
  /** Station at each vertex; stations in between are less than a pixel away from it. */
  station: Uint32Array
  /** First vertex of each unbroken piece, and the number of vertices at the end. */
  pieces: number[]
}

/**
 * Projects the stations into a view. What lies within a pixel is merged, what lies outside the frame is left out.
 *
 * @param world of the stations
 * @param sections ridden stretches; a piece never spans two
 */
export function lineIn(frame: Frame, world: World, sections: readonly Section[]): Line {
  const { scale, originX, originY } = frame
  const most = world.x.length
  const x = new Float32Array(2 * most)
  const y = new Float32Array(2 * most)
  const station = new Uint32Array(2 * most)
  const pieces: number[] = []
  let count = 0
  const add = (px: number, py: number, at: number) => {
    x[count] = px
    y[count] = py
    station[count++] = at
  }
  for (const { first, last } of sections) {
    let open = false
    let at = first
    let fromX = world.x[first]! * scale - originX
    let fromY = world.y[first]! * scale - originY
    for (let i = first + 1; i <= last; i++) {
      const toX = world.x[i]! * scale - originX
      const toY = world.y[i]! * scale - originY
      if (i < last && Math.abs(toX - fromX) < 1 && Math.abs(toY - fromY) < 1) continue
      if (touches(frame, fromX, fromY, toX, toY)) {
        if (!open) {
          pieces.push(count)
          add(fromX, fromY, at)
        }
        add(toX, toY, i)
        open = true
      } else open = false
      at = i
      fromX = toX
      fromY = toY
    }
  }
  pieces.push(count)
  return { x: x.slice(0, count), y: y.slice(0, count), station: station.slice(0, count), pieces }
}

const touches = ({ left, right, top, bottom }: Frame, x: number, y: number, toX: number, toY: number) =>
  Math.max(x, toX) >= left && Math.min(x, toX) <= right && Math.max(y, toY) >= top && Math.min(y, toY) <= bottom

/** Calls with each unbroken piece's first and last vertex. */
export function eachPiece({ pieces }: Line, call: (first: number, last: number) => void): void {
  for (let p = 0; p + 1 < pieces.length; p++) call(pieces[p]!, pieces[p + 1]! - 1)
}

/** Length nearest to a wished one that is a whole power of two, so that zooming in halves stretches and never shifts them. */
export const evenLength = (wished: number): number => 2 ** Math.round(Math.log2(wished))

/**
 * Class of each segment of the line, evened out so that no patch of colour is too short to be seen: over each stretch of even length
 * the median class, or the class apart if more than half of the stretch has it.
 *
 * @param byStation class of the step from each station to the next; classes are in order
 * @param distance ridden distance of the stations, m
 * @param every length of a stretch, m
 * @param apart the one class that is not in the order of the others
 * @returns one per vertex, of the segment to the next; of no meaning at the last vertex of a piece
 */
export function segmentClasses(
  line: Line,
  byStation: Uint8Array,
  distance: Float64Array,
  every: number,
  apart: number,
): Uint8Array {
  const { station } = line
  const classes = new Uint8Array(station.length)
  const counts = new Uint32Array(256)
  eachPiece(line, (first, last) => {
    for (let from = first; from < last;) {
      const stretch = Math.floor(distance[station[from]!]! / every)
      let to = from + 1
      while (to < last && Math.floor(distance[station[to]!]! / every) === stretch) to++
      classes.fill(typicalClass(byStation, station[from]!, station[to]!, counts, apart), from, to)
      from = to
    }
  })
  return classes
}

function typicalClass(byStation: Uint8Array, from: number, to: number, counts: Uint32Array, apart: number): number {
  counts.fill(0)
  for (let i = from; i < to; i++) counts[byStation[i]!]!++
  if (2 * counts[apart]! > to - from) return apart
  let left = (to - from - counts[apart]!) / 2
  let shade = 0
  while (shade === apart || (left -= counts[shade]!) > 0) shade++
  return shade
}

/** Consecutive segments of one class within one piece: vertices first..last, inclusive. */
export interface Run {
  class: number
  first: number
  last: number
}

/** @param classes of the segments, one per vertex */
export function runsOf(line: Line, classes: Uint8Array): Run[] {
  const runs: Run[] = []
  eachPiece(line, (first, last) => {
    let start = first
    for (let v = first + 1; v <= last; v++) {
      if (v < last && classes[v] === classes[start]) continue
      runs.push({ class: classes[start]!, first: start, last: v })
      start = v
    }
  })
  return runs
}

/**
 * Where two colourings of the line differ, pixels: the extent of the runs that only one of them has.
 *
 * @returns undefined where they are the same
 */
export function changedExtent(line: Line, one: Uint8Array, other: Uint8Array): Box | undefined {
  const nameOf = (run: Run) => `${run.class} ${run.first} ${run.last}`
  const runs = [runsOf(line, one), runsOf(line, other)] as const
  const names = runs.map((list) => new Set(list.map(nameOf))) as [Set<string>, Set<string>]
  const changed = runs.flatMap((list, i) => list.filter((run) => !names[1 - i]!.has(nameOf(run))))
  if (changed.length === 0) return undefined
  const extent: Box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity }
  for (const { first, last } of changed) for (let v = first; v <= last; v++) widen(extent, line.x[v]!, line.y[v]!)
  return extent
}

/** Makes a box hold a point. */
export function widen(box: Box, x: number, y: number): void {
  box.left = Math.min(box.left, x)
  box.top = Math.min(box.top, y)
  box.right = Math.max(box.right, x)
  box.bottom = Math.max(box.bottom, y)
}

/**
 * The place on the line nearest to a pixel.
 *
 * @param distance ridden distance of the stations, m
 * @param within pixels
 * @returns ridden distance, m, and how far away it is, pixels; undefined if nothing is within reach
 */
export function nearestOn(
  line: Line,
  distance: Float64Array,
  x: number,
  y: number,
  within: number,
): { distance: number; offset: number } | undefined {
  let least = within * within
  let found: number | undefined
  eachPiece(line, (first, last) => {
    for (let v = first; v < last; v++) {
      const startX = line.x[v]!
      const startY = line.y[v]!
      const stepX = line.x[v + 1]! - startX
      const stepY = line.y[v + 1]! - startY
      const squared = stepX * stepX + stepY * stepY
      const along = squared === 0 ? 0 : ((x - startX) * stepX + (y - startY) * stepY) / squared
      const share = Math.min(Math.max(along, 0), 1)
      const offset = (x - startX - share * stepX) ** 2 + (y - startY - share * stepY) ** 2
      if (offset > least || (offset === least && found !== undefined)) continue
      least = offset
      const from = distance[line.station[v]!]!
      found = from + share * (distance[line.station[v + 1]!]! - from)
    }
  })
  return found === undefined ? undefined : { distance: found, offset: Math.sqrt(least) }
}

export interface Arrow {
  x: number
  y: number
  /** Radians clockwise from the map's right. */
  angle: number
}

/**
 * Arrowheads at whole multiples of a ridden distance, so that they keep their places when the map moves.
 *
 * @param distance ridden distance of the stations, m
 * @param every m
 * @param apart pixels that two arrowheads keep between them
 */
export function arrowsAlong(line: Line, distance: Float64Array, every: number, apart: number): Arrow[] {
  const arrows: Arrow[] = []
  eachPiece(line, (first, last) => {
    for (let v = first; v < last; v++) {
      const from = distance[line.station[v]!]!
      const to = distance[line.station[v + 1]!]!
      const at = Math.floor(to / every) * every
      if (at <= from || at > to) continue
      const share = (at - from) / (to - from)
      const x = line.x[v]! + share * (line.x[v + 1]! - line.x[v]!)
      const y = line.y[v]! + share * (line.y[v + 1]! - line.y[v]!)
      if (arrows.some((other) => Math.hypot(other.x - x, other.y - y) < apart)) continue
      const behind = Math.max(first, v - 2)
      const ahead = Math.min(last, v + 3)
      const angle = Math.atan2(line.y[ahead]! - line.y[behind]!, line.x[ahead]! - line.x[behind]!)
      arrows.push({ x, y, angle })
    }
  })
  return arrows
}
