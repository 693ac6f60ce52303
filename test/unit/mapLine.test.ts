import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  arrowsAlong,
  evenLength,
  lineIn,
  nearestOn,
  changedExtent,
  runsOf,
  segmentClasses,
  type Frame,
  type Line,
} from '../../src/view/map/line'
import { worldOf } from '../../src/model/geo/mercator'
import { near } from '../asserts'

const frame: Frame = { scale: 1000, originX: 0, originY: 0, left: 0, top: 0, right: 1000, bottom: 1000 }
const columns = (points: number[][]) => ({
  x: Float64Array.from(points, ([x]) => x!),
  y: Float64Array.from(points, ([, y]) => y!),
})
/** A line whose vertices are its stations. */
const plainLine = (points: number[][], pieces = [0, points.length]): Line => ({
  x: Float32Array.from(points, ([x]) => x!),
  y: Float32Array.from(points, ([, y]) => y!),
  station: Uint32Array.from(points, (_, i) => i),
  pieces,
})

describe('worldOf', () => {
  it('agrees with the worked example of EPSG method 1024 (IOGP guidance note 7-2; figures from memory)', () => {
    const { x, y } = worldOf(Float64Array.of(24 + 22 / 60 + 54.433 / 3600), Float64Array.of(-(100 + 20 / 60)))
    const around = 2 * Math.PI * 6378137
    near((x[0]! - 0.5) * around, -11169055.58, 0.01, 'easting')
    near((0.5 - y[0]!) * around, 2800000, 0.01, 'northing')
  })

  it('holds the poles at the edge of the square and lets longitudes pass 180', () => {
    const { x, y } = worldOf(Float64Array.of(90, -90), Float64Array.of(180, 190))
    near(y[0]!, 0, 1e-9)
    near(y[1]!, 1, 1e-9)
    expect([...x]).toEqual([1, 0.5 + 190 / 360])
  })
})

describe('lineIn', () => {
  const wave = Array.from({ length: 5001 }, (_, i) => [0.1 + (0.8 * i) / 5000, 0.5 + 0.2 * Math.sin(i / 300)])
  const world = columns(wave)

  it('merges what lies within a pixel, keeps both ends, and strays no more than a pixel', () => {
    const line = lineIn(frame, world, [{ first: 0, last: 5000, firstPoint: 0, lastPoint: 5000 }])
    expect(line.station.length).toBeLessThan(2500)
    expect([line.station[0], line.station.at(-1)]).toEqual([0, 5000])
    for (let v = 1; v < line.station.length; v++)
      for (let i = line.station[v - 1]! + 1; i < line.station[v]!; i++) {
        expect(Math.abs(world.x[i]! * 1000 - line.x[v - 1]!)).toBeLessThan(1.001)
        expect(Math.abs(world.y[i]! * 1000 - line.y[v - 1]!)).toBeLessThan(1.001)
      }
  })

  it('leaves out what the frame does not show, and breaks the line there', () => {
    const window = { ...frame, left: 200, right: 800, top: 0, bottom: 480 }
    const line = lineIn(window, world, [{ first: 0, last: 5000, firstPoint: 0, lastPoint: 5000 }])
    expect(line.pieces.length).toBe(3)
    expect(line.pieces.at(-1)).toBe(line.station.length)
    const inside = wave.filter(([x, y]) => x! >= 0.2 && x! <= 0.8 && y! <= 0.48).length
    const stations = new Set<number>()
    for (let p = 0; p + 1 < line.pieces.length; p++) {
      const [from, to] = [line.station[line.pieces[p]!]!, line.station[line.pieces[p + 1]! - 1]!]
      for (let i = from; i <= to; i++) stations.add(i)
    }
    expect(stations.size).toBeGreaterThanOrEqual(inside)
    expect(stations.size).toBeLessThan(inside + 40)
  })

  it('never joins two ridden stretches', () => {
    const line = lineIn(frame, world, [
      { first: 0, last: 1000, firstPoint: 0, lastPoint: 1000 },
      { first: 1001, last: 5000, firstPoint: 1001, lastPoint: 5000 },
    ])
    expect(line.pieces.length).toBe(3)
    expect(line.station[line.pieces[1]! - 1]).toBe(1000)
    expect(line.station[line.pieces[1]!]).toBe(1001)
  })

  it('keeps a stretch that is shorter than a pixel as a dot', () => {
    const small = columns([
      [0.5, 0.5],
      [0.50001, 0.5],
      [0.50002, 0.5],
    ])
    expect([...lineIn(frame, small, [{ first: 0, last: 2, firstPoint: 0, lastPoint: 2 }]).station]).toEqual([0, 2])
  })
})

