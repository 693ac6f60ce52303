import { describe, expect, it } from 'vitest'
import type { Cleaned } from '../../src/model/route/clean'
import type { Line } from '../../src/model/route/line'
import type { Ground } from '../../src/model/route/ground'
import { groundNotes, notesOn } from '../../src/model/route/notes'
import { WHOLE_FILE } from '../../src/model/route/reading'
import { partApart } from '../../src/model/route/part-apart'
import type { Part } from '../../src/model/route/parts'
import { markPart, onRide, onTrack, travelledOf, unmark, type Stretch } from '../../src/model/route/travelled'

/** A part of points north along the meridian, by km from the equator. */
const part = (places: readonly number[], time = NaN): Part => ({
  latitude: Float64Array.from(places, (km) => km / 110.574),
  longitude: new Float64Array(places.length).fill(7),
  elevation: new Float64Array(places.length),
  time: new Float64Array(places.length).fill(time),
})
const line = (change: Partial<Line> = {}): Line => ({
  name: '',
  kind: 'track',
  parts: [],
  fromExtensions: 0,
  ...change,
})

describe('what is said about a route', () => {
  const quiet = {
    heights: { elevation: new Float64Array(5) },
    fromGround: 0,
    distance: Float64Array.of(0, 100, 200, 300, 400),
    gaps: [],
    travelled: [],
    elevationKnown: 'all',
    longestHole: 0,
    timesApart: undefined,
    counts: { unknownElevations: 0, impossibleTimes: 0 },
  } as unknown as Cleaned
  const said = (change: Partial<Cleaned>) => notesOn({ ...quiet, ...change }, [line()], [0])
  const saidOf = (lines: Line[], used: number[]) => notesOn(quiet, lines, used)

  it('is nothing where all is known', () => {
    expect(said({})).toEqual([])
  })

  it('is of steps longer than 1 km, if they are more than a tenth of the way', () => {
    expect(said({ distance: Float64Array.of(0, 1000, 1100, 2100) })).toEqual([])
    expect(said({ distance: Float64Array.of(0, 1000.5, 2000, 10_006) })).toEqual([
      { code: 'farApart', length: 1000.5 + 8006, ridden: 10_006, longest: 8006 },
    ])
    const many = (last: number) =>
      Float64Array.from({ length: 103 }, (_, i) => (i < 101 ? 100 * i : i === 101 ? last : last + 0.5))
    expect(said({ distance: many(11_100) })).toEqual([])
    expect(said({ distance: many(11_115) })).toEqual([
      { code: 'farApart', length: 1115, ridden: 11_115.5, longest: 1115 },
    ])
  })

  it('is of elevation that is missing: what 100 m up take for 130 kg, m g h', () => {
    expect(said({ elevationKnown: 'none' })).toEqual([
      { code: 'noElevation', climb: 100, mass: 130, energy: 130 * 9.81 * 100 },
    ])
    const counts = { ...quiet.counts, unknownElevations: 3 }
    expect(said({ elevationKnown: 'part', longestHole: 1200, counts })).toEqual([
      { code: 'elevationMissing', unknown: 3, points: 5, longest: 1200 },
    ])
  })

  it('is of the ground that was brought, or that is not there', () => {
    const of = (fromGround: number, isChosen: boolean, ground?: Ground) => {
      const ask = { key: 'a', from: 'land', attribution: 'Surveyors' }
      return groundNotes({ ...quiet, fromGround }, { ...WHOLE_FILE, ...(isChosen && { ground: ask }) }, ground)
    }
    const ground = { across: 1, pixels: new Float64Array(0), heights: new Float32Array(0) }
    expect([of(5, false), of(5, false, ground), of(0, true, ground)]).toEqual([[], [], []])
    expect(of(5, true)).toEqual([{ code: 'groundLost', from: 'land' }])
    expect(of(5, true, ground)).toEqual([{ code: 'ground', length: 5, from: 'land', attribution: 'Surveyors' }])
  })

  it('is of what is left out, and of gaps that are ridden', () => {
    const gap = (from: number, to: number) => ({ from, to }) as Cleaned['gaps'][number]
    const out = (from: number, to: number, marked: boolean, place = 'between') =>
      ({ from, to, marked, place }) as Cleaned['travelled'][number]
    expect(
      said({
        gaps: [gap(10, 30), gap(50, 60), gap(70, 75), gap(100, 120)],
        travelled: [out(10, 30, false), out(40, 65, true), out(90, 100, true, 'end'), out(120, 130, false)],
      }),
    ).toEqual([
      { code: 'gaps', count: 2, length: 30 },
      { code: 'riddenGaps', count: 2, length: 25 },
      { code: 'marked', length: 25, place: 'between' },
      { code: 'marked', length: 10, place: 'end' },
    ])
  })

  it('is of times that are not used', () => {
    const counts = { ...quiet.counts, impossibleTimes: 2 }
    expect(said({ counts, timesApart: 9e6 })).toEqual([
      { code: 'timesNotUsed', count: 2 },
      { code: 'timesApart', time: 9e6 },
    ])
  })

  it('is of lines that were joined, in which order, and of others that were left', () => {
    const three = [line(), line({ fromExtensions: 4 }), line({ kind: 'route', fromExtensions: 2 })]
    expect(saidOf(three, [0, 1, 2])).toEqual([
      { code: 'joined', kind: 'track', count: 3, isReordered: false },
      { code: 'fromExtensions', count: 6 },
    ])
    expect(saidOf(three, [2, 0])).toEqual([
      { code: 'joined', kind: 'route', count: 2, isReordered: true },
      { code: 'fromExtensions', count: 2 },
      { code: 'linesLeft', count: 1 },
    ])
    expect(saidOf(three, [0])).toEqual([{ code: 'linesLeft', count: 2 }])
    expect(saidOf([line({ isPart: true }), line({ isPart: true })], [0, 1])).toEqual([
      { code: 'joined', kind: 'part', count: 2, isReordered: false },
    ])
  })
})

