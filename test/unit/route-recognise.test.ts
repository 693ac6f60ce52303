import { describe, expect, it } from 'vitest'
import { scaleAt } from '../../src/model/geo/scale'
import type { Points } from '../../src/model/route/points'
import { cruiseBetween, recognise, type PassedHole } from '../../src/model/route/recognise'
import { near, within } from '../asserts'

/** How a stretch goes, one point in 5 s, as exactly as it is told. */
interface Piece {
  /** s */
  time: number
  /** m/s, and radians clockwise from north, at a time since it began, s. */
  speed: (time: number) => number
  heading?: (time: number) => number
  /** m at a time since it began, s. */
  elevation?: (time: number) => number
}

const every = 5
const { north, east } = scaleAt(54)

function made(pieces: readonly Piece[]): { points: Points; track: Float64Array; starts: number[] } {
  const columns = {
    latitude: [] as number[],
    longitude: [] as number[],
    elevation: [] as number[],
    time: [] as number[],
  }
  const track: number[] = []
  const starts: number[] = []
  let [x, y, way, clock] = [0, 0, 0, 1_800_000_000]
  for (const { time, speed, heading = () => 0, elevation = () => 3 } of pieces) {
    starts.push(track.length)
    for (let t = 0; t < time; t += every) {
      columns.latitude.push(54 + y / north)
      columns.longitude.push(8 + x / east)
      columns.elevation.push(elevation(t))
      columns.time.push(clock)
      track.push(way)
      const step = every * speed(t)
      x += step * Math.sin(heading(t))
      y += step * Math.cos(heading(t))
      way += step
      clock += every
    }
  }
  const column = (of: number[]) => Float64Array.from(of)
  return {
    points: {
      latitude: column(columns.latitude),
      longitude: column(columns.longitude),
      elevation: column(columns.elevation),
      time: column(columns.time),
      starts: new Uint8Array(track.length),
      step: column(track.map((at, i) => at - (track[i - 1] ?? at))),
    },
    track: column(track),
    starts,
  }
}

const still = (time: number): Piece => ({ time, speed: () => 0 })
const road: Piece = {
  time: 600,
  speed: (t) => 5.5 + Math.sin(t / 30),
  elevation: (t) => 40 * Math.sin(t / 90),
  heading: (t) => Math.sin(t / 45),
}
const at = (speed: number, time: number, more: Partial<Piece> = {}): Piece => ({ time, speed: () => speed, ...more })

/** What is found in a road, a halt, a passage, a short stand and a road. */
const found = (passage: Piece, halt = 400) => {
  const { points, track } = made([road, still(halt), passage, still(100), road])
  return recognise(points, track, [])
}
const kinds = (passage: Piece, halt?: number) => found(passage, halt).map(({ kind }) => kind)

