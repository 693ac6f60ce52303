import { describe, expect, it } from 'vitest'
import { climbsOf } from '../../src/model/readings/climbs'
import {
  carbohydrateGuidance,
  meanCelsius,
  provisionsOf,
  refillsOf,
  waterPerHour,
  type Needs,
} from '../../src/model/readings/needs'
import { balanceAfter, capacityFrom, recoveryTime, wBalance } from '../../src/model/readings/rider'
import { needParameters } from '../../src/model/plan/day-parameters'
import { wordsIn } from '../../src/view/words/words'
import { near, within } from '../asserts'
import { plainPlan, rideOver } from '../rides'

const capacity = { criticalPower: 180, wPrime: 15_000 }
const needs = Object.fromEntries(
  Object.entries(needParameters).map(([key, { default: value }]) => [key, value]),
) as Needs

describe('critical power', () => {
  it('comes back from two efforts made with it', () => {
    const effort = (duration: number) => ({ duration, power: 180 + 15_000 / duration })
    for (const [one, other] of [
      [effort(180), effort(720)],
      [effort(1200), effort(300)],
    ] as const) {
      const result = capacityFrom(one, other)
      if (!result.ok) throw new Error(result.fault)
      near(result.value.criticalPower, 180, 1e-9)
      near(result.value.wPrime, 15_000, 1e-6)
    }
  })

  it('takes efforts of 2 and of 20 minutes, and such as differ by 3', () => {
    const capacityOf = (short: number, long: number) =>
      capacityFrom({ power: 300, duration: short }, { power: 250, duration: long })
    expect([capacityOf(120, 1200), capacityOf(300, 480)].map(({ ok }) => ok)).toEqual([true, true])
    expect([capacityOf(119, 1200), capacityOf(300, 479)].map(({ ok }) => ok)).toEqual([false, false])
  })

  it.each([
    [
      { power: 300, duration: 60 },
      { power: 200, duration: 720 },
      'Each effort of the test should last 2 to 20 minutes.',
    ],
    [
      { power: 300, duration: 180 },
      { power: 200, duration: 300 },
      'The two efforts should differ by 3 minutes at least.',
    ],
    [
      { power: 300, duration: 180 },
      { power: 200, duration: 1201 },
      'Each effort of the test should last 2 to 20 minutes.',
    ],
    [{ power: 200, duration: 180 }, { power: 200, duration: 720 }, 'The shorter effort should have the higher power.'],
    [
      { power: 400, duration: 240 },
      { power: 100, duration: 720 },
      'These two efforts give no critical power: the longer one is too weak.',
    ],
  ])('from %j and %j is refused', (one, other, sentence) => {
    const result = capacityFrom(one, other)
    expect(!result.ok && wordsIn('metric').rider.efforts[result.fault]).toBe(sentence)
  })
})