describe('a line of parts', () => {
  const pieces = (...parts: Part[]) => partApart(line({ name: 'a', parts, fromExtensions: 5 }))

  it('is several where more than half as much as they are long lies between them, more than 10 km at once', () => {
    const apart = [part([0, 10]), part([21, 31])]
    expect(pieces(...apart)).toEqual([
      { name: 'a', kind: 'track', parts: [apart[0]], isPart: true, fromExtensions: 5 },
      { name: 'a', kind: 'track', parts: [apart[1]], isPart: true, fromExtensions: 0 },
    ])
    const counts = (...parts: Part[]) => pieces(...parts).length
    // 9.9 km between; 11 km beside 22.2 and 21.8 km.
    expect(counts(part([0, 5]), part([14.9, 20]))).toBe(1)
    expect(counts(part([0, 11.2]), part([22.2, 33.2]))).toBe(1)
    expect(counts(part([0, 10.8]), part([21.8, 32.8]))).toBe(2)
    // Each little, together much; and one long among little.
    expect(counts(part([0, 3]), part([12, 15]), part([24, 27]))).toBe(1)
    expect(counts(part([0, 3]), part([15, 18]), part([18.1, 21]))).toBe(3)
    // What has no place is nowhere.
    expect(counts(part([0, 10]), part([NaN]), part([10, 20]))).toBe(1)
  })

  it('is one where it has times, or one part', () => {
    const timed = part([21, 31])
    timed.time[1] = 1.8e9
    expect(pieces(part([0, 10]), timed).length).toBe(1)
    expect(pieces(part([0, 10])).map(({ isPart }) => isPart)).toEqual([undefined])
  })
})