describe('segmentClasses and runsOf', () => {
  const line = plainLine(Array.from({ length: 9 }, (_, i) => [i * 10, 0]))
  const distance = Float64Array.from({ length: 9 }, (_, i) => i * 10)

  it('takes each class as it is where the stretches are no longer than the steps', () => {
    const classes = segmentClasses(line, Uint8Array.of(1, 1, 2, 2, 255, 255, 0, 1, 9), distance, 8, 255)
    expect(runsOf(line, classes)).toEqual([
      { class: 1, first: 0, last: 2 },
      { class: 2, first: 2, last: 4 },
      { class: 255, first: 4, last: 6 },
      { class: 0, first: 6, last: 7 },
      { class: 1, first: 7, last: 8 },
    ])
  })

  it('takes the median of a longer stretch, and the class apart only where it is the most', () => {
    const classes = segmentClasses(line, Uint8Array.of(1, 6, 5, 255, 255, 255, 255, 0, 9), distance, 40, 255)
    expect([...classes.subarray(0, 8)]).toEqual([5, 5, 5, 5, 255, 255, 255, 255])
  })

  it('counts all stations that a segment stands for', () => {
    const thin: Line = {
      x: Float32Array.of(0, 1),
      y: Float32Array.of(0, 0),
      station: Uint32Array.of(0, 5),
      pieces: [0, 2],
    }
    expect(segmentClasses(thin, Uint8Array.of(1, 3, 3, 3, 1, 7), distance, 8, 255)[0]).toBe(3)
  })

  it('ends a run where the line is broken', () => {
    const broken = plainLine(
      Array.from({ length: 6 }, (_, i) => [i, 0]),
      [0, 3, 6],
    )
    expect(runsOf(broken, new Uint8Array(6))).toEqual([
      { class: 0, first: 0, last: 2 },
      { class: 0, first: 3, last: 5 },
    ])
  })
})

describe('changedExtent', () => {
  const line = plainLine(Array.from({ length: 7 }, (_, i) => [i * 10, i * 5]))
  const classes = Uint8Array.of(1, 1, 2, 2, 3, 3, 0)

  it('is that of the whole runs on both sides of a changed segment', () => {
    const other = Uint8Array.of(1, 1, 2, 3, 3, 3, 0)
    expect(changedExtent(line, classes, other)).toEqual({ left: 20, top: 10, right: 60, bottom: 30 })
    expect(changedExtent(line, other, classes)).toEqual({ left: 20, top: 10, right: 60, bottom: 30 })
  })

  it('is none where nothing changes', () => {
    expect(changedExtent(line, classes, Uint8Array.from(classes))).toBeUndefined()
  })
})

describe('nearestOn', () => {
  it('finds what a fine scan of the line finds', () => {
    const pixel = fc.integer({ min: 0, max: 200 })
    const points = fc.array(fc.tuple(pixel, pixel), { minLength: 2, maxLength: 12 })
    fc.assert(
      fc.property(points, pixel, pixel, (at, x, y) => {
        const line = plainLine(at)
        const distance = Float64Array.from(at, (_, i) => 100 * i)
        const found = nearestOn(line, distance, x, y, 1000)!
        let least = Infinity
        for (let i = 0; i + 1 < at.length; i++)
          for (let s = 0; s <= 200; s++) {
            const [px, py] = [0, 1].map((k) => at[i]![k]! + ((at[i + 1]![k]! - at[i]![k]!) * s) / 200)
            least = Math.min(least, Math.hypot(px! - x, py! - y))
          }
        near(found.offset, least, 1, 'offset')
        const v = Math.min(Math.floor(found.distance / 100), at.length - 2)
        const share = found.distance / 100 - v
        const [px, py] = [0, 1].map((k) => at[v]![k]! + (at[v + 1]![k]! - at[v]![k]!) * share)
        near(Math.hypot(px! - x, py! - y), found.offset, 1e-6, 'place')
      }),
      { seed: 20270619 },
    )
  })

  it('finds nothing beyond its reach', () => {
    const line = plainLine([
      [0, 0],
      [100, 0],
    ])
    expect(nearestOn(line, Float64Array.of(0, 1000), 50, 14.5, 14)).toBeUndefined()
    expect(nearestOn(line, Float64Array.of(0, 1000), 50, 13.5, 14)).toEqual({ distance: 500, offset: 13.5 })
  })
})

describe('arrowsAlong', () => {
  const line = plainLine(Array.from({ length: 101 }, (_, i) => [i * 4, 50]))
  const distance = Float64Array.from({ length: 101 }, (_, i) => i * 10)

  it('stands at whole multiples of its distance and points forward', () => {
    const arrows = arrowsAlong(line, distance, 256, 40)
    expect(arrows.map(({ x }) => Math.round(x * 10) / 10)).toEqual([102.4, 204.8, 307.2])
    for (const { angle } of arrows) near(angle, 0, 1e-9)
  })

  it('keeps apart where the route is tangled', () => {
    expect(arrowsAlong(line, distance, 16, 60).length).toBe(7)
  })
})

describe('evenLength', () => {
  it('is the nearest power of two', () => {
    expect([3, 90, 100, 0.3].map(evenLength)).toEqual([4, 64, 128, 0.25])
  })
})
