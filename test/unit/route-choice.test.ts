import { safeParse } from 'valibot'
import { describe, expect, it } from 'vitest'
import { choiceSchema } from '../../src/model/route/choice-schema'
import { readRoute } from '../../src/model/route/read'
import { type Doing, type RouteChoice, type RouteReading, WHOLE_FILE } from '../../src/model/route/reading'
import { near } from '../asserts'

const metre = 1 / 110_574
/** A track or a route along the equator's meridian 7° E, a point each 100 m between two places, m. */
function way(kind: 'trk' | 'rte', name: string, from: number, to: number, step = 100): string {
  const tag = kind === 'trk' ? 'trkpt' : 'rtept'
  const count = Math.round(Math.abs(to - from) / step)
  const places = Array.from({ length: count + 1 }, (_, i) => from + Math.sign(to - from) * step * i)
  const points = places.map((at) => `<${tag} lat="${1 + at * metre}" lon="7"/>`).join('')
  return `<${kind}>${name && `<name>${name}</name>`}${points}</${kind}>`
}
const reading = (body: string, choice?: Partial<RouteChoice>, file = 'Day.gpx'): Promise<RouteReading> =>
  readRoute(new TextEncoder().encode(`<gpx>${body}</gpx>`), file, choice && { ...WHOLE_FILE, ...choice })
async function read(...of: Parameters<typeof reading>) {
  const read = await reading(...of)
  if (!read.ok) throw new Error(read.fault.code)
  return read
}
async function faultOf(...of: Parameters<typeof reading>) {
  const read = await reading(...of)
  return read.ok ? undefined : read.fault
}

describe('the name of a route', () => {
  const one = (name: string) => way('trk', name, 0, 1000)
  const two = (name: string) => way('trk', name, 1000, 2000)
  const called = async (...of: Parameters<typeof reading>) => (await read(...of)).route.name

  it('is of its line if it is alone, else of the file, else of the first line, else as the file is called', async () => {
    expect(await called(one('A'))).toBe('A')
    expect(await called(`<name>F</name>${one('A')}`)).toBe('A')
    expect(await called(`<name>F</name>${one('')}`)).toBe('F')
    expect(await called(`<name>F</name>${one('A')}${two('B')}`)).toBe('F')
    expect(await called(one('A') + two('B'))).toBe('A')
    expect(await called(one('') + two('B'))).toBe('Day')
    expect(await called(one('A') + two('B'), { line: 1 })).toBe('B')
  })

  it('is as the file is called without what tells its format', async () => {
    const names = ['a.gpx', 'b.KML', 'c.gpx.gz', 'd.gz', 'e.txt', 'f.gpx.txt', 'g', 'h.kml.gz', 'igpx', 'jgz']
    const called = await Promise.all(names.map(async (name) => (await read(one(''), undefined, name)).route.name))
    expect(called).toEqual(['a', 'b', 'c', 'd', 'e.txt', 'f.gpx.txt', 'g', 'h', 'igpx', 'jgz'])
  })
})

describe('the choice of lines', () => {
  // Tracks in no order, and two routes; each by its own length.
  const body =
    way('trk', 'b', 1000, 2000) + way('rte', 'x', 0, 1300) + way('trk', 'a', 0, 1000) + way('rte', 'y', 1300, 2700)
  const used = async (line: RouteChoice['line'], text = body) => (await read(text, { line })).used

  it('is what is proposed, all tracks, or those that are said', async () => {
    expect(await used('proposed')).toEqual([1, 0])
    expect(await used('joined')).toEqual([0, 1])
    expect(await used(3)).toEqual([3])
    expect(await used([3, 0])).toEqual([3, 0])
    const routes = way('rte', 'y', 1300, 2700) + way('rte', 'x', 0, 1300)
    expect(await used('joined', routes)).toEqual([0, 1])
    expect(await used('joined', routes + way('trk', 'z', 0, 500))).toEqual([0])
  })

  it('of one that is not there is refused', async () => {
    expect(await faultOf(body, { line: 4 })).toEqual({ code: 'noSuchLine', lines: 4, asked: 5 })
    expect(await faultOf(body, { line: [0, 7, 9] })).toEqual({ code: 'noSuchLine', lines: 4, asked: 8 })
  })

  it('gives all lines at a glance, and how they are arranged', async () => {
    const { lines, arrangement, format, gaps, travelled, proposals } = await read(body)
    expect(lines.map(({ name, kind, points }) => [name, kind, points])).toEqual([
      ['b', 'track', 11],
      ['a', 'track', 11],
      ['x', 'route', 14],
      ['y', 'route', 15],
    ])
    expect([arrangement.proposed.lines, format, gaps, travelled, proposals]).toEqual([[1, 0], 'GPX', [], [], []])
  })

  it('goes on to what else could be ridden, the longest first, where the proposed is no way', async () => {
    // Other days; the longest goes to and fro between the poles, farther than around the Earth.
    const timed = (day: number, ...places: [latitude: number, longitude: number][]) =>
      `<trk><name>${day}</name>${places
        .map(
          ([latitude, longitude], i) =>
            `<trkpt lat="${latitude}" lon="${longitude}"><time>2027-06-0${day}T${String(6 + i).padStart(2, '0')}:00:00Z</time></trkpt>`,
        )
        .join('')}</trk>`
    const short = timed(1, [1, 7], [1.05, 7])
    const long = timed(2, [1.05, 7], [1.15, 7])
    const none = timed(3, [80, 0], [-80, 0], [80, 0], [-80, 0])
    const { used, arrangement } = await read(short + long + none)
    expect([arrangement.question, arrangement.proposed.lines, used]).toEqual(['days', [2], [1]])
    expect(await faultOf(none + timed(4, [5, 5], [5, 5]))).toMatchObject({ code: 'noOrder' })
    expect((await faultOf(none)) as object).toHaveProperty('length')
  })
})

