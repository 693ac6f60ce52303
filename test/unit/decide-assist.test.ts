import { describe, expect, it } from 'vitest'
import {
  bestAssist,
  planWithWay,
  ratiosOf,
  usualRatios,
  type AssistProposal,
  type Way,
} from '../../src/model/decide/assist'
import type { Aim } from '../../src/model/decide/chain'
import { DayParts } from '../../src/model/decide/day-parts'
import { planWithRatios } from '../../src/model/decide/with-ratios'
import { leftAtFinish } from '../../src/model/forecast/outcome'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import type { Route } from '../../src/model/route/route'
import { near, within } from '../asserts'
import { seeded } from '../bench/big-gpx'
import { hourly, plainPlan } from '../rides'
import { courseRoute, pieces } from '../routes'

const ratios = [0, 0.5, 1, 1.5, 2, 2.5, 3]
const soonest: Aim = { for: 'soonest' }

function found(route: Route, plan: Plan, aim: Aim = soonest, steps: readonly number[] = ratios): AssistProposal {
  const proposal = bestAssist(route, { plan, ratios: steps, aim })
  if (proposal.code !== 'found') throw new Error(proposal.code)
  return proposal
}

const byStretches = (ways: readonly Way[]) => {
  const way = ways.find((one) => one.by === 'stretches')
  if (way?.by !== 'stretches') throw new Error('No way by stretches.')
  return way.places
}

/** One pack with so much, Wh, above a reserve of a tenth. */
const withEnergy = (wattHours: number, change: (plan: Plan) => void = () => {}) =>
  plainPlan((plan) => {
    plan.battery.packs = [{ ...plan.battery.packs[0]!, capacityAh: wattHours / 30 }]
    change(plan)
  })

/** A route of some hills and a plan, by a seed. */
function anyDay(seed: number): { route: Route; plan: Plan } {
  const random = seeded(seed)
  const hills = [0, 1, 2].map(() => ({ height: 10 + 50 * random(), wave: 400 + 2000 * random(), from: 6 * random() }))
  const length = 12_000
  const route = courseRoute({
    length,
    elevation: (d) => 300 + hills.reduce((sum, { height, wave, from }) => sum + height * Math.sin(d / wave + from), 0),
    heading: (d) => d / 5000,
  })
  const plan = defaultPlan()
  plan.rider.power = 90 + 60 * random()
  plan.weather.windSpeed = 5 * random()
  plan.battery.packs = [{ ...plan.battery.packs[0]!, capacityAh: 1.5 + 1.5 * random() }]
  if (seed % 2 === 0) plan.stops = [{ ...defaultStop('stop-1', 'Mill', 5000, 'source-1'), duration: 300 }]
  return { route, plan }
}

/** A route of 12 to 52 km and a plan, by a seed: one pack and a rest, or two packs; no charge on the way, no timetable, now and then bends. */
function freeDay(seed: number): { route: Route; plan: Plan } {
  const random = seeded(7919 * seed + 1)
  const length = 12_000 + 8000 * Math.round(5 * random())
  const hills = [0, 1, 2, 3].map(() => ({ height: 5 + 80 * random(), wave: 300 + 5000 * random(), from: 6 * random() }))
  const winds = random() < 0.4
  const turning = 2000 + 8000 * random()
  const route = courseRoute({
    length,
    elevation: (d) => 500 + hills.reduce((sum, { height, wave, from }) => sum + height * Math.sin(d / wave + from), 0),
    heading: (d) => d / turning,
    curvature: (d) => (winds && Math.sin(d / 700) > 0.98 ? 1 / 15 : 0),
  })
  const plan = defaultPlan()
  plan.rider.power = 70 + 120 * random()
  plan.rider.climbFactor = 1 + 0.5 * random()
  plan.weather.windSpeed = 9 * random()
  const [pack] = plan.battery.packs
  const count = 1 + Math.floor(2 * random())
  plan.battery.packs = Array.from({ length: count }, (_, k) => ({
    ...pack!,
    id: `pack-${k + 1}`,
    capacityAh: 4 + 10 * random(),
    charge: Math.min(1, (0.3 + 0.6 * random()) * (length / 40_000)),
  }))
  // A swap that falls into a rest costs nothing: that would bind as a sailing does.
  if (count === 1)
    plan.stops = [{ ...defaultStop('stop-1', 'Mill', 100 * Math.round(0.006 * length), null), duration: 1200 }]
  return { route, plan }
}

