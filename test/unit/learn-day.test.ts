import { readFileSync } from 'node:fs'
import * as v from 'valibot'
import { describe, expect, it } from 'vitest'
import { rideAndRecord } from '../../sample-routes/ridden'
import { packAt, usableEnergy } from '../../src/model/battery/pack'
import { simulate } from '../../src/model/forecast/simulate'
import { learnFrom } from '../../src/model/learn/learn'
import { planOfThatDay, rideNotesSchema } from '../../src/model/learn/notes'
import { gainedBy, gainedWhere, haltsGained, type HaltGained } from '../../src/model/learn/gained'
import { sameWays } from '../../src/model/learn/same-way'
import { laidOver } from '../../src/model/learn/that-day'
import { interpolate } from '../../src/model/columns'
import { defaultStop } from '../../src/model/plan/defaults'
import { readPlan } from '../../src/model/plan/check'
import { writePlan } from '../../src/model/plan/write'
import { setFields } from '../../src/model/plan/edit'
import { takeOver } from '../../src/model/plan/learnt'
import { setStepCount } from '../../src/model/plan/steps'
import { readRecording } from '../../src/model/recording/read'
import { readRoute } from '../../src/model/route/read'
import { shadingBy } from '../../src/view/last/gained'
import { near, within } from '../asserts'
import { statedPlan } from '../learning/study'
import { asGpx } from '../recordings'

const file = new Uint8Array(readFileSync(new URL('../../sample-routes/into-town-18km.gpx', import.meta.url)))
const town = await readRoute(file, 'town.gpx')
if (!town.ok) throw new Error(town.fault.code)
const { route } = town
const stated = statedPlan()
const halt = { distance: 7000, time: 720 }
const ridden = rideAndRecord(
  route,
  setFields(setFields(stated, 'rider', { power: 95 }), 'weather', { windSpeed: 0 }),
  {
    ...{ seed: 3, every: [2, 5] as const, pace: { deviation: 0.03, spacing: 900 }, aboard: false },
    receiver: { deviation: 3, stays: 60, jitter: 0.3 },
    barometer: { deviation: 1, spacing: 1800, jitter: 0.2 },
    halts: [halt, { distance: 12_000, time: 70 }],
  },
  Date.UTC(2026, 5, 13, 5) / 1000,
)
const reading = await readRecording(new TextEncoder().encode(asGpx('Into town', ...ridden.parts)), 'ride.gpx')
if (!reading.ok) throw new Error(reading.fault.code)
const { recording } = reading

describe('a ride laid over a route', () => {
  it('has at each place the riding time that it took to there', () => {
    const { clock, onRoute } = laidOver(route, recording)!
    expect(clock.distance.length).toBeGreaterThan(15)
    const { ridingTime } = ridden.outcome.columns
    // The rider's pace is uneven by some percent.
    clock.distance.forEach((distance, k) => {
      const true_ = interpolate(route.stations.distance, ridingTime, distance)
      near(clock.riding[k]!, true_, 15 + 0.03 * true_)
    })
    near(onRoute(recording.halts[0]!.distance), halt.distance, 60)
  })

  it('is none where it went another way', async () => {
    const other = new Uint8Array(readFileSync(new URL('../../sample-routes/two-passes-62km.gpx', import.meta.url)))
    const passes = await readRoute(other, 'passes.gpx')
    expect(passes.ok && laidOver(passes.route, recording)).toBeUndefined()
  })
})