describe('what is not ridden', () => {
  const of = (gaps: [number, number][], marked: [number, number][]) =>
    travelledOf(
      gaps.map(([from, to]) => ({ from, to })),
      marked.map(([from, to]) => ({ from, to })),
      1000,
    ).map(({ from, to, marked, distance, place }) => [from, to, marked, distance, place])

  it('joins up closer than 20 m, and a marked part with an end of the track', () => {
    expect(of([[100, 200]], [[220, 300]])).toEqual([
      [100, 200, false, 100, 'between'],
      [220, 300, true, 120, 'between'],
    ])
    expect(of([[100, 200]], [[219, 300]])).toEqual([[100, 300, true, 100, 'between']])
    expect(of([[250, 400]], [[200, 300]])).toEqual([[200, 400, true, 200, 'between']])
    expect(of([[100, 300]], [[150, 200]])).toEqual([[100, 300, true, 100, 'between']])
    expect(of([], [[19, 100]])).toEqual([[0, 100, true, 0, 'start']])
    expect(of([], [[20, 100]])).toEqual([[20, 100, true, 20, 'between']])
    expect(of([], [[900, 981]])).toEqual([[900, 1000, true, 900, 'end']])
    expect(of([], [[900, 980]])).toEqual([[900, 980, true, 900, 'between']])
    expect(
      of(
        [
          [10, 100],
          [900, 990],
        ],
        [],
      ),
    ).toEqual([
      [10, 100, false, 10, 'between'],
      [900, 990, false, 810, 'between'],
    ])
  })

  it('lies on the track: what is marked beyond it is cut, or nothing', () => {
    expect(
      of(
        [],
        [
          [-50, 30],
          [990, 2000],
          [1000, 1100],
          [-9, 0],
          [500, 500],
          [600, 550],
        ],
      ),
    ).toEqual([
      [0, 30, true, 0, 'start'],
      [990, 1000, true, 960, 'end'],
    ])
  })

  const travelled = travelledOf(
    [{ from: 300, to: 400 }],
    [
      { from: 0, to: 100 },
      { from: 950, to: 1000 },
    ],
    1000,
  )

  it('moves places of the ride along the track, and back', () => {
    expect([0, 100, 200, 200.5, 550].map((ridden) => onTrack(travelled, ridden))).toEqual([100, 200, 300, 400.5, 750])
    expect([0, 199.99, 200].map((ridden) => onTrack(travelled, ridden, 'behind'))).toEqual([100, 299.99, 400])
    expect([0, 50, 100, 300, 350, 400, 500, 950, 1000].map((track) => onRide(travelled, track))).toEqual([
      0, 0, 0, 200, 200, 200, 300, 750, 750,
    ])
  })

  it('can be marked from 100 m on, forwards, and if something else is ridden', () => {
    const fault = (from: number, to: number) => {
      const marking = markPart([], travelled, 750, { from, to })
      return marking.ok ? marking.marked : marking.fault.code
    }
    expect([fault(10, 10), fault(20, 10), fault(10, 109.9), fault(19, 731), fault(0, 750)]).toEqual([
      'backward',
      'backward',
      'tooShort',
      'nothingRidden',
      'nothingRidden',
    ])
    expect([fault(10, 110), fault(19, 730), fault(20, 750)]).toEqual([
      [{ from: 110, to: 210 }],
      [{ from: 119, to: 930 }],
      [{ from: 120, to: 950 }],
    ])
    expect(markPart([], travelled, 750, { from: 0, to: 50 })).toEqual({
      ok: false,
      fault: { code: 'tooShort', least: 100 },
    })
    const before: Stretch[] = [{ from: 1, to: 2 }]
    expect(markPart(before, [], 750, { from: 10, to: 200 })).toEqual({
      ok: true,
      marked: [
        { from: 1, to: 2 },
        { from: 10, to: 200 },
      ],
    })
  })

  it('is marked no longer where it lies in what was ridden', () => {
    const marked = [
      { from: 0, to: 10 },
      { from: 5, to: 15 },
      { from: 20, to: 30 },
    ]
    expect(unmark(marked, { from: 10, to: 20 })).toEqual([marked[0], marked[2]])
  })
})