describe('W′ balance', () => {
  it('does not depend on how a time is cut up', () => {
    let pieces = 5000
    for (let k = 0; k < 60; k++) pieces = balanceAfter(pieces, 100, 10, capacity)
    near(pieces, balanceAfter(5000, 100, 600, capacity), 1e-6)
    near(balanceAfter(15_000, 190, 100, capacity), 14_000, 1e-9)
    expect(balanceAfter(5000, 180, 1000, capacity)).toBe(5000)
  })

  const hill = (d: number) => (d < 10_000 ? 0 : d < 12_000 ? 0.04 * (d - 10_000) : 80)
  const plan = plainPlan((plan) => {
    plan.rider.power = 150
    plan.rider.climbFactor = 1.4
    plan.stops.push({
      id: 'stop-1',
      name: 'Top',
      distance: 13_000,
      source: null,
      kind: 'rest',
      goal: 'duration',
      fillFirst: 'most',
      duration: 3600,
      chargeTo: 0.8,
    })
  })
  const outcome = rideOver({ length: 20_000, elevation: hill }, plan)

  it('falls on a climb above critical power by the work above it, and recovers at a halt', () => {
    const { balance, lowest, lowestStation, spentAt } = wBalance(outcome, capacity)
    const at = outcome.route.stations.distance
    near(at[lowestStation]!, 12_000, 20)
    const { riderWork, ridingTime } = outcome.columns
    let above = 0
    for (let i = 0; i + 1 < ridingTime.length; i++) {
      const time = ridingTime[i + 1]! - ridingTime[i]!
      above += Math.max(0, riderWork[i + 1]! - riderWork[i]! - 180 * time)
    }
    expect(above).toBeGreaterThan(2000)
    within(15_000 - lowest, above, 0.01, 'work above critical power')
    expect(spentAt).toBeUndefined()
    const stop = outcome.halts[0]!.station
    expect(balance[stop + 1]!).toBeGreaterThan(14_900)
    expect(balance[stop]!).toBeLessThan(14_000)
  })

  it('runs out where there is too little, and the climb is called too hard', () => {
    const small = { criticalPower: 180, wPrime: 2000 }
    const balance = wBalance(outcome, small)
    const distance = outcome.route.stations.distance[balance.spentAt!]!
    expect(distance).toBeGreaterThan(10_000)
    expect(distance).toBeLessThan(12_000)
    const [climb, ...others] = climbsOf(outcome, small, balance)
    expect(others).toEqual([])
    near(climb!.start, 10_000, 300)
    near(climb!.ascent, 80, 5)
    expect(climb!.tooHard).toEqual(['abovePower', 'wPrimeSpent'])
    const strong = { criticalPower: 260, wPrime: 15_000 }
    expect(climbsOf(outcome, strong, wBalance(outcome, strong))[0]!.tooHard).toEqual([])
  })

  it('in the integral form keeps the same signs', () => {
    const { lowest, lowestStation } = wBalance(outcome, capacity, 2012)
    near(outcome.route.stations.distance[lowestStation]!, 12_000, 20)
    expect(lowest).toBeLessThan(13_500)
    expect(lowest).toBeGreaterThan(wBalance(outcome, capacity).lowest) // it recovers while spending
  })

  it('in the integral form is the sum of what each second above critical power still costs', () => {
    // W′bal(t) = W′ − ∫ W′exp(u) e^(−(t−u)/τ) du with τ = 546 e^(−0.01 D) + 316, D = CP less the mean of the power below it: Skiba et al. 2012,
    // MSSE 44:1526-1532 (from memory), summed here second by second.
    near(recoveryTime(100), 546 * Math.exp(-1) + 316, 1e-9)
    const { time, ridingTime, riderWork } = outcome.columns
    const [halt] = outcome.halts
    const spans: { from: number; until: number; power: number }[] = []
    for (let i = 0; i + 1 < time.length; i++) {
      const leave = i === halt!.station ? halt!.depart : time[i]!
      if (leave > time[i]!) spans.push({ from: time[i]!, until: leave, power: 0 })
      const power = (riderWork[i + 1]! - riderWork[i]!) / (ridingTime[i + 1]! - ridingTime[i]!)
      spans.push({ from: leave, until: time[i + 1]!, power })
    }
    const low = spans.filter(({ power }) => power < 180)
    const sum = (of: (span: (typeof spans)[number]) => number) => low.reduce((total, span) => total + of(span), 0)
    const mean = sum(({ from, until, power }) => power * (until - from)) / sum(({ from, until }) => until - from)
    const tau = 546 * Math.exp(-0.01 * (180 - mean)) + 316
    const { balance } = wBalance(outcome, capacity, 2012)
    for (const station of [1050, 1200, 1290, 1301, 1500, 2000]) {
      const now = time[station]!
      let left = 15_000
      for (const { from, until, power } of spans)
        if (until <= now + 1e-9 && power > 180)
          left -= (power - 180) * tau * (Math.exp((until - now) / tau) - Math.exp((from - now) / tau))
      within(balance[station]!, left, 1e-6, `after ${now} s`)
    }
  })

  it('calls a climb too hard where it is walked', () => {
    const steep = rideOver(
      { length: 5000, elevation: (d) => Math.max(0, 0.2 * (Math.min(d, 4000) - 3000)) },
      plainPlan(),
    )
    const [climb] = climbsOf(steep, capacity, wBalance(steep, capacity))
    expect(climb!.walked.tooSteep).toBeGreaterThan(800)
    expect(climb!.tooHard).toContain('tooSteep')
  })
})