describe('the best assist on a hundred random days on which nothing binds', () => {
  it.each(Array.from({ length: 10 }, (_, k) => 10 * k))(
    'has a bound within 0.2 %, keeps the reserve, and no constant ratio or pair is better, seeds from %i',
    (from) => {
      for (let seed = from; seed < from + 10; seed++) {
        const { route, plan } = freeDay(seed)
        const day = new DayParts(route, plan)
        const proposal = bestAssist(route, { plan, ratios, aim: soonest })
        if (proposal.code !== 'found') {
          expect(day.rideAt(0).lasts, `${seed}`).toBe(false)
          continue
        }
        const { best, bound, ways, stretches } = proposal
        for (const flat of ratios)
          for (const climb of ratios) {
            const { lasts, time } = day.rideBlended(flat, climb)
            if (lasts) expect(time, `${seed}`).toBeGreaterThanOrEqual(best.time)
          }
        for (const way of ways) {
          const { reserveAt, emptyAt } = simulate(route, planWithWay(plan, way)!)
          expect([reserveAt, emptyAt], `${seed}`).toEqual([undefined, undefined])
        }
        expect(bound!, `${seed}`).toBeLessThanOrEqual(best.ridingTime)
        if (stretches < 100) continue
        expect(1 - bound! / best.ridingTime, `${seed}`).toBeLessThanOrEqual(0.002)
      }
    },
  )

  it('mostly have charge that runs short', () => {
    const short = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].filter((seed) => {
      const { route, plan } = freeDay(seed)
      const proposal = bestAssist(route, { plan, ratios, aim: soonest })
      return proposal.code === 'found' && proposal.prices[0]!.price > 0 && proposal.stretches >= 100
    })
    expect(short.length).toBeGreaterThanOrEqual(6)
  })
})

describe('the best assist on random days', () => {
  const seeds = Array.from({ length: 8 }, (_, k) => k + 1)

  it.each(seeds)(
    'is never worse than any constant ratio or pair, never below the reserve, and near its bound, seed %i',
    (seed) => {
      const { route, plan } = anyDay(seed)
      const { best, ways, bound, stretches, prices } = found(route, plan)
      const day = new DayParts(route, plan)
      for (const flat of ratios)
        for (const climb of ratios) {
          const { lasts, time } = day.rideBlended(flat, climb)
          if (lasts) expect(time).toBeGreaterThanOrEqual(best.time)
        }
      for (const way of ways) {
        if (way.by === 'constant' || way.by === 'pair') continue
        const taken = planWithRatios(plan, way.places)!
        const { columns, reserveAt, emptyAt } = simulate(route, taken)
        expect([reserveAt, emptyAt]).toEqual([undefined, undefined])
        expect(columns.time.at(-1)).toBe(way.time)
      }
      expect(stretches).toBeGreaterThanOrEqual(100)
      if (day.parts.length === 2) expect(1 - bound! / best.ridingTime).toBeLessThan(0.002)
      expect(bound!).toBeLessThan(best.ridingTime * 1.001)
      expect(Math.max(...prices.map(({ price }) => price))).toBeGreaterThan(0)
    },
  )
})

describe('the best assist by the steps of a display', () => {
  it('has no ratio but those of the steps and the motor off, and no pair that blends them', () => {
    const { route, plan } = anyDay(3)
    const step = { name: '', span: 2, before: null, test: null }
    plan.steps = [2.2, 0.6, 1.3].map((ratio) => ({ ...step, ratio }))
    expect(ratiosOf(plan)).toEqual([0, 0.6, 1.3, 2.2])
    expect(ratiosOf(defaultPlan())).toEqual(usualRatios)
    const { ways, best } = found(route, plan, soonest, ratiosOf(plan))
    expect(ways.map(({ by }) => by)).not.toContain('pair')
    const used = ways.flatMap((way) =>
      way.by === 'constant' ? [way.ratio] : way.by === 'pair' ? [] : way.places.map(({ ratio }) => ratio),
    )
    expect(used.length).toBeGreaterThan(2)
    for (const ratio of used) expect([0, 0.6, 1.3, 2.2]).toContain(ratio)
    expect(best.time).toBeGreaterThanOrEqual(found(route, { ...plan, steps: [] }, soonest, usualRatios).best.time)
  })
})

