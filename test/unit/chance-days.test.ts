import { describe, expect, it } from 'vitest'
import { bandAt, chancesOf } from '../../src/model/chance/chances'
import { coarser } from '../../src/model/forecast/coarser'
import { Days, together, usualSampling, type Ridden } from '../../src/model/chance/days'
import { deadlinesOf } from '../../src/model/chance/deadlines'
import { dayOf, drawn, uncertainIn } from '../../src/model/chance/figures'
import { driversOf, HowSure, rideDays, usualEffects } from '../../src/model/chance/how-sure'
import { simulate } from '../../src/model/forecast/simulate'
import { tallyOf } from '../../src/model/forecast/tally'
import { catalogue } from '../../src/model/plan/catalogue'
import { defaultStop } from '../../src/model/plan/defaults'
import type { Belief, Parameter } from '../../src/model/plan/parameters'
import type { Plan } from '../../src/model/plan/schema'
import { near, within } from '../asserts'
import { worstDay } from '../bench/plans'
import { hourly, plainPlan } from '../rides'
import { courseRoute } from '../routes'

const toTenth = 1.2815515655446004
const route = {
  ...courseRoute({ length: 30_000, elevation: (d) => 300 + 60 * Math.sin(d / 1500), crossings: [20_000] }),
  ascentSpread: 20,
}
const plan: Plan = plainPlan((plan) => {
  Object.assign(plan.rider, { fade: 0.035, smallHalts: 360 })
  Object.assign(plan.assist, { ratio: 1.4, climbRatio: 1.4 })
  Object.assign(plan.weather, { windSpeed: 4, windFromDegrees: 300 })
  plan.battery.packs = [{ ...plan.battery.packs[0]!, capacityAh: 7.3 }]
  plan.stops = [{ ...defaultStop('stop-1', 'Mill', 12_000, 'source-1'), duration: 900 }]
  plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
  plan.goal = 3.2 * 3600
})
const few = { ...usualSampling, days: 64 }

describe('a figure with a belief', () => {
  const believed = Object.values(catalogue).flatMap((group) =>
    Object.values<Parameter>(group).filter((one): one is Parameter & { belief: Belief } => one.belief !== undefined),
  )

  it('lies below the low end of its span in one case of ten and above the high end in one of ten, stated in the middle', () => {
    expect(believed.length).toBeGreaterThanOrEqual(14)
    for (const parameter of believed) {
      const { belief, default: stated } = parameter
      const end = (side: number) => (belief.as === 'factor' ? stated * side : stated + side)
      expect(drawn(parameter, stated, 0)).toBe(stated)
      within(drawn(parameter, stated, -toTenth), end(belief.low), 1e-12)
      within(drawn(parameter, stated, toTenth), end(belief.high), 1e-12)
    }
  })

  it('never is below nought where it can’t be', () => {
    for (const parameter of believed.filter(({ min, quantity }) => min >= 0 && quantity !== 'direction'))
      expect(drawn(parameter, parameter.default, -6)).toBeGreaterThanOrEqual(0)
    expect(drawn(catalogue.weather.windSpeed, 1, -6)).toBe(0)
    expect(drawn(catalogue.weather.temperatureCelsius, 0, -toTenth)).toBeCloseTo(-2.5, 12)
  })
})

