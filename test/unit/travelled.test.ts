import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { setWeatherTable } from '../../src/model/plan/edit-day'
import { addStretch } from '../../src/model/plan/edit-stretches'
import { keepPlaces } from '../../src/model/plan/keep-places'
import { readPlan } from '../../src/model/plan/check'
import { writePlan } from '../../src/model/plan/write'
import type { Plan } from '../../src/model/plan/schema'
import { positionAt } from '../../src/model/route/place'
import { distance } from '../../src/model/geo/scale'
import { readRoute } from '../../src/model/route/read'
import type { RouteChoice, RouteReading } from '../../src/model/route/reading'
import { markPart, onRide, onTrack, unmark, type Stretch } from '../../src/model/route/travelled'
import { gapWordsIn } from '../../src/view/words/gaps'
import { wordsIn } from '../../src/view/words/words'
import { near } from '../asserts'

/** North along a meridian, a point about every 111 m, 5 m up each; 60 s apart. */
const segment = (from: number, to: number) => {
  const points = Array.from({ length: to - from }, (_, i) => {
    const at = from + i
    const time = new Date(Date.UTC(2027, 5, 19, 6) + 60_000 * at).toISOString()
    return `<trkpt lat="${(45 + at / 1000).toFixed(6)}" lon="7"><ele>${100 + 5 * at}</ele><time>${time}</time></trkpt>`
  })
  return `<trkseg>${points.join('\n')}</trkseg>`
}
const gpx = (...segments: string[]) => `<gpx version="1.1" creator="test"><trk>${segments.join('')}</trk></gpx>`

type Read = Extract<RouteReading, { ok: true }>

async function read(text: string, marked: Stretch[] = [], riddenGaps: number[] = []): Promise<Read> {
  const choice: RouteChoice = { line: 'joined', riddenGaps, marked }
  const reading = await readRoute(new TextEncoder().encode(text), 'a.gpx', choice)
  if (!reading.ok) throw new Error(reading.fault.code)
  return reading
}

/** Marks a part of the ride as it is, as the sheet does. */
async function mark(text: string, now: Read, from: number, to: number, marked: Stretch[] = []) {
  const marking = markPart(marked, now.travelled, now.route.length, { from, to })
  if (!marking.ok) throw new Error(marking.fault.code)
  return { marked: marking.marked, ...(await read(text, marking.marked)) }
}

const whole = gpx(segment(0, 301))
// Gaps of about 5.6 km behind 11 km and behind 22 km of riding.
const gapped = gpx(segment(0, 101), segment(150, 251), segment(300, 401))

const between = ({ travelled }: Read) => travelled.filter(({ place }) => place === 'between')
/** Every section is ridden, and crossings lie between sections, without length. */
function sound({ route, travelled }: Read) {
  const { sections, crossings, stations, points } = route
  expect(crossings.map(({ after }) => after)).toEqual(sections.slice(1).map((_, i) => i))
  for (const { first, last, firstPoint, lastPoint } of sections) {
    expect(stations.distance[last]! - stations.distance[first]!).toBeGreaterThan(0)
    expect(stations.distance[first]).toBe(points.distance[firstPoint])
    expect(stations.distance[last]).toBe(points.distance[lastPoint])
  }
  for (const { after, distance } of crossings) {
    expect(stations.distance[sections[after]!.last]).toBe(distance)
    expect(stations.distance[sections[after + 1]!.first]).toBe(distance)
  }
  for (const [i, step] of points.distance.subarray(1).entries())
    expect(step).toBeGreaterThanOrEqual(points.distance[i]!)
  const outcome = simulate(route, defaultPlan())
  expect(outcome.halts.filter(({ kind }) => kind === 'crossing')).toHaveLength(crossings.length)
  expect(between({ travelled } as Read)).toHaveLength(crossings.length)
}

