import { describe, expect, it } from 'vitest'
import type { Halt, Outcome } from '../../src/model/forecast/outcome'
import { defaultMains, defaultStop } from '../../src/model/plan/defaults'
import type { Plan, PlanStop } from '../../src/model/plan/schema'
import { powerOf, readingAt } from '../../src/model/readings/at'
import { chargesUpTo } from '../../src/model/readings/charged'
import { departuresOf } from '../../src/model/readings/departures'
import { legNotes } from '../../src/model/readings/leg-notes'
import type { Leg } from '../../src/model/readings/legs'
import { daylightOf, lightsAdvice } from '../../src/model/readings/light'
import { provisionsOf, turnover, type Needs } from '../../src/model/readings/needs'
import { onFoot, onFootBetween } from '../../src/model/readings/on-foot'
import { marginOf, reachAtStop, reachFrom } from '../../src/model/readings/reach'
import { packLimits, unpowered, walking } from '../../src/model/ride/motion'
import type { Light, LightAlong } from '../../src/model/world/daylight'
import { near } from '../asserts'

/**
 * A day of six stations, 1 km apart, written by hand: 200 s a step of which 180 in motion, 5 kJ a step from the packs; at station 2 a stop of 1000 s
 * that charges 12 kJ; a crossing between stations 3 and 4.
 */
function day(change: Partial<Outcome> = {}): Outcome {
  const halt = {
    kind: 'stop',
    station: 2,
    distance: 2000,
    arrive: 400,
    depart: 1400,
    leftBefore: 30_000,
    leftAfter: 42_000,
    stop: 'mill',
    charges: [],
  } as unknown as Halt
  return {
    route: {
      stations: {
        distance: Float64Array.of(0, 1000, 2000, 3000, 3000, 4000),
        elevation: Float64Array.of(100, 120, 90, 90, 0, 40),
        gradient: Float64Array.of(0.02, -0.03, 0, 0, 0.04, 0),
      },
    },
    plan: { stops: [], controls: [], sources: [] } as unknown as Plan,
    columns: {
      time: Float64Array.of(0, 200, 400, 1600, 2600, 2800),
      ridingTime: Float64Array.of(0, 180, 360, 540, 540, 720),
      speed: Float64Array.of(0, 6, 0, 0, 0, 5),
      riderWork: Float64Array.of(0, 18_000, 36_000, 54_000, 54_000, 72_000),
      motorWork: Float64Array.of(0, 9000, 9000, 18_000, 18_000, 27_000),
      state: Uint8Array.of(walking, walking | unpowered, 0, 0, walking | packLimits, 0),
      drained: Float64Array.of(0, 5000, 10_000, 15_000, 15_000, 20_000),
      left: Float64Array.of(40_000, 35_000, 30_000, 37_000, 37_000, 32_000),
      pack: new Uint8Array(6),
    },
    halts: [halt],
    usable: 60_000,
    reserve: 10_000,
    length: 4000,
    reserveAt: undefined,
    emptyAt: undefined,
    ...change,
  } as unknown as Outcome
}

describe('the reading at a place', () => {
  it('is straight between stations, from departure to arrival', () => {
    expect(readingAt(day(), 500)).toMatchObject({
      distance: 500,
      elevation: 110,
      gradient: 0.02,
      speed: 3,
      riderPower: 100,
      motorPower: 50,
      drained: 2500,
      left: 37_500,
      drain: 5,
      time: 100,
      state: walking,
    })
    // Behind the stop: it was left with 42 kJ after 1400 s.
    expect(readingAt(day(), 2500)).toMatchObject({ left: 39_500, time: 1500, riderPower: 100, motorPower: 50 })
    // At the stop itself, as on arrival.
    expect(readingAt(day(), 2000)).toMatchObject({ left: 30_000, time: 400 })
  })

  it('is at the finish that of the last step, and beyond the ends that of the ends', () => {
    for (const place of [4000, 5000])
      expect(readingAt(day(), place)).toMatchObject({
        distance: 4000,
        elevation: 40,
        gradient: 0.04,
        drain: 5,
        time: 2800,
        left: 32_000,
      })
    expect(readingAt(day(), -5)).toMatchObject({ distance: 0, time: 0, left: 40_000 })
  })

  it('has no power where nothing is ridden, and the departure of each station', () => {
    const outcome = day()
    expect([0, 3, 4].map((station) => powerOf(outcome.columns.riderWork, outcome, station))).toEqual([100, 0, 100])
    expect([1, 2, 3].map(departuresOf(outcome))).toEqual([200, 1400, 1600])
  })
})