describe('a passage at sea', () => {
  it('is told from where it began to where it ended', () => {
    const [part, ...others] = found(at(8, 1200))
    expect([part!.kind, others.length]).toEqual(['level', 0])
    // Standing is told by half a minute in which one gets no farther than 21 m: 3 s at 8 m/s.
    within(part!.to - part!.from, 8 * 1200, 0.01)
    near(part!.time, 1200, 10)
    near(part!.speed, 8, 2e-4)
    near(part!.halt, 400, 10)
  })

  it.each([
    ['a halt of nearly 3 minutes', at(8, 1200), 165, []],
    ['a halt of more than 3 minutes', at(8, 1200), 195, ['level']],
    ['less than 10 minutes', at(8, 570), 400, []],
    ['more than 10 minutes', at(8, 640), 400, ['level']],
    ['slower than 2 m/s', at(1.95, 1200), 400, []],
    ['faster than 2 m/s', at(2.05, 1200), 400, ['level']],
    ['slower than 25 m/s', at(24.7, 1200), 400, ['level']],
    ['faster than 25 m/s', at(25.3, 1200), 400, ['fast']],
    [
      'steady to 2 %',
      { time: 1800, speed: (t: number) => 8 * (1 + 0.02 * Math.sign(Math.sin(t / 60))) },
      400,
      ['level'],
    ],
    ['steady to 3 %', { time: 1800, speed: (t: number) => 8 * (1 + 0.032 * Math.sign(Math.sin(t / 120))) }, 400, []],
    ['under way for 75 % of it', { time: 1800, speed: (t: number) => (t < 440 ? 4 : 8) }, 400, ['level']],
    ['under way for 65 % of it', { time: 1800, speed: (t: number) => (t < 620 ? 4 : 8) }, 400, []],
    ['slowed by 9 % for a while', { time: 1200, speed: (t: number) => (t > 500 && t < 560 ? 7.4 : 8) }, 400, ['level']],
    ['slowed by 15 % half-way', { time: 1200, speed: (t: number) => (t > 500 && t < 640 ? 6.8 : 8) }, 400, []],
    ['heights within 15 m', at(8, 1200, { elevation: (t) => (t % 10 === 0 ? 3 : 17.5) }), 400, ['level']],
    ['heights within more than 15 m', at(8, 1200, { elevation: (t) => (t % 10 === 0 ? 3 : 18.5) }), 400, []],
    [
      'few heights beside',
      at(8, 1200, { elevation: (t) => (t % 120 === 0 ? 90 : t % 125 === 0 ? -90 : 3) }),
      400,
      ['level'],
    ],
    ['7.6 m more in its last third', at(8, 1200, { elevation: (t) => (11.4 * t) / 1200 }), 400, ['level']],
    ['8.6 m more in its last third', at(8, 1200, { elevation: (t) => (12.9 * t) / 1200 }), 400, []],
    ['8.6 m less in its last third', at(8, 1200, { elevation: (t) => (-12.9 * t) / 1200 }), 400, []],
    ['heights known for less than half', at(8, 1200, { elevation: (t) => (t % 15 === 0 ? 3 : NaN) }), 400, []],
    ['heights known for more than half', at(8, 1200, { elevation: (t) => (t % 15 === 0 ? NaN : 3) }), 400, ['level']],
    ['a few turns', at(8, 1800, { heading: (t) => 1.2 * Math.min(2, Math.floor(t / 600)) }), 400, ['level']],
    ['a turn in each fifth minute', at(8, 1800, { heading: (t) => 1.2 * Math.floor(t / 300) }), 400, []],
    [
      'a turn about north in each fifth minute',
      at(8, 1800, { heading: (t) => (Math.floor(t / 300) % 2 === 0 ? 0.2 : -0.2) }),
      400,
      ['level'],
    ],
    ['slow turns', at(8, 1800, { heading: (t) => 0.45 * Math.floor(t / 60) }), 400, ['level']],
  ] as [string, Piece, number, string[]][])('with %s', (_, passage, halt, expected) => {
    expect(kinds(passage, halt)).toEqual(expected)
  })

  it('begins after three minutes of halt, and lasts ten, at the least', () => {
    const least = (found: (k: number) => ReturnType<typeof recognise>) =>
      Array.from({ length: 30 }, (_, k) => found(k)[0]).find((part) => part !== undefined)!
    expect(least((k) => found(at(8, 1200), 120 + 5 * k)).halt).toBe(180)
    expect(least((k) => found(at(8, 550 + 5 * k))).time).toBe(600)
  })

  it('begins after a halt in which the receiver wanders, by less than 0.7 m/s', () => {
    const after = (drift: number) => {
      const { points, track } = made([road, at(drift, 400), at(8, 1200), still(100), road])
      return recognise(points, track, []).map(({ kind }) => kind)
    }
    expect([after(0.65), after(0.75)]).toEqual([['level'], []])
  })

  it('may be the last that was recorded, or the first', () => {
    const { points, track } = made([road, still(400), at(8, 1200)])
    const [part, ...none] = recognise(points, track, [])
    expect([part!.kind, part!.to, none.length]).toEqual(['level', track.at(-1)!, 0])
    const first = made([still(400), at(8, 1200), still(100), road])
    expect(recognise(first.points, first.track, []).map(({ kind, halt }) => [kind, halt])).toEqual([['level', 400]])
  })

  it('is unknown where the receiver was silent for over two minutes on the way', () => {
    const { points, track } = made([road, still(400), at(8, 1200), still(100), road])
    const without = (from: number, to: number) => {
      const kept = (column: Float64Array) => column.filter((_, i) => i <= from || i >= to)
      const { latitude, longitude, elevation, time, step } = points
      return recognise(
        {
          latitude: kept(latitude),
          longitude: kept(longitude),
          elevation: kept(elevation),
          time: kept(time),
          starts: new Uint8Array(kept(time).length),
          step: kept(step),
        },
        kept(track),
        [],
      ).map(({ kind }) => kind)
    }
    expect([without(260, 284), without(260, 285)]).toEqual([['level'], []])
  })
})