describe('a marked part', () => {
  it('is a crossing, cut exactly where it was said, and not counted as ridden', async () => {
    const before = await read(whole)
    const after = await mark(whole, before, 10_050, 20_020)
    sound(after)
    near(after.route.length, before.route.length - 9970, 1e-6, 'length')
    const [crossing] = after.route.crossings
    near(crossing!.distance, 10_050, 1e-6, 'place')
    near(crossing!.length, 9970, 1e-6, 'length of the crossing')
    // 60 s every 111.2 m.
    near(crossing!.recordedTime!, (9970 / distance(45, 7, 45.001, 7)) * 60, 1)
    const { lastPoint } = after.route.sections[0]!
    const was = positionAt(before.route, 10_050)
    near(after.route.points.latitude[lastPoint]!, was.latitude, 1e-9)
    near(after.route.points.latitude[lastPoint + 1]!, positionAt(before.route, 20_020).latitude, 1e-9)
    // 5 m up in 111.2 m, none of it on the crossing.
    near(after.route.ascent, before.route.ascent - (9970 / distance(45, 7, 45.001, 7)) * 5, 3, 'ascent')
    expect(after.route.notes.map(wordsIn('metric').route.note)).toContain('A marked part of 10.0 km is not ridden.')
  })

  it('keeps its place when a second is marked before it, and either is taken back alone', async () => {
    const one = await mark(whole, await read(whole), 20_000, 25_000)
    const two = await mark(whole, one, 5000, 8000, one.marked)
    sound(two)
    expect(two.travelled.map(({ from, to }) => [Math.round(from), Math.round(to)])).toEqual([
      [5000, 8000],
      [20_000, 25_000],
    ])
    expect(two.route.crossings.map(({ distance }) => Math.round(distance))).toEqual([5000, 17_000])
    const back = await read(whole, unmark(two.marked, two.travelled[0]!))
    expect(back.travelled).toEqual(one.travelled)
    expect(back.route).toEqual(one.route)
  })

  it('joins up with one that it overlaps or touches', async () => {
    const one = await mark(whole, await read(whole), 10_000, 15_000)
    for (const [from, to] of [
      [8000, 12_000],
      [10_000, 12_000],
      [8000, 10_000],
      [8000, 9985],
    ] as const) {
      const two = await mark(whole, one, from, to, one.marked)
      sound(two)
      expect(two.travelled).toHaveLength(1)
      near(two.route.length, one.route.length - (to - from), 21)
      expect(unmark(two.marked, two.travelled[0]!)).toEqual([])
    }
  })

  it.each([
    ['containing a gap', 9000, 12_000, 2],
    ['beside a gap, before it', 9000, Infinity, 2],
    ['beside a gap, behind it', Infinity, 13_000, 2],
    ['from gap to gap', Infinity, -Infinity, 1],
    ['apart from the gaps', 2000, 4000, 3],
  ])('%s', async (_, from, to, crossings) => {
    const before = await read(gapped)
    const [first, second] = before.route.crossings.map(({ distance }) => distance) as [number, number]
    const begin = Number.isFinite(from) ? from : first
    const end = Number.isFinite(to) ? to : to > 0 ? first : second
    const after = await mark(gapped, before, begin, end)
    sound(after)
    expect(after.route.crossings).toHaveLength(crossings)
    expect(after.gaps).toHaveLength(2)
    near(after.route.length, before.route.length - (end - begin), 1e-6)
    // Taken back, the gaps are crossings as before.
    const part = after.travelled.find(({ marked }) => marked)!
    expect((await read(gapped, unmark(after.marked, part))).route).toEqual(before.route)
  })

  it('keeps the way that was recorded, for the map; over a gap there is none', async () => {
    const before = await read(gapped)
    expect(before.route.crossings[0]).not.toHaveProperty('way')
    const { route } = await mark(gapped, before, 2000, 4000)
    const { latitude, longitude } = route.crossings[0]!.way!
    const begins = positionAt(before.route, 2000)
    const ends = positionAt(before.route, 4000)
    near(latitude.length, 2000 / distance(45, 7, 45.001, 7), 1)
    expect(longitude).toHaveLength(latitude.length)
    expect([begins.latitude, ...latitude, ends.latitude]).toEqual([begins.latitude, ...latitude, ends.latitude].sort())
  })

  it('at the start or the end is left out: no crossing, for nothing is ridden on its other side', async () => {
    const before = await read(whole)
    const start = await mark(whole, before, 0, 5000)
    sound(start)
    expect(start.route.crossings).toEqual([])
    near(start.route.length, before.route.length - 5000, 1e-6)
    near(start.route.points.latitude[0]!, positionAt(before.route, 5000).latitude, 1e-9)
    const end = await mark(whole, start, start.route.length - 3000, start.route.length, start.marked)
    sound(end)
    expect(end.travelled.map(({ place }) => place)).toEqual(['start', 'end'])
    near(end.route.length, before.route.length - 8000, 1e-6)
    const longer = await mark(whole, end, 0, 1000, end.marked)
    near(longer.route.length, before.route.length - 9000, 1e-6)
    expect(longer.travelled.map(({ place }) => place)).toEqual(['start', 'end'])
  })

  it('that is the whole route, of no length or the wrong way round is refused', async () => {
    const { travelled, route } = await read(whole)
    const refused = (from: number, to: number) => {
      const marking = markPart([], travelled, route.length, { from, to })
      return marking.ok ? 'taken' : gapWordsIn('metric').markFault(marking.fault)
    }
    expect(refused(0, route.length)).toBe('The part is the whole route; something of it must be ridden.')
    expect(refused(5000, 4000)).toBe('The part must end after it begins.')
    expect(refused(5000, 5000)).toBe('The part must end after it begins.')
    expect(refused(5000, 5050)).toBe('The part must be at least 100 m long.')
    const bytes = new TextEncoder().encode(whole)
    const choice: RouteChoice = { line: 'joined', riddenGaps: [], marked: [{ from: -5, to: 1e6 }] }
    expect(await readRoute(bytes, 'a.gpx', choice)).toEqual({ ok: false, fault: { code: 'nothingRidden' } })
  })

  it('beyond the track, or of no length, as a kept choice may have it for another file, is nothing', async () => {
    const before = await read(whole)
    const after = await read(whole, [
      { from: 1e6, to: 2e6 },
      { from: 700, to: 700 },
    ])
    expect(after.route).toEqual(before.route)
  })
})