describe('a day as it may come', () => {
  it('is the day as planned, to the bit, where nothing differs: with one weather, and by the hour', () => {
    for (const one of [plan, worstDay(route.length)]) {
      const days = new Days(route, one, few, [])
      const { time, left } = days.rideOne(new Float64Array(days.uncertain.deviates.length * 2))
      const planned = tallyOf(route, one)
      expect([time, left]).toEqual([planned.time, planned.left])
    }
  })

  it('is that of a plan with the figures drawn, to the bit, where the road is the same', () => {
    const flat = { ...route, ascentSpread: 0 }
    const uncertain = uncertainIn(flat, plan)
    expect(uncertain.figures).not.toContain('ascent')
    const days = new Days(flat, plan, few, [])
    // Ridden one after the other: nothing stays of the first.
    for (const sign of [1, -1]) {
      const deviates = uncertain.figures.map((_, k) => (sign * ((k % 3) + 1)) / 3)
      const drawnPlan = dayOf(flat, plan, uncertain, deviates, 1).plan
      expect(drawnPlan.rider.power).not.toBe(plan.rider.power)
      const whole = tallyOf(flat, drawnPlan)
      expect(days.rideOne(deviates)).toEqual({ time: whole.time, left: whole.left })
    }
  })

  it('has errors of the weather that grow with the days from its forecast to the start', () => {
    const spanOf = (forecastAhead: number) => {
      const { time } = new Days(route, { ...plan, crossings: [], stops: [], forecastAhead }, few, []).ride(0, 64)
      const ascending = time.toSorted()
      return ascending[57]! - ascending[6]!
    }
    const [now, later] = [spanOf(0), spanOf(10)]
    expect(later).toBeGreaterThan(1.2 * now)
    const windy = { figures: ['weather.windSpeed' as const], deviates: [1], joint: undefined }
    const windAt = (ahead: number) => dayOf(route, plan, windy, [1], ahead).plan.weather.windSpeed - 4
    // A fifth more each day, of what it is a day ahead.
    within(windAt(6) / windAt(1), 2, 1e-9)
  })

  it('lies nearer to the plan in what the rider measured, and farther in what is a guess', () => {
    const uncertain = uncertainIn(route, plan)
    const worse = uncertain.figures.map((figure) => (figure === 'rider.power' ? toTenth : 0))
    const powerBy = (beliefs: Plan['beliefs']) =>
      dayOf(route, { ...plan, beliefs }, uncertain, worse, 1).plan.rider.power
    const usual = Math.log(powerBy([]) / plan.rider.power)
    const of = (known: 'measured' | 'guess') => Math.log(powerBy([{ path: 'rider.power', known }]) / plan.rider.power)
    // Its law is lognormal: the logarithm goes with the deviate.
    within(of('measured'), 0.4 * usual, 1e-9)
    within(of('guess'), 1.75 * usual, 1e-9)
    expect(powerBy([{ path: 'rider.mass', known: 'guess' }])).toBe(powerBy([]))
  })

  it('is later and takes more where each figure is worse', () => {
    const days = new Days(
      route,
      { ...plan, stops: [], crossings: [{ ...plan.crossings[0]!, timetable: { kind: 'duration', duration: 600 } }] },
      few,
      [],
    )
    const { figures } = days.uncertain
    const usual = days.rideOne(figures.map(() => 0))
    const worse = (figure: (typeof figures)[number], deviate: number) =>
      days.rideOne(figures.map((one) => (one === figure ? deviate : 0)))
    for (const figure of [
      'bike.dragArea',
      'bike.rolling',
      'bike.mass',
      'rider.mass',
      'bike.luggage',
      'ascent',
    ] as const) {
      const { time, left } = worse(figure, 1)
      expect(time, figure).toBeGreaterThan(usual.time)
      expect(left, figure).toBeLessThan(usual.left)
    }
    expect(worse('rider.power', -1).time).toBeGreaterThan(usual.time)
    expect(worse('rider.fade', 1).time).toBeGreaterThan(usual.time)
    expect(worse('rider.smallHalts', 1).time).toBeGreaterThan(usual.time)
    expect(worse('assist.lossFactor', 1).left).toBeLessThan(usual.left)
    expect(worse('pack.health', -1).left).toBeLessThan(usual.left)
  })

  it('has errors of the weather by the hour that grow with the days ahead, and let go of each other in the course of a day', () => {
    const one = worstDay(route.length)
    const uncertain = uncertainIn(route, one)
    const at = uncertain.figures.indexOf('weather.windSpeed')
    expect(uncertain.deviates[at]).toBe(2)
    const errorAt = (first: number, later: number, ahead: number, hours: number) => {
      const deviates = new Float64Array(40)
      deviates[at] = first
      deviates[at + 1] = later
      return dayOf(route, one, uncertain, deviates, ahead).weather(3600 * hours).speed
    }
    near(errorAt(toTenth, 0, 1, 0), 2.2, 1e-12)
    near(errorAt(toTenth, 0, 6, 0), 4.4, 1e-12)
    // A day later nothing is left of the first, and the other has its whole size.
    near(errorAt(toTenth, 0, 1, 24), 0, 1e-12)
    near(errorAt(0, toTenth, 1, 24), 1.2 * 2.2, 1e-12)
    // The same size in between: the sum of squares.
    near(errorAt(toTenth, 0, 0, 7) ** 2 + errorAt(0, toTenth, 0, 7) ** 2, ((0.8 + (0.2 * 7) / 24) * 2.2) ** 2, 1e-9)
  })
})