describe('a passage with a hole on its way', () => {
  /** From point to point of the passage, which begins at point 200, a quarter of an hour with nothing recorded for some of it. */
  const passed = (passage: Piece, halt: number, hole: Partial<PassedHole>) => {
    const { points, track, starts } = made([road, still(halt), passage, still(100), road])
    const first = starts[2]! + 60
    return recognise(points, track, [{ first, last: first + 40, isCrossing: false, isTold: false, ...hole }]).map(
      ({ kind }) => kind,
    )
  }
  const wavering = (share: number): Piece => ({
    time: 1800,
    speed: (t) => 8 * (1 + share * Math.sign(Math.sin(t / 120))),
  })

  it('that is a crossing by itself needs no halt, is less steady, and its height may be unknown', () => {
    expect([passed(at(8, 1200), 60, { isCrossing: true }), passed(at(8, 1200), 60, {})]).toEqual([['level'], []])
    expect([0.04, 0.065].map((share) => passed(wavering(share), 400, { isCrossing: true }))).toEqual([['level'], []])
    const high = at(8, 1200, { elevation: () => NaN })
    expect([passed(high, 400, { isCrossing: true }), passed(high, 400, {})]).toEqual([['level'], []])
  })

  it('may have several in which the receiver was silent, if the rider is told of each', () => {
    const { points, track, starts } = made([road, still(400), at(8, 1800), still(100), road])
    const sea = starts[2]!
    const spans = [
      [sea + 60, sea + 100],
      [sea + 150, sea + 200],
    ] as const
    const isKept = (_: number, i: number) => !spans.some(([from, to]) => i > from && i < to)
    const kept = (column: Float64Array) => column.filter(isKept)
    const { latitude, longitude, elevation, time, step } = points
    const seen: Points = {
      latitude: kept(latitude),
      longitude: kept(longitude),
      elevation: kept(elevation),
      time: kept(time),
      starts: new Uint8Array(kept(time).length),
      step: kept(step),
    }
    const way = kept(track)
    const at60 = { first: sea + 60, last: sea + 61 }
    const at150 = { first: sea + 111, last: sea + 112 }
    const of = (...holes: PassedHole[]) => recognise(seen, way, holes).map(({ kind }) => kind)
    const told = { isTold: true, isCrossing: false }
    const crossing = { isTold: false, isCrossing: true }
    const neither = { isTold: false, isCrossing: false }
    expect(of({ ...at60, ...told }, { ...at150, ...told })).toEqual(['level'])
    expect(of({ ...at60, ...crossing }, { ...at150, ...told })).toEqual(['level'])
    expect(of({ ...at60, ...told }, { ...at150, ...neither })).toEqual([])
    expect(of({ ...at60, ...neither }, { ...at150, ...told })).toEqual([])
    expect(of({ ...at60, ...told })).toEqual([])
    expect(of({ ...at150, ...told })).toEqual([])
    expect(of({ first: sea + 10, last: sea + 20, ...told }, { ...at60, ...told }, { ...at150, ...told })).toEqual([
      'level',
    ])
  })

  it('is none before it, nor one that begins where it ends', () => {
    const { points, track, starts } = made([road, still(60), at(8, 1200), still(100), road])
    const crossing = (first: number, last: number) =>
      recognise(points, track, [{ first, last, isTold: true, isCrossing: true }]).map(({ kind }) => kind)
    const sea = starts[2]!
    expect([crossing(10, 40), crossing(sea + 60, sea + 70), crossing(starts[4]! + 10, starts[4]! + 20)]).toEqual([
      [],
      ['level'],
      [],
    ])
    const [part] = recognise(points, track, [{ first: sea + 60, last: sea + 70, isTold: true, isCrossing: true }])
    const end = track.indexOf(part!.to)
    expect([crossing(end - 1, end + 3), crossing(end, end + 3)]).toEqual([['level'], []])
  })

  it('is passed at the speed of the rest within 30 %, or is none', () => {
    const speedIn = (speed: number): Piece => ({ time: 1800, speed: (t) => (t >= 300 && t < 500 ? speed : 8) })
    expect([5.4, 5.8, 10.2, 10.6].map((speed) => passed(speedIn(speed), 400, {}))).toEqual([
      [],
      ['level'],
      ['level'],
      [],
    ])
    expect(passed(speedIn(16), 400, { isCrossing: true })).toEqual(['level'])
  })

  it('gives a ship’s speed from what was recorded between two, if it could be aboard', () => {
    const { points, track } = made([at(8, 1200)])
    near(cruiseBetween(points, track, 0, track.length - 1)!, 8, 2e-4)
    // Of fewer than five whole minutes nothing is said.
    expect([cruiseBetween(points, track, 0, 59), cruiseBetween(points, track, 0, 60) !== undefined]).toEqual([
      undefined,
      true,
    ])
    const hilly = made([at(8, 1200, { elevation: (t) => 0.05 * t })])
    expect(cruiseBetween(hilly.points, hilly.track, 0, track.length - 1)).toBeUndefined()
  })
})