describe('places of the ride and of the track', () => {
  it('are each other’s, save within what is travelled, whose place is its beginning', async () => {
    const { travelled, route } = await read(gapped, [{ from: 2000, to: 4000 }])
    for (let ridden = 0; ridden <= route.length; ridden += 50)
      near(onRide(travelled, onTrack(travelled, ridden)), ridden, 1e-6)
    for (const track of [2000, 2500, 3999, 4000]) near(onRide(travelled, track), 2000, 1e-6)
    near(onRide(travelled, 4100), 2100, 1e-6)
  })
})

describe('keepPlaces', () => {
  const seven = { kind: 'list', times: ['07:00'], days: [6], boardBefore: 300, length: 1200 } as const
  const timetable = { ...seven, times: [...seven.times], days: [...seven.days] }
  const at = (distance: number) => defaultStop(`stop-${distance}`, 'Stop', distance, null)

  const minute = { timetable: { kind: 'duration' as const, duration: 60 }, source: null, fillFirst: 'most' as const }
  function planned(change: Partial<Plan>): Plan {
    const hours = [
      {
        time: '2027-06-19T06:00',
        temperatureCelsius: 12,
        windSpeed: null,
        windFromDegrees: null,
        rainPerHour: null,
        pressure: null,
      },
    ]
    const table = [1000, 14_000, 20_000].map((distance) => ({ name: 'P', distance, hours }))
    return {
      ...setWeatherTable(defaultPlan(), table),
      stops: [1000, 12_000, 20_000].map(at),
      controls: [{ id: 'control-1', name: 'C', distance: 14_999, opens: null, closes: null }],
      ...change,
    }
  }
  const places = (plan: Plan) => ({
    stops: plan.stops.map(({ distance }) => Math.round(distance)),
    controls: plan.controls.map(({ distance }) => Math.round(distance)),
    weather: plan.weather.table.map(({ distance }) => Math.round(distance)),
  })

  it('keeps stops, controls and weather at their places, those within the part at its beginning', async () => {
    const before = await read(whole)
    const after = await mark(whole, before, 10_000, 15_000)
    const plan = planned({})
    const kept = keepPlaces(plan, before, after)
    expect(places(kept)).toEqual({
      stops: [1000, 10_000, 15_000],
      controls: [10_000],
      weather: [1000, 10_000, 15_000],
    })
    expect(kept.stops[0]).toBe(plan.stops[0])
    expect(readPlan(writePlan(kept))).toEqual({ ok: true, plan: kept })
    const back = keepPlaces(kept, after, before)
    expect(places(back)).toEqual({
      stops: [1000, 10_000, 20_000],
      controls: [10_000],
      weather: [1000, 10_000, 20_000],
    })
    // The same place of the road.
    const was = positionAt(before.route, 20_000)
    const is = positionAt(after.route, kept.stops[2]!.distance)
    near(is.latitude, was.latitude, 1e-9)
  })

  it('keeps both ends of a stretch; one wholly within the part goes', async () => {
    const before = await read(whole)
    const after = await mark(whole, before, 10_000, 15_000)
    const spans = [
      [1000, 2000],
      [9000, 11_000],
      [11_000, 12_000],
      [14_000, 16_000],
      [20_000, 25_000],
    ] as const
    const plan = spans.reduce((plan, [start, end]) => addStretch(plan, start, end).plan, defaultPlan())
    const ends = ({ stretches }: Plan) => stretches.map(({ start, end }) => [Math.round(start), Math.round(end)])
    const kept = keepPlaces(plan, before, after)
    expect(ends(kept)).toEqual([
      [1000, 2000],
      [9000, 10_000],
      [10_000, 11_000],
      [15_000, 20_000],
    ])
    expect(kept.stretches[0]).toBe(plan.stretches[0])
    expect(readPlan(writePlan(kept))).toEqual({ ok: true, plan: kept })
    // When the part is ridden again neither of the two beside it grows into it.
    expect(ends(keepPlaces(kept, after, before))).toEqual([
      [1000, 2000],
      [9000, 10_000],
      [15_000, 16_000],
      [20_000, 25_000],
    ])
  })

  it('leaves crossings their timetables when one is marked before them, and gives that one the time of the recording', async () => {
    const before = await read(gapped)
    const stated = { timetable, source: 'source-1', fillFirst: 'emptiest' as const }
    const plan = planned({ crossings: [minute, stated] })
    const after = await mark(gapped, before, 2000, 4000)
    const kept = keepPlaces(plan, before, after)
    expect(kept.crossings.slice(1)).toEqual(plan.crossings)
    const minutes = Math.round(2000 / distance(45, 7, 45.001, 7))
    expect(kept.crossings[0]).toEqual({
      timetable: { kind: 'duration', duration: 600 + 60 * minutes },
      source: null,
      fillFirst: 'most',
    })
    expect(keepPlaces(kept, after, before).crossings).toEqual(plan.crossings)
  })

  it('gives a part that holds a night no time of the recording', async () => {
    const slept = gpx(segment(0, 101), segment(101, 201).replaceAll('2027-06-19', '2027-06-20'))
    const before = await read(slept)
    const after = await mark(slept, before, 8000, 14_000)
    expect(after.route.crossings[0]!.recordedTime).toBeGreaterThan(86_400)
    expect(keepPlaces(planned({}), before, after).crossings).toEqual([])
  })

  it('drops the timetable of a gap that was ridden, not those of the others, and assumes its recorded time anew', async () => {
    const before = await read(gapped)
    const stated = { timetable, source: null, fillFirst: 'most' as const }
    const plan = planned({ crossings: [minute, stated] })
    const ridden = await read(gapped, [], [0])
    const kept = keepPlaces(plan, before, ridden)
    expect(kept.crossings).toEqual([stated])
    near(kept.stops[1]!.distance, 12_000 + before.gaps[0]!.to - before.gaps[0]!.from, 1e-6)
    const back = keepPlaces(kept, ridden, before)
    // A point each minute, 50 from one side of the gap to the other.
    expect(back.crossings).toEqual([{ ...minute, timetable: { kind: 'duration', duration: 600 + 50 * 60 } }, stated])
    expect(keepPlaces(planned({}), before, ridden).crossings).toEqual([])
  })

  it('moves what stands at the start with the start when the beginning is left out, and back', async () => {
    const before = await read(whole)
    const after = await mark(whole, before, 0, 5000)
    const kept = keepPlaces(planned({}), before, after)
    expect(places(kept).stops).toEqual([0, 7000, 15_000])
    expect(places(keepPlaces(kept, after, before)).stops).toEqual([5000, 12_000, 20_000])
  })
})