describe('food and water', () => {
  it('follow guidance by duration', () => {
    expect([1800, 3600, 9000, 9001, 40_000].map((time) => carbohydrateGuidance(time).most)).toEqual([
      0.03, 0.06, 0.06, 0.09, 0.09,
    ])
  })

  it('water rises with warmth between its two values', () => {
    expect([0, 10, 20, 30, 40].map((celsius) => Number(waterPerHour(celsius, needs).toFixed(9)))).toEqual([
      0.4, 0.4, 0.6, 0.8, 0.8,
    ])
  })

  it('are had at stops of the kinds asked for, in order of the route', () => {
    const outcome = rideOver(
      { length: 30_000 },
      plainPlan((plan) => {
        const at = (name: string, distance: number, kind: 'water' | 'food' | 'rest') => ({
          ...plan.stops[0]!,
          id: name,
          name,
          distance,
          kind,
          source: null,
          goal: 'duration' as const,
          fillFirst: 'most' as const,
          duration: 300,
          chargeTo: 0.8,
        })
        plan.stops = [at('Well', 20_000, 'water'), at('Inn', 5000, 'food'), at('Bench', 9000, 'rest')]
      }),
    )
    expect(refillsOf(outcome, ['food', 'water'])).toEqual([
      { name: 'Inn', station: 500 },
      { name: 'Well', station: 2000 },
    ])
    expect(refillsOf(outcome, ['rest'])).toEqual([{ name: 'Bench', station: 900 }])
  })

  it('go by the mean temperature where the rider is, which falls with height', () => {
    const up = rideOver(
      { length: 40_000, elevation: (d) => 0.02 * d },
      plainPlan((plan) => Object.assign(plan.weather, { temperatureCelsius: 20, lapseRate: 0.0065 })),
    )
    const end = up.columns.time.at(-1)!
    // At an even pace the mean height is half the last.
    near(meanCelsius(up, 0, end), 20 - 0.0065 * 400, 0.1, 'whole ride')
    near(meanCelsius(up, 0, 60), 20, 0.1, 'first minute')
    near(meanCelsius(up, end - 60, end), 20 - 0.0065 * 800, 0.1, 'last minute')
    near(meanCelsius(up, end / 2, end), 20 - 0.0065 * 600, 0.1, 'second half')
  })

  it('are counted between refills, and the parts make up the whole', () => {
    const outcome = rideOver({ length: 100_000 }, plainPlan())
    const middle = 5000
    const [first, second] = provisionsOf(outcome, [{ name: 'Inn', station: middle }], needs, () => 20)
    expect([first!.from, first!.to, second!.from, second!.to].map(wordsIn('metric').place)).toEqual([
      'Start',
      'Inn',
      'Inn',
      'Finish',
    ])
    near(first!.work + second!.work, outcome.books.riderWork, 1e-3)
    const hours = first!.time / 3600
    near(first!.carbohydrate, 0.06 * hours, 1e-12)
    near(first!.water, 0.6 * hours, 1e-12)
    for (const { carbohydrate, water, bars, gels, bottles } of [first!, second!]) {
      const carried = bars * 0.04 + gels * 0.025
      expect(carried).toBeGreaterThanOrEqual(carbohydrate - 0.0003)
      expect(carried).toBeLessThan(carbohydrate + 0.025)
      expect(bottles).toBe(Math.ceil(water / 0.75 - 0.01))
    }
    near(first!.kilocalories, first!.work / 0.19 / 4184, 1e-6)
  })
})