describe('what is walked', () => {
  it('is told by its cause', () => {
    expect(onFoot(day())).toEqual({ tooSteep: 1000, noCharge: 1000, weakPack: 1000 })
    expect(onFootBetween(day(), 1, 4)).toEqual({ tooSteep: 0, noCharge: 1000, weakPack: 0 })
  })
})

describe('reach', () => {
  it('goes to the reserve with what is charged on the way, and without it', () => {
    // 22 kJ above the reserve at the finish, at 5 J/m.
    expect(reachFrom(day(), 0)).toEqual({
      left: 40_000,
      until: undefined,
      length: 4000,
      spare: 22_000,
      spareLength: 4400,
    })
    const { before, after } = reachAtStop(day(), 2)
    expect(after).toMatchObject({ left: 42_000, until: undefined, spare: 22_000 })
    expect(before).toMatchObject({ left: 30_000, until: undefined, spare: 10_000 })
    // With a reserve of 22 kJ the charge of the stop is wanted, 8 kJ from it: 1.6 km.
    const dear = day({ reserve: 22_000 })
    expect(reachAtStop(dear, 2).before).toMatchObject({ until: 3600, length: 1600, spare: 0 })
    expect(reachFrom(dear, 2500)).toMatchObject({ left: 39_500, until: undefined, spare: 10_000 })
    expect(reachFrom(dear, 1000)).toMatchObject({ left: 35_000, until: undefined, spare: 10_000 })
    expect(reachFrom(day({ reserve: 36_000 }), 500)).toMatchObject({ left: 37_500, until: 800, length: 300, spare: 0 })
  })

  it('keeps what it arrives with at a stop that charges up to less', () => {
    const stop = { ...defaultStop('mill', 'Mill', 2000, 'plug'), goal: 'charge', chargeTo: 0.4 }
    const outcome = day({
      plan: { stops: [stop], sources: [defaultMains('plug', 'Plug')], controls: [] } as unknown as Plan,
      halts: [{ ...day().halts[0]!, leftAfter: 30_000 }],
    })
    outcome.columns.left.set([25_000, 25_000, 20_000], 3)
    // 40 % of 60 kJ are 24 kJ, it arrives with 30.
    expect(reachFrom(outcome, 0)).toMatchObject({ until: undefined, spare: 10_000 })
  })

  it('is nothing below the reserve, or with an empty pack', () => {
    expect(reachFrom(day({ reserve: 38_000 }), 500)).toMatchObject({ until: 500, length: 0, spare: 0, spareLength: 0 })
    const spent = day({ reserve: 0, emptyAt: 3000 })
    expect(reachFrom(spent, 2500)).toMatchObject({ until: 3000, length: 500 })
    const empty = day({ reserve: 0 })
    empty.columns.left.fill(0.5)
    expect(reachFrom(empty, 3500)).toMatchObject({ until: 3500, length: 0 })
  })

  it('is nothing at the finish below the reserve', () => {
    expect(reachFrom(day({ reserve: 33_000 }), 4000)).toMatchObject({ left: 32_000, until: 4000, length: 0, spare: 0 })
    expect(reachFrom(day({ reserve: 31_000 }), 4000)).toMatchObject({ until: undefined, length: 0, spare: 1000 })
  })

  it('has no length for what is left where nothing is drained', () => {
    const free = day({ halts: [] })
    free.columns.left.fill(30_000)
    free.columns.drained.fill(0)
    expect(reachFrom(free, 0)).toMatchObject({ spare: 20_000, spareLength: undefined })
  })

  it('is judged by what is left at the finish', () => {
    expect(marginOf(day())).toEqual({
      verdict: 'lasts',
      margin: 22_000,
      reserveAt: undefined,
      emptyAt: undefined,
      withoutMotor: 0,
    })
    expect(marginOf(day({ reserveAt: 1500, reserve: 33_000 }))).toMatchObject({ verdict: 'reserve', margin: -1000 })
    const empty = day({ reserveAt: 1500, emptyAt: 2000 })
    empty.columns.left.set([0, 0, 0, 32_000], 2)
    expect(marginOf(empty)).toMatchObject({ verdict: 'empty', withoutMotor: 2000 })
    empty.columns.left.set([0, 20, 0, 0], 2)
    expect(marginOf(empty)).toMatchObject({ verdict: 'empty', withoutMotor: 2000, margin: -10_000 })
  })
})

