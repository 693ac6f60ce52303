import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { rideAndRecord } from '../../sample-routes/ridden'
import { packAt, usableEnergy } from '../../src/model/battery/pack'
import { beliefsOf, correlationsOf, worthOfReading } from '../../src/model/learn/beliefs'
import { evidenceOf, evidenceRemembered } from '../../src/model/learn/evidence'
import { foretell, ownTest } from '../../src/model/learn/foretell'
import { cholesky, inverse, solve } from '../../src/model/learn/linear'
import { noiseOf, whitened } from '../../src/model/learn/noise'
import { indexOf, posteriorOf } from '../../src/model/learn/posterior'
import { smallHaltsBelief } from '../../src/model/learn/small-halts'
import { learntFrom } from '../../src/model/learn/taken'
import { planKnowing, unknowns, valueAt, type Known } from '../../src/model/learn/unknowns'
import { widening } from '../../src/model/learn/widened'
import { defaultPlan } from '../../src/model/plan/defaults'
import { riderParameters } from '../../src/model/plan/parameters'
import { readRecording } from '../../src/model/recording/read'
import { stationNear } from '../../src/model/route/nearest'
import { readRoute } from '../../src/model/route/read'
import type { Route } from '../../src/model/route/route'
import { near } from '../asserts'
import { asGpx } from '../recordings'
import { statedPlan } from '../learning/study'

async function routeOf(name: string): Promise<Route> {
  const file = new Uint8Array(readFileSync(new URL(`../../sample-routes/${name}.gpx`, import.meta.url)))
  const reading = await readRoute(file, name)
  if (!reading.ok) throw new Error(reading.fault.code)
  return reading.route
}

const nothing = Object.fromEntries(unknowns.map(({ key }) => [key, 0])) as unknown as Known
const start = Date.UTC(2026, 5, 13, 5) / 1000

describe('the little linear algebra', () => {
  const matrix = [
    [4, 2, 0.6],
    [2, 5, 1],
    [0.6, 1, 3],
  ]

  it('inverts and solves by hand-checked numbers', () => {
    // [[4, 2], [2, 5]] has the determinant 16.
    expect(
      inverse([
        [4, 2],
        [2, 5],
      ])
        .flat()
        .map((value) => value * 16),
    ).toEqual([5, -2, -2, 4].map((v) => expect.closeTo(v, 12)))
    const x = solve(matrix, [1, 2, 3])
    matrix.forEach((row, i) =>
      near(
        row.reduce((sum, value, k) => sum + value * x[k]!, 0),
        i + 1,
        1e-12,
      ),
    )
    const factor = cholesky(matrix)
    near(
      factor[2]!.reduce((sum, value) => sum + value * value, 0),
      3,
      1e-12,
    )
  })

  it('refuses what is not positive definite', () => {
    expect(() =>
      cholesky([
        [1, 2],
        [2, 1],
      ]),
    ).toThrow(RangeError)
  })
})

describe('what is not known of figures', () => {
  it('moves each by what is believed: a tenth lies below the low end, a tenth above the high one', () => {
    const plan = defaultPlan()
    const end = 1.2816
    near(valueAt(plan, 'rider.fade', end), 0.035 * riderParameters.fade.belief.high, 1e-9)
    near(valueAt(plan, 'rider.fade', -end), 0.035 * riderParameters.fade.belief.low, 1e-9)
    near(valueAt(plan, 'rider.power', end), 240, 0.01)
    near(valueAt(plan, 'bike.dragArea', end), 0.818, 1e-3)
    near(valueAt(plan, 'bike.rolling', -end), 0.00339, 1e-4)
    for (const { paths } of unknowns)
      for (const path of paths) {
        const values = [-4, -3, -2, -1, 0, 1, 2, 3, 4].map((z) => valueAt(plan, path, z))
        expect(values, path).toEqual(values.toSorted((a, b) => a - b))
        expect(values[0], path).toBeGreaterThan(0)
      }
  })

  it('leaves the stated plan where nothing is moved, and adds wind as a vector', () => {
    const plan = defaultPlan()
    const same = planKnowing(plan, nothing)
    near(same.bike.dragArea, plan.bike.dragArea, 1e-9)
    expect(same.weather).toBe(plan.weather)
    // From the west at 3 m/s, with 2.2 / 1.2816 m/s more toward the east, is stronger from the west.
    const west = { ...plan, weather: { ...plan.weather, windSpeed: 3, windFromDegrees: 270 } }
    const moved = planKnowing(west, { ...nothing, windEast: 1 }).weather
    near(moved.windSpeed, 3 + 2.2 / 1.2816, 1e-9)
    near(moved.windFromDegrees, 270, 1e-9)
  })
})