describe('a train or a car', () => {
  /** No ship: it is slower in every other minute. */
  const line = (time: number): Piece => ({ time, speed: (t) => (Math.floor(t / 60) % 2 === 0 ? 17 : 23) })
  const fast = (passage: Piece) => kinds(passage, 60)

  it('is faster than a rider in the most favourable position for three minutes and half of the way', () => {
    // 700 W on the level, 75 kg, 0.4 m², 1.2 kg/m³, rolling 0.004: 14.0 m/s (Martin et al. 1998).
    expect([13.8, 14.2].map((speed) => fast(at(speed, 600)))).toEqual([[], ['fast']])
    const forMinutes = (minutes: number): Piece => ({ time: 900, speed: (t) => (t < 60 * minutes + 20 ? 16 : 5) })
    expect([2, 4].map((minutes) => fast({ ...forMinutes(minutes), time: 360 }))).toEqual([[], ['fast']])
    // 16 m/s for 4 of 17 minutes are 46 % of the way, of 13 minutes 54 %.
    const slowAfter = (minutes: number): Piece => ({ time: 60 * minutes, speed: (t) => (t < 250 ? 16 : 6) })
    expect([17, 13].map((minutes) => fast(slowAfter(minutes)))).toEqual([[], ['fast']])
    const [one] = found(at(16, 600), 60)
    near(one!.speed, 16, 0.1)
    // 12 m/s up 6 % is no rider's.
    expect([0, 0.06].map((slope) => fast(at(12, 600, { elevation: (t) => 12 * t * slope })))).toEqual([[], ['fast']])
  })

  it('is one over its stops of up to ten minutes', () => {
    const over = (stop: number) => {
      const { points, track } = made([road, still(60), line(600), still(stop), line(900), still(100), road])
      return recognise(points, track, [])
    }
    const [one, ...none] = over(570)
    expect(none).toEqual([])
    near(one!.time, 600 + 570 + 900, 15)
    within(one!.to - one!.from, 10 * 60 * 20 + 15 * 60 * 20 - 3 * 60, 0.01)
    within(one!.speed, (one!.to - one!.from) / one!.time, 1e-9)
    expect(over(640).length).toBe(2)
    // A ship behind it is no part of it.
    const both = made([road, still(60), line(600), still(250), at(8, 1200), still(100), road])
    expect(recognise(both.points, both.track, []).map(({ kind }) => kind)).toEqual(['fast', 'level'])
    // Not over a ride between.
    const { points, track } = made([road, still(60), line(600), still(60), road, still(60), line(600), still(60)])
    expect(recognise(points, track, []).map(({ kind }) => kind)).toEqual(['fast', 'fast'])
  })

  it('counts a hole that is a crossing as its way', () => {
    const { points, track, starts } = made([road, still(30), at(16, 250), at(6, 1000), still(100), road])
    const hole = { first: starts[3]! + 60, last: starts[3]! + 180, isTold: true }
    const of = (isCrossing: boolean) => recognise(points, track, [{ ...hole, isCrossing }]).map(({ kind }) => kind)
    expect([of(false), of(true)]).toEqual([[], ['fast']])
    const short = { first: hole.first, last: hole.first + 5, isTold: true, isCrossing: true }
    expect(recognise(points, track, [short]).map(({ kind }) => kind)).not.toContain('fast')
  })
})