describe('what a ride tells', () => {
  const notes = v.parse(rideNotesSchema, { windSpeed: 0 })
  const shares: number[] = []
  const lesson = learnFrom(route, stated, [{ name: 'Into town', notes, recording }], (share) => shares.push(share))
  const [ride] = lesson.rides

  it('comes with its progress, a test of its own, and what a reading would be worth', () => {
    expect(shares.toSorted((a, b) => a - b)).toEqual(shares)
    expect(shares.at(-1)!).toBeLessThanOrEqual(1)
    expect(lesson.test!.until).toBeCloseTo(recording.route.length / 2, 6)
    within(lesson.test!.riding.ridden, recording.riding.at(-1)! / 2, 0.25)
    expect(lesson.test!.energy).toBeUndefined()
    const assist = ride!.worth!.find(({ path }) => path === 'assist.ratio')!
    expect(assist.then).toBeLessThan(assist.now)
  })

  it('is tested by the charge too where a pack was changed about halfway and both ends were read', () => {
    // Two like packs, the first changed early: what the simulated ride took up to there and in all.
    const { drained } = ridden.outcome.columns
    const at = 8000
    const used = [interpolate(route.stations.distance, drained, at), drained.at(-1)!]
    const pack = usableEnergy(packAt(stated.battery.packs[0]!, stated.battery.temperatureCelsius))
    const left = used.map((energy) => 1 - energy / pack) as [number, number]
    const of = (notes: object) =>
      learnFrom(route, stated, [
        { name: '', recording, notes: v.parse(rideNotesSchema, { windSpeed: 0, packs: 2, ...notes }) },
      ]).test!
    const ends = { chargeStart: 1, chargeEnd: (1 + left[1]) / 2 }
    const test = of({ ...ends, swaps: [{ distance: at, left: left[0] }] })
    expect(test.until).toBe(at)
    const { energy } = test
    near(energy!.ridden, used[1]! - used[0]!, 1)
    const { length } = recording.route
    within(energy!.plainGuess, (used[0]! / at) * (length - at), 0.01)
    expect(energy!.foretold.low80).toBeLessThan(energy!.ridden)
    expect(energy!.foretold.high80).toBeGreaterThan(energy!.ridden)
    // Not near the middle, or an end that was not read.
    expect(of({ ...ends, swaps: [{ distance: 2000, left: 0.97 }] }).energy).toBeUndefined()
    expect(of({ chargeEnd: 0.9, swaps: [{ distance: at, left: 0.9 }] }).energy).toBeUndefined()
  })

  it('meets the times of that ride, part by part', () => {
    const sum = (key: 'ridden' | 'foretold') => ride!.parts.reduce((total, part) => total + part[key], 0)
    within(sum('foretold'), sum('ridden'), 0.02)
    const riding = ride!.parts.reduce((total, { from, to, speed }) => total + (to - from) / speed, 0)
    within(riding, recording.riding.at(-1)!, 0.001)
    expect(ride!.parts.filter(({ ridden }) => ridden > 0).length).toBeGreaterThan(6)
  })

  it('makes a plan of that day, which takes as long as that day took', () => {
    const { plan } = ride!.onRoute!
    expect(readPlan(writePlan(plan))).toEqual({ ok: true, plan })
    expect(plan.stops).toHaveLength(1)
    near(plan.stops[0]!.distance, halt.distance, 60)
    near(plan.stops[0]!.duration, halt.time, 20)
    const { columns } = simulate(route, plan)
    within(columns.time.at(-1)!, recording.finish - recording.start, 0.03)
  })

  it('tells of the display’s steps by the shares ridden at each', () => {
    const steps = setStepCount(stated, 3)
    const said = v.parse(rideNotesSchema, { windSpeed: 0, chargeStart: 1, chargeEnd: 0.9, shares: [0.5, 0.5] })
    const ofDay = planOfThatDay(steps, said)
    expect([ofDay.assist.ratio, ofDay.assist.climbRatio]).toEqual([0.7, 0.7])
    // Half at 40 %, half at 100 %: a quarter of the way climbs, at the stronger; the rest is two thirds of the one and a third of the other.
    const hilly = planOfThatDay(steps, said, 0.25).assist
    expect([hilly.ratio, hilly.climbRatio]).toEqual([expect.closeTo(0.6, 9), 1])
    const found = learnFrom(route, steps, [{ name: 'Into town', notes: said, recording }]).steps!
    const [first, second, third] = found
    // The stronger one is more of the mean, so it moves further and is surer.
    expect(Math.abs(Math.log(second!.ratio / 1))).toBeGreaterThan(Math.abs(Math.log(first!.ratio / 0.4)))
    expect(second!.span).toBeLessThan(first!.span)
    expect(third).toEqual({ ratio: 2.5, span: 2 })
    expect(lesson.steps).toBeUndefined()
  })

  it('can be taken into a plan, and is written and read with it', () => {
    const taken = takeOver(stated, lesson.learnt)
    expect(readPlan(writePlan(taken))).toEqual({ ok: true, plan: taken })
    // By the town's clock, which is ten hours behind UTC.
    expect(lesson.learnt.from).toEqual([{ name: 'Into town', date: '2026-06-12' }])
    const power = lesson.beliefs.find(({ path }) => path === 'rider.power')!
    within(taken.rider.power, power.middle, 0.005)
    // Stronger is what helps less.
    const both = lesson.learnt.correlations.find(({ a, b }) => a === 'rider.power' && b === 'assist.ratio')!
    expect(both.value).toBeLessThan(-0.5)
  })
})

describe('what is said of a day', () => {
  it('goes into its plan: weather by the hour in place of the three figures, and the lamps', () => {
    const hour = { time: '2026-06-13T05:00', temperatureCelsius: 9, windSpeed: 6, windFromDegrees: 200 }
    const table = [{ name: 'Quay', distance: 0, hours: [{ ...hour, rainPerHour: null, pressure: null }] }]
    const said = v.parse(rideNotesSchema, { table, lamps: 'dark', text: 'Head wind all day.' })
    const ofDay = planOfThatDay(stated, said)
    expect(ofDay.weather.table).toEqual(table)
    expect([ofDay.assist.lightsOn, ofDay.assist.lights]).toEqual(['dark', stated.assist.lights])
    expect(planOfThatDay(stated, { ...said, lamps: 'off' }).assist.lights).toBe(0)
    expect(planOfThatDay(ofDay, v.parse(rideNotesSchema, {})).weather.table).toEqual([])
    // A wind of 6 m/s instead of the stated one is another ride.
    const learntWith = (notes: typeof said) =>
      learnFrom(route, stated, [{ name: '', notes, recording }]).beliefs.find(({ path }) => path === 'rider.power')!
    const calm = learntWith(v.parse(rideNotesSchema, { windSpeed: 0 }))
    expect(Math.abs(learntWith(said).middle / calm.middle - 1)).toBeGreaterThan(0.01)
  })
})