describe('how sure a day is', () => {
  const deadlines = deadlinesOf(simulate(route, plan))
  const asked = { plan, sampling: few, places: [10_000, ...deadlines.map(({ distance }) => distance)] }
  const sure = new HowSure(route, asked)
  const all = sure.ride(0, 64)
  const chances = (ridden: Ridden) => chancesOf(route, few, ridden, deadlines)

  it('does not depend on who rides which of the days', () => {
    const parts = [rideDays(route, { asked, from: 40, to: 64 }), new HowSure(route, asked).ride(0, 40)]
    expect(together(parts)).toEqual(all)
    const other = { ...asked, sampling: { ...few, seed: 2 } }
    expect(new HowSure(route, other).ride(0, 64).time).not.toEqual(all.time)
  })

  it('counts the days on which each thing holds', () => {
    const { reserve, motor, deadlines, time, bands, fails, left } = chances(all)
    const share = (column: Float64Array) => column.filter(Number.isNaN).length / 64
    expect(reserve.value).toBe(share(all.reserveAt))
    expect(motor.value).toBe(share(all.emptyAt))
    expect(reserve.value).toBeGreaterThan(0.1)
    expect(reserve.value).toBeLessThan(0.95)
    expect(motor.value).toBeGreaterThanOrEqual(reserve.value)
    expect(deadlines.map(({ kind }) => kind)).toEqual(['sailing', 'goal'])
    expect(deadlines[1]!.chance.value).toBe(all.time.filter((one) => one <= plan.goal!).length / 64)
    expect(time.low).toBeLessThan(time.middle)
    expect(time.middle).toBeLessThan(time.high)
    expect(left.high).toBeGreaterThan(left.middle)
    expect(bands.map(({ distance }) => distance)).toEqual([10_000, 20_000, 30_000])
    expect(bands[0]!.charge.low).toBeGreaterThan(0.1)
    expect(bands[0]!.charge.high).toBeLessThan(1)
    const found = chances(all)
    near(bandAt(found, 10_000).low, bands[0]!.charge.low, 1e-12)
    near(bandAt(found, 30_000).high, bands[2]!.charge.high, 1e-12)
    near(bandAt(found, 15_000).low, (bands[0]!.charge.low + bands[1]!.charge.low) / 2, 1e-12)
    expect(fails!.share).toBeGreaterThan(0)
    const inPart = all.reserveAt.filter((at) => at > fails!.start && at <= fails!.end).length
    expect(fails!.share).toBe(inPart / (64 - 64 * reserve.value))
  })

  it('takes the sailing that the day as planned takes, and its time in hand', () => {
    const { halts, columns } = simulate(route, plan)
    const { station, sailing } = halts.find(({ gap }) => gap === 0)!
    const { latest, chance } = chances(all).deadlines[0]!
    expect(latest).toBe(columns.time[station]! + sailing!.margin!)
    expect(chance.value).toBeGreaterThan(0)
    const k = all.places.indexOf(20_000)
    expect(k).toBe(1)
    const caught = Array.from({ length: 64 }, (_, day) => all.arrive[day * all.places.length + k]! <= latest)
    expect(chance.value).toBe(caught.filter(Boolean).length / 64)
  })

  it('judges the goal for riding by the time in motion, and that for the whole day by the clock', () => {
    const both = { ...plan, ridingGoal: all.ridingTime.toSorted()[40]! }
    const limits = deadlinesOf(simulate(route, both))
    expect(limits.map(({ kind }) => kind)).toEqual(['sailing', 'goal', 'ridingGoal'])
    const [, whole, riding] = chancesOf(route, few, all, limits).deadlines
    expect(riding!.chance.value).toBe(41 / 64)
    expect(whole!.chance.value).toBe(chances(all).deadlines[1]!.chance.value)
    expect(all.time.filter((time) => time <= both.ridingGoal)).toHaveLength(0)
  })

  it('never falls below a reserve that is far', () => {
    const full = { ...plan, assist: { ...plan.assist, ratio: 0.1, climbRatio: 0.1 } }
    const { reserve, fails } = chances(new HowSure(route, { ...asked, plan: full }).ride(0, 64))
    expect(reserve).toEqual({ value: 1, error: 0 })
    expect(fails).toBeUndefined()
  })

  it('is driven by its figures, whose shares do not depend on who rides which pairs', () => {
    const effects = { ...usualEffects, points: 16 }
    const surrogates = sure.surrogates(all)
    const one = driversOf(route, plan, [sure.ridePairs(effects, surrogates, 0, 16)], surrogates)
    const two = driversOf(
      route,
      plan,
      [sure.ridePairs(effects, surrogates, 0, 5), sure.ridePairs(effects, surrogates, 5, 16)],
      surrogates,
    )
    one.time.share.forEach((share, k) => near(two.time.share[k]!, share, 1e-9))
    near(
      one.left.share.reduce((a, b) => a + b),
      1,
      1e-9,
    )
    expect(one.figures).toEqual(uncertainIn(route, plan).figures)
  })
})