describe('what a stop would charge up to', () => {
  const stop = (change: Partial<PlanStop> = {}): PlanStop => ({
    ...defaultStop('mill', 'Mill', 2000, 'plug'),
    goal: 'charge',
    chargeTo: 0.7,
    ...change,
  })
  const upTo = (planned: PlanStop, halt: Partial<Halt>, source: object = defaultMains('plug', 'Plug')) => {
    const outcome = day({ plan: { stops: [planned], sources: [source], controls: [] } as unknown as Plan })
    return chargesUpTo(outcome, { ...outcome.halts[0]!, ...halt })
  }
  const charges = (...ends: string[]) => ({ charges: ends.map((end) => ({ pack: 0, run: { end } })) }) as Partial<Halt>

  it('is what it left with where each charge went as far as it was to go', () => {
    for (const end of ['until', 'full', 'chargerVoltage']) expect(upTo(stop(), charges(end))).toBe(42_000)
    expect(upTo(stop(), charges('full', 'until'))).toBe(42_000)
    for (const end of ['time', 'sourceEmpty', 'noSocket']) expect(upTo(stop(), charges('full', end))).toBeUndefined()
  })

  it('is the share where nothing was to be put in from the mains, unknown from a carried pack or by another source', () => {
    expect(upTo(stop(), {})).toBeCloseTo(42_000, 9)
    expect(upTo(stop({ source: 'other' }), {})).toBeUndefined()
    expect(upTo(stop(), {}, { id: 'plug', kind: 'carried' })).toBeUndefined()
  })

  it('is unknown for a stop by time, a refused one and none', () => {
    expect(upTo(stop({ goal: 'duration' }), charges('full'))).toBeUndefined()
    expect(upTo(stop(), { ...charges('full'), refusal: { code: 'tooCold', least: 0 } })).toBeUndefined()
    expect(upTo(stop(), { ...charges('full'), stop: 'inn' })).toBeUndefined()
  })
})

describe('what is worth saying of a leg', () => {
  const plan = {
    stops: [
      { id: 'inn', name: 'Inn' },
      { id: 'mill', name: 'Mill' },
    ],
    controls: [
      { id: 'other', name: 'Gate' },
      { id: 'bridge', name: 'Bridge' },
    ],
  } as unknown as Plan
  const leg = (halts: Partial<Halt>[]) =>
    ({
      start: 1000,
      end: 3000,
      first: 0,
      last: 5,
      halts: halts.map((halt) => ({ ...day().halts[0]!, ...halt })),
    }) as Leg

  it('is where the reserve and the end of the charge fall in it, not at its beginning', () => {
    const codes = (reserveAt: number, emptyAt: number) =>
      legNotes(day({ plan, reserveAt, emptyAt }), { ...leg([]), last: 0 })
    expect(codes(1000, 3001)).toEqual([])
    expect(codes(1001, 3000)).toEqual([
      { code: 'reserveReached', at: 1001 },
      { code: 'motorOff', at: 3000 },
    ])
  })

  it('is what is walked, and its halts in order, with their names', () => {
    const refusal = { code: 'tooCold', least: 0 } as const
    const halts: Partial<Halt>[] = [
      { kind: 'swap' },
      { kind: 'crossing' },
      { kind: 'control', control: 'bridge' },
      { kind: 'stop', refusal },
    ]
    expect(legNotes(day({ plan }), leg(halts))).toEqual([
      { code: 'walking', cause: 'tooSteep' },
      { code: 'walking', cause: 'noCharge' },
      { code: 'walking', cause: 'weakPack' },
      { code: 'nextPack', at: 2000 },
      { code: 'crossing', time: 1000, added: 12_000 },
      { code: 'untilOpen', control: 'Bridge', time: 1000 },
      { code: 'stop', stop: 'Mill', time: 1000, added: 12_000 },
      { code: 'notCharged', refusal },
    ])
  })
})