describe('a file that gives no route', () => {
  const points = (...places: string[]) => `<trk>${places.map((place) => `<trkpt ${place}/>`).join('')}</trk>`

  it('is said why', async () => {
    expect(await faultOf('<wpt lat="1" lon="2"/><wpt lat="3" lon="4"/>')).toEqual({ code: 'noPoints', places: 2 })
    const zero = 'lat="0" lon="0"'
    expect(await faultOf(points(zero, zero, zero))).toEqual({ code: 'onlyZeros', points: 3 })
    expect(await faultOf(points(zero, 'lat="x" lon="0"'))).toEqual({ code: 'noCoordinates', points: 2 })
    expect(await faultOf(points('lat="95" lon="0"'))).toEqual({ code: 'noCoordinates', points: 1 })
    expect(await faultOf(points(zero, 'lat="5" lon="5"'))).toEqual({ code: 'onePlace', points: 2 })
    const near = (metres: number) => points('lat="1" lon="7"', `lat="${1 + metres * metre}" lon="7"`)
    expect(await faultOf(near(19.9))).toEqual({ code: 'onePlace', points: 2 })
    expect(await faultOf(near(20.1))).toBeUndefined()
    const marked = [{ from: 0, to: 1e6 }]
    expect(await faultOf(way('trk', '', 0, 1000), { marked })).toEqual({ code: 'nothingRidden' })
  })
})

it('progress is told with what is being done', async () => {
  const told: [number, Doing][] = []
  const text = `<gpx>${way('trk', '', 0, 1000)}${' '.repeat(3_000_000)}</gpx>`
  await readRoute(new TextEncoder().encode(text), 'a.gpx', WHOLE_FILE, (share, doing) => told.push([share, doing]))
  expect(told.map(([, doing]) => doing)).toEqual([
    'opening',
    'reading',
    'reading',
    'cleaning',
    'smoothing',
    'smoothing',
  ])
  expect([told[0]![0], ...told.slice(3).map(([share]) => share)]).toEqual([0, 0.7, 0.8, 1])
  told.slice(1, 3).forEach(([share], k) => near(share, 0.05 + 0.6 * (((k + 1) * 2 ** 20) / text.length), 0.001))
})

describe('a choice that was kept', () => {
  const isChoice = (choice: unknown) => safeParse(choiceSchema, choice).success

  it('is of lines by word or number, gaps by number, and marked parts in m', () => {
    for (const line of ['proposed', 'joined', 0, 7, [0], [3, 1]])
      expect(isChoice({ line, riddenGaps: [0, 2] }), `${line}`).toBe(true)
    for (const line of ['all', '', -1, 1.5, [], [-1], [0.5], ['joined'], null])
      expect(isChoice({ line, riddenGaps: [] }), `${line}`).toBe(false)
    expect([isChoice({ line: 0 }), isChoice({ line: 0, riddenGaps: ['x'] })]).toEqual([false, false])
    const marks = (from: unknown, to: unknown) => isChoice({ line: 0, riddenGaps: [], marked: [{ from, to }] })
    expect([
      marks(0, 100),
      marks(-1e9, 1e9),
      marks(-1.1e9, 0),
      marks(0, 1.1e9),
      marks('0', 1),
      marks(0, undefined),
    ]).toEqual([true, true, false, false, false, false])
    expect(isChoice({ line: 0, riddenGaps: [], marked: undefined })).toBe(false)
  })
})
