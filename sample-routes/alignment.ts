import type { Metres } from './plane'
import { between, type Random } from './random'

/** How a road goes on from a control point to the next. */
export type Onward = 'open' | 'street' | { hairpins: number }

/** A place that a road must pass. */
export interface Control {
  at: Metres
  onward: Onward
}

/** A road as dense points on the drawing board. */
export interface Alignment {
  points: Metres[]
  /** one per point, 1/m; 0 on the straights */
  curvature: number[]
  /** index of the point that stands for each control */
  controls: number[]
}

/** A corner of the polygon that the road's straights lie on. */
interface Vertex {
  at: Metres
  widestRadius: number
  control?: number
}

const openRadius = 450
const streetRadius = 5

/**
 * Builds a road as surveyors do: straights joined by circular arcs. Open road wanders by seeded midpoint displacement,
 * streets keep their corners, climbs marked so go up in hairpins.
 *
 * @throws Error when two vertices coincide
 */
export function align(controls: readonly Control[], random: Random): Alignment {
  return fillet(vertices(controls, random))
}

function vertices(controls: readonly Control[], random: Random): Vertex[] {
  const out: Vertex[] = []
  controls.forEach((control, i) => {
    const next = controls[i + 1]
    const before = controls[i - 1]
    const cornered = control.onward === 'street' || before?.onward === 'street'
    out.push({ at: control.at, widestRadius: cornered ? streetRadius : openRadius, control: i })
    if (!next) return
    if (control.onward === 'open') {
      const start = before?.onward === 'open' ? before.at : control.at
      const after = controls[i + 2]
      const end = next.onward === 'open' && after ? after.at : next.at
      wander(curve(start, control.at, next.at, end), random, out)
    } else if (control.onward !== 'street') {
      switchback(control.at, next.at, control.onward.hairpins, random, out)
    }
  })
  return out
}

/** Points about 1.3 km apart on the Catmull-Rom curve from b to c, both included. */
function curve(a: Metres, b: Metres, c: Metres, d: Metres): Metres[] {
  const pieces = Math.max(1, Math.round(length(b, c) / 1300))
  const along = (t: number, i: 0 | 1) =>
    b[i] + (t / 2) * (c[i] - a[i] + t * (2 * a[i] - 5 * b[i] + 4 * c[i] - d[i] + t * (3 * (b[i] - c[i]) + d[i] - a[i])))
  return Array.from({ length: pieces + 1 }, (_, k) => [along(k / pieces, 0), along(k / pieces, 1)])
}

function wander(line: readonly Metres[], random: Random, out: Vertex[]): void {
  line.slice(1).forEach((to, i) => {
    displace(line[i]!, to, random, out)
    if (i < line.length - 2) out.push({ at: to, widestRadius: openRadius })
  })
}

function displace(from: Metres, to: Metres, random: Random, out: Vertex[]): void {
  const reach = length(from, to)
  if (reach < between(random, 280, 900)) return
  const middle = beside(from, to, between(random, 0.4, 0.6), reach * between(random, -0.11, 0.11))
  displace(from, middle, random, out)
  out.push({ at: middle, widestRadius: openRadius })
  displace(middle, to, random, out)
}

/** Zigzag up a slope: each hairpin is two corners of about a right angle, close together. */
function switchback(from: Metres, to: Metres, hairpins: number, random: Random, out: Vertex[]): void {
  const reach = length(from, to)
  const advances = Array.from({ length: hairpins + 1 }, () => between(random, 0.7, 1.3))
  const sum = advances.reduce((a, b) => a + b)
  const radius = () => between(random, 10, 16)
  let side = random() < 0.5 ? -1 : 1
  let along = 0
  let last: Metres = from
  for (let i = 0; i < hairpins; i++) {
    along += (advances[i]! / sum) * reach
    const turn = radius()
    const wide = side * between(random, 130, 240)
    const enter = beside(from, to, (along - turn) / reach, wide)
    const leave = beside(from, to, (along + turn) / reach, wide)
    out.push({ at: beside(last, enter, between(random, 0.4, 0.6), between(random, -14, 14)), widestRadius: openRadius })
    out.push({ at: enter, widestRadius: turn }, { at: leave, widestRadius: turn })
    last = leave
    side = -side
  }
}

/** Cuts each corner by the widest arc that its straights leave room for. */
function fillet(corners: readonly Vertex[]): Alignment {
  const road: Alignment = { points: [], curvature: [], controls: [] }
  const add = (point: Metres, curvature: number) => {
    const last = road.points.at(-1)
    if (last) straight(road, last, point)
    road.points.push(point)
    road.curvature.push(curvature)
  }
  corners.forEach(({ at, widestRadius, control }, i) => {
    const before = corners[i - 1]?.at
    const after = corners[i + 1]?.at
    if (!before || !after) add(at, 0)
    else {
      const arc = cutCorner(before, at, after, widestRadius)
      arc.points.forEach((point, k) => {
        add(point, arc.curvature)
        if (control !== undefined && k === arc.points.length >> 1) road.controls[control] = road.points.length - 1
      })
    }
    if (control !== undefined) road.controls[control] ??= road.points.length - 1
  })
  return road
}

/** Points between the last one and the next, at most 5 m apart. */
function straight(road: Alignment, from: Metres, to: Metres): void {
  const pieces = Math.ceil(length(from, to) / 5)
  for (let k = 1; k < pieces; k++) {
    road.points.push(beside(from, to, k / pieces, 0))
    road.curvature.push(0)
  }
}

function cutCorner(before: Metres, at: Metres, after: Metres, widest: number): { points: Metres[]; curvature: number } {
  const back = length(at, before)
  const on = length(at, after)
  if (back === 0 || on === 0) throw new Error(`Two corners of a road coincide at ${at.join(', ')}.`)
  const cross = (at[0] - before[0]) * (after[1] - at[1]) - (at[1] - before[1]) * (after[0] - at[0])
  const dot = (at[0] - before[0]) * (after[0] - at[0]) + (at[1] - before[1]) * (after[1] - at[1])
  const turn = Math.atan2(cross, dot)
  const half = Math.tan(Math.abs(turn) / 2)
  if (half < 0.003) return { points: [at], curvature: 0 }
  const radius = Math.min(widest, (0.48 * Math.min(back, on)) / half)
  const tangent = radius * half
  const start = beside(at, before, tangent / back, 0)
  const pieces = Math.max(2, Math.ceil((Math.abs(turn) * radius) / Math.min(5, radius / 4)))
  const heading = Math.atan2(at[1] - before[1], at[0] - before[0])
  const left = Math.sign(turn)
  const points = Array.from({ length: pieces + 1 }, (_, k): Metres => {
    const turned = heading + (turn * k) / pieces
    return [
      start[0] + left * radius * (Math.sin(turned) - Math.sin(heading)),
      start[1] - left * radius * (Math.cos(turned) - Math.cos(heading)),
    ]
  })
  return { points, curvature: 1 / radius }
}

/** The place a share of the way from one point to another, and some metres to the left of the line. */
export function beside(from: Metres, to: Metres, share: number, left: number): Metres {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
  const reach = Math.hypot(dx, dy)
  return [from[0] + dx * share - (dy / reach) * left, from[1] + dy * share + (dx / reach) * left]
}

/** Straight distance on the drawing board, metres. */
export function length(a: Metres, b: Metres): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1])
}