describe('rides of one way', () => {
  const slower = { ...recording, riding: recording.riding.map((time) => 1.06 * time) }
  const alike = { ...recording, riding: recording.riding.map((time) => 1.01 * time) }

  it('differ by more than two recordings of one ride do, or not', () => {
    const [first, second, third] = sameWays([recording, slower, alike])
    expect([first!.rides, second!.rides, third!.rides]).toEqual([
      [0, 1],
      [0, 2],
      [1, 2],
    ])
    expect([first!.differs, second!.differs, third!.differs]).toEqual([true, false, true])
    within(first!.riding[1] / first!.riding[0], 1.06, 0.005)
    expect(sameWays([recording, undefined])).toEqual([])
  })
})

describe('a ride whose power was measured', () => {
  it('is held against the physics, part by part', () => {
    const { route: own, start, finish } = recording
    const time = Float64Array.from({ length: Math.floor(finish - start) }, (_, k) => start + k)
    const constant = (value: number) => time.map(() => value)
    const sensors = { time, power: constant(95), heartRate: constant(NaN), cadence: constant(NaN) }
    const calm = v.parse(rideNotesSchema, { windSpeed: 0 })
    const measured = { ...recording, sensors }
    const [ride] = learnFrom(own, stated, [{ name: 'Into town', notes: calm, recording: measured }]).rides
    const sum = (key: 'ridden' | 'foretold') => ride!.measured!.reduce((total, part) => total + part[key], 0)
    // The ride was ridden at 95 W, 1.3 times as much on climbs, and tired a little.
    within(sum('foretold'), sum('ridden'), 0.07)
    const strong = learnFrom(own, stated, [
      { name: '', notes: calm, recording: { ...measured, sensors: { ...sensors, power: constant(190) } } },
    ]).rides[0]!
    expect(strong.measured!.reduce((total, part) => total + part.foretold, 0)).toBeLessThan(0.9 * sum('foretold'))
  })
})

describe('a plan against a ride of its way', () => {
  const outcome = simulate(route, stated)
  const { distance } = route.stations
  const ridingTime = outcome.columns.ridingTime
  const clock = {
    distance: Array.from({ length: 73 }, (_, k) => (k / 72) * route.length),
    riding: [] as number[],
  }
  clock.riding = clock.distance.map((at) => 1.1 * interpolate(distance, ridingTime, at))

  it('gains by place what the ride lost there, on climbs, into the wind and elsewhere', () => {
    const gained = gainedBy(outcome, clock)
    near(gained(route.length), -0.1 * ridingTime.at(-1)!, 1)
    near(gained(0), 0, 1e-9)
    const where = gainedWhere(outcome, clock)
    near(where.climbs + where.wind + where.other, gained(route.length), 1)
    const at = (column: Float64Array, place: number) => interpolate(distance, column, place)
    const climbs = clock.distance.slice(1).map((to, k) => {
      const from = clock.distance[k]!
      const rise = at(route.stations.elevation, to) - at(route.stations.elevation, from)
      return rise / (to - from) >= 0.02 ? at(ridingTime, to) - at(ridingTime, from) : 0
    })
    const time = climbs.reduce((sum, one) => sum + one, 0)
    expect(time).toBeGreaterThan(60)
    near(where.climbs, -0.1 * time, 1)
    expect(where.wind).toBeLessThan(0)
  })

  it('stands longer or less long where halts of the one are not in the other; two near to one another are one', () => {
    const stop = (id: string, distance: number, duration: number) => ({
      ...defaultStop(id, '', distance, null),
      duration,
    })
    const planned = simulate(route, { ...stated, stops: [stop('a', 4000, 600), stop('b', 9000, 900)] })
    const then = { stops: [stop('x', 3500, 300), stop('y', 9600, 880), stop('z', 14_000, 1200)] }
    const found = haltsGained(planned, then).map(({ distance, now, then }) => [distance, now - then])
    expect(found).toEqual([
      [3500, expect.closeTo(300, 3)],
      [14_000, expect.closeTo(-1200, 3)],
    ])
  })

  it('is shaded by how much slower it is, the same for one that is the same', () => {
    const classes = (share: number, halts: HaltGained[] = []) => {
      const like = { ...clock, riding: clock.riding.map((time) => (time / 1.1) * share) }
      return shadingBy(outcome, like, halts, 'light').byStation
    }
    // Exactly as quick, half as long again, and two thirds as long.
    expect(new Set(classes(1))).toEqual(new Set([3]))
    expect(Math.max(...classes(1.5))).toBeLessThan(3)
    expect(Math.min(...classes(0.67))).toBeGreaterThan(3)
    // A halt that falls away, and one that is new.
    const shaded = classes(1, [
      { distance: 5000, then: 600, now: 0 },
      { distance: 9000, then: 0, now: 300 },
    ])
    expect([500, 900, 700].map((station) => shaded[station])).toEqual([0, 6, 3])
  })
})
