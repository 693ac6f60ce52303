import geodesic from 'geographiclib-geodesic'
import { describe, expect, it } from 'vitest'
import { readRoute } from '../../src/model/route/read'
import type { RouteChoice } from '../../src/model/route/reading'
import { near } from '../asserts'

/** Geodesic length between two of the points below, m. */
const metres = (from: number, to: number) =>
  geodesic.Geodesic.WGS84.Inverse(41 + from * 1e-4, -151, 41 + to * 1e-4, -151).s12!

const points = (from: number, to: number, longitude = -151) =>
  Array.from(
    { length: to - from },
    (_, i) => `<trkpt lat="${(41 + 0.0001 * (from + i)).toFixed(6)}" lon="${longitude}"><ele>${from + i}</ele></trkpt>`,
  ).join('\n')
const segments = (...parts: string[]) =>
  `<trk><name>A</name>${parts.map((p) => `<trkseg>${p}</trkseg>`).join('')}</trk>`
const gpx = (body: string) => `<gpx version="1.1" creator="test">${body}</gpx>`

const read = async (text: string, choice?: RouteChoice) => {
  const reading = await readRoute(new TextEncoder().encode(text), 'a.gpx', choice)
  if (!reading.ok) throw new Error(reading.fault.code)
  return reading
}

describe('the choice of a line', () => {
  const route = (name: string, longitude: number) =>
    `<rte><name>${name}</name><rtept lat="41" lon="${longitude}"/><rtept lat="41.01" lon="${longitude}"/></rte>`
  const text = gpx(
    route('first plan', -150) +
      segments(points(0, 100)) +
      segments(points(100, 150)).replace('A', 'B') +
      route('second plan', -149),
  )

  it('joins the tracks, and not the routes, by default', async () => {
    const { route, lines } = await read(text)
    expect(lines.map(({ name, kind, points }) => [name, kind, points])).toEqual([
      ['A', 'track', 100],
      ['B', 'track', 50],
      ['first plan', 'route', 2],
      ['second plan', 'route', 2],
    ])
    near(route.length, metres(0, 149), 0.01)
    expect(route.points.longitude.every((x) => x === -151)).toBe(true)
  })

  it('takes one line of any kind', async () => {
    const second = await read(text, { line: 1, riddenGaps: [] })
    expect(second.route.name).toBe('B')
    near(second.route.length, metres(100, 149), 0.01)
    const plan = await read(text, { line: 3, riddenGaps: [] })
    expect(plan.route.name).toBe('second plan')
    expect(plan.route.points.longitude[0]).toBe(-149)
  })

  it('of a line that is not there is refused', async () => {
    const reading = await readRoute(new TextEncoder().encode(text), 'a.gpx', { line: 9, riddenGaps: [] })
    expect(reading).toEqual({ ok: false, fault: { code: 'noSuchLine', lines: 4, asked: 10 } })
  })
})

describe('the choice of gaps that were ridden', () => {
  // Gaps of 1 km and of 2 km.
  const text = gpx(segments(points(0, 100), points(189, 300), points(479, 600)))

  it('none: two crossings, without length', async () => {
    const { route, gaps } = await read(text)
    expect(route.sections.length).toBe(3)
    expect(route.crossings.map(({ after }) => after)).toEqual([0, 1])
    expect(gaps.map(({ ridden }) => ridden)).toEqual([false, false])
    near(route.length, metres(0, 99) + metres(189, 299) + metres(479, 599), 0.02)
    const at = route.crossings[0]!.distance
    const { first, last } = route.sections[0]!
    expect(route.stations.distance[last]).toBe(at)
    expect(route.stations.distance[last + 1]).toBe(at)
    expect(route.stations.gradient[last]).toBe(0)
    expect(first).toBe(0)
  })

  it('the first: its straight line is ridden, the second keeps its number', async () => {
    const { route, gaps } = await read(text, { line: 'joined', riddenGaps: [0] })
    expect(route.sections.length).toBe(2)
    expect(gaps.map(({ ridden }) => ridden)).toEqual([true, false])
    near(route.length, metres(0, 299) + metres(479, 599), 0.02)
    near(route.crossings[0]!.length, metres(299, 479), 0.02)
    // Ridden evenly up, so the smoothed gradient is that of the file: 1 m in 11.1 m.
    near(route.ascent, 299 + 120, 1)
  })

  it('all: one section', async () => {
    const { route } = await read(text, { line: 'joined', riddenGaps: [0, 1] })
    expect(route.sections.length).toBe(1)
    expect(route.crossings).toEqual([])
    near(route.length, metres(0, 599), 0.02)
  })
})

it('a fault is found at its line, also behind points that were taken past the parser', async () => {
  const text = gpx(segments(points(0, 50) + '\n<trkpt lat="1"\n lon="1"><ele>5</time></trkpt>'))
  const reading = await readRoute(new TextEncoder().encode(text), 'a.gpx')
  expect(reading).toEqual({
    ok: false,
    fault: { code: 'notClosed', tag: 'ele', opened: 52, line: 52 },
  })
})

it('progress rises from 0 to 1', async () => {
  const shares: number[] = []
  const bytes = new TextEncoder().encode(gpx(segments(points(0, 60_000))))
  await readRoute(bytes, 'a.gpx', undefined, (share) => shares.push(share))
  expect(shares.length).toBeGreaterThan(5)
  expect(shares[0]).toBe(0)
  expect(shares[shares.length - 1]).toBe(1)
  expect([...shares].sort((a, b) => a - b)).toEqual(shares)
})

it('the same bytes give the same route', async () => {
  const text = gpx(segments(points(0, 3000)))
  expect(await read(text)).toEqual(await read(text))
})