describe('a road with fewer stations', () => {
  it('has a third of them or fewer on an even road, and moves a day by far less than days differ', () => {
    const coarse = coarser(route, plan.bike)
    expect(coarse.stations.distance.length).toBeLessThan(route.stations.distance.length / 3)
    expect(coarse.sections.map(({ first, last }) => [first, last].map((k) => coarse.stations.distance[k]))).toEqual(
      route.sections.map(({ first, last }) => [first, last].map((k) => route.stations.distance[k])),
    )
    const [fine, few64] = [new Days(route, plan, few, []).ride(0, 64), new Days(coarse, plan, few, []).ride(0, 64)]
    const spread = (column: Float64Array) => {
      const mean = column.reduce((sum, one) => sum + one) / column.length
      return Math.sqrt(column.reduce((sum, one) => sum + (one - mean) ** 2, 0) / column.length)
    }
    for (const key of ['time', 'left'] as const) {
      const off = fine[key].map((one, day) => few64[key][day]! - one)
      // Of normal days a shift of 2 % of their spread moves no chance by more than 0.8 points, the density of the normal law at its middle times that.
      expect(Math.abs(off.reduce((sum, one) => sum + one) / 64)).toBeLessThan(0.02 * spread(fine[key]))
    }
  })

  it('keeps each station of a bend', () => {
    const bent = { ...route, stations: { ...route.stations, curvature: route.stations.curvature.slice() } }
    bent.stations.curvature.fill(0.1, 1000, 1010)
    const { distance } = coarser(bent, plan.bike).stations
    for (let i = 999; i <= 1010; i++) expect(distance).toContain(route.stations.distance[i])
  })
})

describe('chances', () => {
  it('are those of normal theory where a day’s answer is normal', () => {
    // 4,096 days whose time is normal: one in ten below and above the ends of its band.
    const days = new Days(route, plan, { ...usualSampling, days: 4096 }, [])
    const time = Float64Array.from({ length: 4096 }, (_, day) => 10_000 + 100 * days.deviatesOf(day)[1]!)
    const none = new Float64Array(4096).fill(NaN)
    const { time: band, reserve } = chancesOf(
      route,
      { ...usualSampling, days: 4096 },
      {
        first: 0,
        places: new Float64Array(),
        time,
        ridingTime: time,
        riderWork: time,
        left: time,
        usable: time,
        reserveAt: none,
        emptyAt: none,
        arrive: none,
        charge: none,
      },
      [],
    )
    near(band.low, 10_000 - 100 * toTenth, 1)
    near(band.middle, 10_000, 1)
    near(band.high, 10_000 + 100 * toTenth, 1)
    expect(reserve.value).toBe(1)
  })
})