describe('the best assist where it is known', () => {
  it('is within 0.1 % of the best of all rides where all can be ridden: six stretches, four ratios', () => {
    const route = courseRoute(pieces([300, 0], [200, 0.06], [200, -0.02]))
    const plan = withEnergy(20, (plan) => {
      plan.battery.reserve = 0.3
      plan.battery.packs[0]!.charge = 0.44
    })
    const four = [0, 1, 2, 3]
    const proposal = bestAssist(route, { plan, ratios: four, aim: soonest })
    if (proposal.code !== 'found') throw new Error(proposal.code)
    const day = new DayParts(route, plan)
    expect(day.stretches).toBeGreaterThanOrEqual(5)
    expect(day.stretches).toBeLessThanOrEqual(7)
    let quickest = Infinity
    for (let code = 0; code < 4 ** day.stretches; code++) {
      const { lasts, time } = day.ride((k) => four[(code >> (2 * k)) & 3]!)
      if (lasts) quickest = Math.min(quickest, time)
    }
    expect(proposal.prices[0]!.price).toBeGreaterThan(0)
    expect(proposal.best.time).toBeGreaterThanOrEqual(quickest - 1e-9)
    expect(proposal.best.time).toBeLessThanOrEqual(1.001 * quickest)
  })

  it('is one ratio on the flat: the advice is the simple one, and the best is hardly better', () => {
    const proposal = found(courseRoute({ length: 20_000 }), withEnergy(45), soonest, usualRatios)
    expect(proposal.advice.by).toBe('constant')
    within(proposal.best.time, proposal.advice.time, 0.02)
    expect(proposal.prices[0]!.price).toBeGreaterThan(0)
  })

  it('spends on the hill what it has', () => {
    const route = courseRoute(pieces([6000, 0], [3000, 0.05], [6000, 0]))
    const { ways } = found(route, withEnergy(70))
    const places = byStretches(ways)
    const mean = (from: number, to: number) =>
      places.reduce(
        (sum, { start, end, ratio }) => sum + ratio * Math.max(0, Math.min(end, to) - Math.max(start, from)),
        0,
      ) /
      (to - from)
    expect(mean(6100, 8900)).toBeGreaterThan(mean(0, 6000) + 0.3)
    expect(mean(6100, 8900)).toBeGreaterThan(mean(9100, 15_000) + 0.3)
  })

  it('has one price wherever the motor helps, and none down a hill', () => {
    const route = courseRoute(pieces([6000, 0.01], [3000, -0.06], [6000, 0]))
    const { along, prices } = found(route, withEnergy(60))
    const at = (place: number) => along.find(({ start, end }) => start <= place && place < end)!.price
    expect(at(8000)).toBe(0)
    expect(at(2000)).toBe(prices[0]!.price)
    expect(at(12_000)).toBe(prices[0]!.price)
    expect([along[0]!.start, along.at(-1)!.end]).toEqual([0, 15_000])
    along.slice(1).forEach(({ start }, k) => expect(start).toBe(along[k]!.end))
  })

  it('has no price where there is charge enough, and then takes the most that helps', () => {
    const proposal = found(
      courseRoute({ length: 10_000, elevation: (d) => 200 + 30 * Math.sin(d / 900) }),
      withEnergy(900),
    )
    expect(proposal.prices.map(({ price }) => price)).toEqual([0])
    expect(proposal.advice).toMatchObject({ by: 'constant' })
    within(proposal.best.ridingTime, proposal.bound!, 1e-3)
  })

  it('keeps charge where a time allows: less ratio than soonest, and in time', () => {
    const { route, plan } = anyDay(3)
    const quick = found(route, plan)
    const by = quick.best.time + 300
    const kept = found(route, plan, { for: 'charge', by })
    expect(kept.best.time).toBeLessThanOrEqual(by)
    expect(kept.best.left).toBeGreaterThan(quick.best.left + 0.05 * new DayParts(route, plan).planned.usable)
    expect(kept.bound).toBeUndefined()
    for (const way of kept.ways) if (way.time <= by) expect(way.left).toBeLessThanOrEqual(kept.best.left)
  })

  it('does not hurry for a sailing that waits, and spends beyond it', () => {
    const route = courseRoute({ length: 24_000, crossings: [12_000], elevation: (d) => 200 + 40 * Math.sin(d / 900) })
    const plan = withEnergy(160, (plan) => {
      plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
    })
    const { advice, best, prices, ways } = found(route, plan)
    const constant = ways.find(({ by }) => by === 'constant')!
    expect(best.time).toBeLessThan(constant.time)
    if (advice.by !== 'rule') throw new Error(advice.by)
    expect(advice.places.length).toBe(2)
    expect(advice.places[0]!.ratio).toBeLessThan(advice.places[1]!.ratio)
    expect(advice.time).toBeLessThan(best.time + 1)
    expect(prices[0]!.price).toBe(prices[1]!.price)
    const halts = (one: Plan) => simulate(route, one).halts.filter(({ kind }) => kind === 'crossing')
    const { places } = advice
    const [taken] = halts(planWithRatios(plan, places)!)
    expect(taken!.sailing!.wait).toBeLessThan(3600)
  })

  it('has one price before and behind a sailing that is waited for: what is saved before it is kept for behind it', () => {
    const route = courseRoute({ length: 24_000, crossings: [12_000], elevation: (d) => 200 + 40 * Math.sin(d / 900) })
    const plan = withEnergy(110, (plan) => {
      plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
    })
    const [before, behind] = found(route, plan).prices
    expect(before!.price).toBe(behind!.price)
    expect(behind!.price).toBeGreaterThan(0)
    const drawn = {
      ...plan,
      crossings: [{ ...plan.crossings[0]!, timetable: { kind: 'duration' as const, duration: 60 } }],
    }
    const [first, second] = found(route, drawn).prices
    expect([first!.price, second?.price]).not.toEqual([behind!.price, behind!.price])
  })

  it('is none where no ratio keeps the reserve', () => {
    const plan = withEnergy(60, (plan) => {
      plan.battery.packs[0]!.charge = 0.12
    })
    const proposal = bestAssist(courseRoute({ length: 30_000 }), { plan, ratios, aim: soonest })
    expect(proposal).toMatchObject({ code: 'belowReserve', least: { by: 'constant', ratio: 0 } })
  })
})