describe('noise of times', () => {
  it('is found again from a process of first order, and whitened to deviation one', () => {
    const count = 4000
    const evidence = { followsOn: Array.from({ length: count }, (_, i) => i > 0), time: [], deviation: 0.08 }
    let state = 1
    const random = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647
    const deviate = () => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random())
    let value = 0
    const residuals = Array.from({ length: count }, () => (value = 0.6 * value + 0.8 * 0.05 * deviate()))
    const all = { ...evidence } as unknown as Parameters<typeof noiseOf>[0]
    const noise = noiseOf(all, residuals, 0)
    near(noise.deviation, 0.05, 0.003)
    near(noise.correlation, 0.6, 0.04)
    // Slow errors of 1.5 % over ten stretches come to √(1 + (0.015 / (0.05 · √(1.6 / 0.4 / 10)))²).
    near(noise.widening, 1.107, 0.08)
    const white = whitened(all, { ...noise, widening: 1 }, residuals)
    near(Math.sqrt(white.reduce((sum, one) => sum + one * one, 0) / count), 1, 0.05)
  })
})

describe('a simulated ride', async () => {
  const route = await routeOf('two-passes-62km')
  // With as many packs as it takes: a reading of five would be finer than riders have it.
  const five = statedPlan()
  const stated = { ...five, battery: { ...five.battery, packs: five.battery.packs.slice(0, 2) } }
  const truth = { ...nothing, power: -1.1, assist: 1.2, windEast: 0.7, dragArea: 0.5 }
  const { parts, outcome } = rideAndRecord(
    route,
    planKnowing(stated, truth),
    {
      seed: 11,
      every: [3, 8],
      receiver: { deviation: 3, stays: 60, jitter: 0.3 },
      barometer: { deviation: 3, spacing: 1800, jitter: 0.2 },
      pace: { deviation: 0.05, spacing: 1000 },
      halts: [
        { distance: 20_000, time: 1200 },
        { distance: 41_000, time: 200 },
      ],
      aboard: false,
    },
    start,
  )
  const reading = await readRecording(new TextEncoder().encode(asGpx('A ride', ...parts)), 'ride.gpx')
  if (!reading.ok) throw new Error(reading.fault.code)
  const { recording } = reading
  const usable = stated.battery.packs.reduce((sum, pack) => sum + usableEnergy(packAt(pack, 18)), 0)
  const left = 1 - outcome.electric.drained / usable
  const readings = [{ distance: recording.route.length, left }]
  const without = posteriorOf([evidenceOf(recording, stated, { readings: [] })])
  const withBoth = posteriorOf([evidenceOf(recording, stated, { start: 1, readings })])
  const deviation = ({ covariance }: typeof without, key: 'power' | 'assist') =>
    Math.sqrt(covariance[indexOf(key)]![indexOf(key)]!)

  it('comes to rest, and gives figures within three deviations of the truth', () => {
    for (const posterior of [without, withBoth]) {
      expect(posterior.settled).toBe(true)
      for (const { key, perRide } of unknowns) {
        if (perRide) continue
        const i = indexOf(key)
        near(posterior.z[i]!, truth[key], 3 * Math.sqrt(posterior.covariance[i]![i]!), key)
      }
    }
  })

  it('tells rider and motor apart far better with two readings of the charge', () => {
    expect(deviation(withBoth, 'assist')).toBeLessThan(0.6 * deviation(without, 'assist'))
    const belief = (posterior: typeof without, path: string) =>
      beliefsOf(posterior, stated).find((one) => one.path === path)!
    expect(belief(withBoth, 'assist.ratio').verdict).toBe('learnt')
    expect(belief(without, 'assist.ratio').verdict).not.toBe('learnt')
    const { middle, low80, high80, prior } = belief(withBoth, 'rider.power')
    expect(low80).toBeLessThan(middle)
    expect(high80).toBeGreaterThan(middle)
    expect(high80 - low80).toBeLessThan(prior.high80 - prior.low80)
    near(prior.middle, stated.rider.power, 1e-9)
    // What no ride tells keeps its span.
    expect(belief(without, 'assist.lossFactor').verdict).toBe('not')
    const [first] = correlationsOf(without, stated)
    expect(Math.abs(first!.value)).toBeGreaterThan(0.5)
  })

  it('says before a reading is typed what it would be worth, within a fifth of what it is', () => {
    const worth = worthOfReading(without, stated, 0).find(({ path }) => path === 'assist.ratio')!
    const share = (posterior: typeof without) => {
      const { middle, low80, high80 } = beliefsOf(posterior, stated).find(({ path }) => path === 'assist.ratio')!
      return (high80 - low80) / 2 / middle
    }
    near(worth.now, share(without), 1e-9)
    // By slopes alone: the finer the reading, the more it counts that the figures move with it.
    near(worth.then, share(withBoth), 0.2 * share(withBoth))
  })

  it('is taken into a plan with wider spans than the rides alone give, never wider than what was believed before', () => {
    const beliefs = beliefsOf(withBoth, stated)
    const { figures } = learntFrom(withBoth, beliefs, stated, [])
    const widths = figures.map(({ path, low, high }) => {
      const { low80, high80, prior } = beliefs.find((belief) => belief.path === path)!
      const width = (from: number, to: number) => Math.log(to / from)
      return { path, taken: width(low, high), alone: width(low80, high80), before: width(prior.low80, prior.high80) }
    })
    const power = widths.find(({ path }) => path === 'rider.power')!
    near(power.taken / power.alone, widening, 0.1)
    for (const { path, taken, alone, before } of widths) {
      expect(taken, path).toBeGreaterThan(0.98 * alone)
      expect(taken, path).toBeLessThan(1.25 * before)
    }
  })

  it('is foretold from its first part, beside the plain guess', () => {
    const until = 35_000
    const part = posteriorOf([evidenceOf(recording, stated, { readings: [] }, until)])
    expect(part.evidence[0]!.to.every((station) => recording.route.stations.distance[station]! <= until + 10)).toBe(
      true,
    )
    const { riding: test, energy } = ownTest(part, recording, 0, until, undefined)
    expect(energy).toBeUndefined()
    const deviation = Math.log(test.foretold.high80 / test.foretold.middle) / 1.2816
    // By the rides alone; its span is widened to what real rides showed.
    const { route: road } = part.evidence[0]!
    const alone = foretell(part, part.evidence[0]!, 0, stationNear(road, until), road.stations.distance.length - 1)
    expect(alone.ridingDeviation).toBeLessThan(0.12)
    expect(deviation).toBeGreaterThan(1.2 * alone.ridingDeviation)
    expect(deviation).toBeLessThan(0.2)
    near(Math.log(test.ridden / test.foretold.middle), 0, 3 * deviation)
    const { route: own, riding } = recording
    const before = riding.at(-1)! - test.ridden
    near(test.plainGuess, (before / until) * (own.length - until), 0.001 * test.plainGuess)
  })

  it('narrows less where only its riding time and what was used are remembered, by the same machinery', () => {
    const remembered = posteriorOf([
      evidenceRemembered(route, stated, outcome.columns.ridingTime.at(-1)!, {
        start: 1,
        readings: [{ distance: route.length, left }],
      }),
    ])
    expect(remembered.settled).toBe(true)
    expect(deviation(remembered, 'power')).toBeLessThan(0.8)
    expect(deviation(remembered, 'power')).toBeGreaterThan(deviation(withBoth, 'power'))
    near(remembered.z[indexOf('power')]!, truth.power, 3 * deviation(remembered, 'power'))
  })

  it('is known better from two recordings, which share rider and bike and have a wind each', () => {
    const one = evidenceOf(recording, stated, { start: 1, readings })
    const both = posteriorOf([one, one])
    expect(both.z.length).toBe(unknowns.length + unknowns.filter(({ perRide }) => perRide).length)
    expect(deviation(both, 'power')).toBeLessThan(deviation(withBoth, 'power'))
  })
})

describe('small halts', () => {
  const plan = defaultPlan()
  const halts = (count: number, time: number) =>
    Array.from({ length: count }, (_, i) => ({ distance: 1000 * i, arrive: i, time }))

  it('are learnt from those of half a minute to five, and stay as stated without one', () => {
    // 20 minutes a hundred kilometres where six were stated: a single ride moves it part of the way, ten such rides most of it.
    const { middle, verdict, prior } = smallHaltsBelief(plan, { halts: halts(20, 60), length: 100_000 })
    near(middle, 900, 100)
    expect(verdict).toBe('hardly')
    const more = smallHaltsBelief(plan, { halts: halts(200, 60), length: 1_000_000 })
    near(more.middle, 1200, 150)
    expect(more.verdict).toBe('learnt')
    near(prior.middle, plan.rider.smallHalts, 1e-9)
    expect(smallHaltsBelief(plan, { halts: halts(3, 2000), length: 100_000 }).verdict).toBe('not')
  })
})