describe('the light along a day', () => {
  const through = (...lights: Light[]) => {
    const light = { lightAt: (station: number) => lights[station]! } as unknown as LightAlong
    return daylightOf(day(), light, 8)
  }

  it('is summed by length and time in motion, and tells where day is left and comes back', () => {
    expect(through('dark', 'twilight', 'day', 'dark', 'day')).toEqual({
      length: { dark: 1000, twilight: 1000, day: 2000 },
      time: { dark: 180, twilight: 180, day: 360 },
      share: 0.5,
      first: { distance: 0, time: 0 },
      last: { distance: 2000, time: 400 },
      lampEnergy: 8 * 360,
    })
    // From the stop on: it is left after 1400 s.
    expect(through('day', 'day', 'dark', 'day', 'day')).toMatchObject({
      first: { distance: 2000, time: 1400 },
      last: { distance: 3000, time: 1600 },
      share: 0.25,
    })
  })

  it('asks for lamps where there is no day, or less than an hour of it left', () => {
    const day = through('day', 'day', 'day', 'day', 'day')
    expect(day).toMatchObject({ share: 0, first: undefined, last: undefined })
    expect([3599, 3600, undefined].map((spare) => lightsAdvice(day, spare))).toEqual(['late', 'day', 'day'])
    expect(lightsAdvice(through('dark', 'day', 'day', 'day', 'day'), 9999)).toBe('dark')
  })
})

describe('food and water from refill to refill', () => {
  it('are by the hour, in whole bars, gels and bottles', () => {
    // A body turns a quarter of what it burns into work; a kilocalorie is 4184 J.
    expect(turnover(41_840, 0.25)).toEqual({ energy: 167_360, kilocalories: 40 })
    const needs = {
      grossEfficiency: 0.25,
      carbohydratePerHour: 0.06,
      barShare: 0.5,
      barCarbohydrate: 0.03,
      gelCarbohydrate: 0.025,
      waterCool: 0.4,
      waterHot: 0.8,
      bottle: 0.75,
    } as Needs
    const asked: number[][] = []
    const provisions = provisionsOf(day(), [{ name: 'Mill', station: 2 }], needs, (...span) => {
      asked.push(span)
      return 20
    })
    // From the stop, left after 1400 s, to the finish.
    expect(asked).toEqual([
      [0, 400],
      [1400, 2800],
    ])
    const [, last] = provisions
    expect(last).toMatchObject({ start: 2000, end: 4000, time: 1400, work: 36_000, energy: 144_000, bars: 0, gels: 1 })
    near(last!.carbohydrate, (0.06 * 1400) / 3600, 1e-12)
    near(last!.water, (0.6 * 1400) / 3600, 1e-12)
    expect(last!.bottles).toBe(1)
    const more = provisionsOf(day(), [], { ...needs, carbohydratePerHour: 0.12, waterCool: 3, waterHot: 3 }, () => 10)
    // 2800 s: 93.3 g, half of it in bars is 1.56 of them, and 33.3 g are left for gels of 25 g; 2.33 kg of water are 3.1 bottles.
    expect(more).toMatchObject([{ bars: 2, gels: 2, bottles: 4 }])
  })
})