describe('a plan with ratios by place', () => {
  const route = courseRoute({ length: 10_000, elevation: (d) => 200 + 30 * Math.sin(d / 700) })
  const stated = (start: number, end: number) => ({
    ...{
      id: 'stretch-4',
      name: 'Quay',
      start,
      end,
      surface: 'gravel' as const,
      shelter: 0.5,
      speedLimit: null,
      assistRatio: null,
    },
  })

  it('keeps what the rider stated of the road, and rides as the places say, to the bit', () => {
    const plan = withEnergy(300, (plan) => {
      plan.stretches = [stated(3000, 6004)]
    })
    const places = [
      { start: 0, end: 4000, ratio: 0.5 },
      { start: 4000, end: 6000, ratio: 2 },
      { start: 6000, end: 10_000, ratio: 0.5 },
    ]
    const taken = planWithRatios(plan, places)!
    expect(taken.assist).toMatchObject({ ratio: 0.5, climbRatio: 0.5 })
    expect(taken.stretches.map(({ start, end, surface, assistRatio }) => [start, end, surface, assistRatio])).toEqual([
      [3000, 4000, 'gravel', null],
      [4000, 6004, 'gravel', 2],
    ])
    expect(new Set(taken.stretches.map(({ id }) => id)).size).toBe(2)
    const day = new DayParts(route, plan)
    const at = (k: number) => route.stations.distance[day.ends[k]!]!
    const ridden = day.ride((k) => places.find(({ start, end }) => start <= at(k) && at(k) < end)!.ratio)
    const outcome = simulate(route, taken)
    // Stretches of the day end at 4,000 m only if the terrain says so.
    if (day.ends.some((end) => route.stations.distance[end] === 4000))
      expect(outcome.columns.time.at(-1)).toBe(ridden.time)
    expect(leftAtFinish(outcome)).toBeGreaterThan(0)
  })

  it('is not to be had where it takes more stretches than a plan can hold', () => {
    const places = Array.from({ length: 500 }, (_, k) => ({ start: 20 * k, end: 20 * k + 20, ratio: k % 2 }))
    expect(planWithRatios(plainPlan(), places)).toBeUndefined()
    near(planWithRatios(plainPlan(), places.slice(0, 300))!.stretches.length, 150, 0)
  })
})
