import { describe, expect, it } from 'vitest'
import { deadlinesOf } from '../../src/model/chance/deadlines'
import { rideRest, type AskedWay, type WayReading } from '../../src/model/chance/on-the-way'
import { adviceOf, restOf, type RestChances } from '../../src/model/chance/rest-chances'
import { simulate } from '../../src/model/forecast/simulate'
import { restOfDay } from '../../src/model/studies/rest-of-day'
import type { Plan } from '../../src/model/plan/schema'
import { near } from '../asserts'
import { hourly, plainPlan } from '../rides'
import { courseRoute } from '../routes'

const route = {
  ...courseRoute({ length: 30_000, elevation: (d) => 300 + 60 * Math.sin(d / 1500), crossings: [20_000] }),
  ascentSpread: 20,
}
const plan: Plan = plainPlan((plan) => {
  Object.assign(plan.rider, { fade: 0.035, smallHalts: 360 })
  Object.assign(plan.assist, { ratio: 1.4, climbRatio: 1.4 })
  Object.assign(plan.weather, { windSpeed: 4, windFromDegrees: 300 })
  plan.battery.packs = [{ ...plan.battery.packs[0]!, capacityAh: 7.3 }]
  plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
})
const planned = simulate(route, plan)
const station = 1000
const [plannedTime, plannedCharge] = [planned.columns.time[station]!, planned.columns.left[station]! / planned.usable]
const at10 = (late: number, more: number): WayReading => ({
  distance: planned.route.stations.distance[station]!,
  time: plannedTime + late,
  charge: plannedCharge + more,
})
const ways = [0.5, 1, 1.5].map((assist) => ({ assist }))
const asked = (readings: WayReading[]): AskedWay => ({
  plan,
  sampling: { seed: 1, days: 128, replicates: 8 },
  readings,
  proposal: undefined,
  ways,
  places: [25_000],
})
const rest = async (...readings: WayReading[]) =>
  (await restOf(asked(readings), deadlinesOf(planned), (one) => {
    const { days } = one.sampling
    // In two parts, the later first.
    const part = (from: number, to: number) => rideRest(route, { asked: one, from, to })
    return Promise.resolve([part(days / 2, days), part(0, days / 2)])
  }))!
const asPlanned = ({ ways }: { ways: RestChances[] }) => ways[1]!

describe('the rest of a day by readings', () => {
  it('goes on from the clock that was read, with a charge near to what was read', async () => {
    const { places } = asPlanned(await rest(at10(0, 0)))
    const { finish } = restOfDay(route, plan, 10_000, ({ usable }) => ({
      time: plannedTime,
      left: plannedCharge * usable,
    }))
    expect(finish).toBeGreaterThan(plannedTime)
    expect(places[0]!.distance).toBeGreaterThan(10_000)
    expect(places[0]!.charge.middle).toBeLessThan(plannedCharge)
    const day = rideRest(route, { asked: asked([at10(0, 0)]), from: 0, to: 4 })
    // Before the way to the next place no time can be won: each arrives after what was read.
    day.ways[1]!.arrive.forEach((time) => expect(time).toBeGreaterThan(plannedTime))
  })

  it('is surer with more charge than planned, less sure with less, and less still by a second reading that says the same', async () => {
    const more = asPlanned(await rest(at10(0, 0.08))).reserve.value
    const same = asPlanned(await rest(at10(0, 0))).reserve.value
    const less = asPlanned(await rest(at10(0, -0.08))).reserve.value
    expect(more).toBeGreaterThan(same)
    expect(less).toBeLessThan(same)
    const later = 1500
    const second = {
      distance: route.stations.distance[later]!,
      time: planned.columns.time[later]!,
      charge: planned.columns.left[later]! / planned.usable - 0.13,
    }
    expect(asPlanned(await rest(at10(0, -0.08), second)).reserve.value).toBeLessThan(less)
  })

  it('is ridden each way as if it were the only one, also with an assist of which rides told how far it may be off', () => {
    const figure = {
      path: 'assist.ratio' as const,
      middle: 1.4,
      low: 0.9,
      high: 2,
      stated: 1.4,
      verdict: 'learnt' as const,
    }
    const learnt = { from: [], figures: [figure], correlations: [] }
    const both = { ...asked([at10(0, 0)]), plan: { ...plan, learnt } }
    const [, one] = rideRest(route, { asked: both, from: 0, to: 8 }).ways
    const [alone] = rideRest(route, { asked: { ...both, ways: [{ assist: 1 }] }, from: 0, to: 8 }).ways
    expect(one!.left).toEqual(alone!.left)
    expect(one!.time).toEqual(alone!.time)
  })

  it('has more charge at the finish where less assist is taken from here on, and is later', async () => {
    const { ways: found, effective, days } = await rest(at10(0, 0))
    const [eased, usual, spent] = found as [RestChances, RestChances, RestChances]
    expect(eased.left.middle).toBeGreaterThan(usual.left.middle)
    expect(usual.left.middle).toBeGreaterThan(spent.left.middle)
    expect(eased.reserve.value).toBeGreaterThanOrEqual(usual.reserve.value)
    expect(effective).toBeGreaterThan(days / 4)
    expect(usual.deadlines.map(({ kind }) => kind)).toEqual(['sailing'])
  })

  it('is narrower than before the reading', async () => {
    const { time } = asPlanned(await rest(at10(0, 0)))
    const before = rideRest(route, {
      asked: { ...asked([at10(0, 0)]), sampling: { ...asked([]).sampling } },
      from: 0,
      to: 128,
    })
    const clocks = before.foretold.map(([clock]) => clock!).sort((a, b) => a - b)
    const wide = clocks[Math.floor(0.9 * 128)]! - clocks[Math.floor(0.1 * 128)]!
    // Up to the reading days differ by `wide`; what is left of it is only what differs afterwards.
    expect(wide).toBeGreaterThan(60)
    expect(time.high - time.low).toBeLessThan(3 * wide)
  })

  it('says how far a reading is from what was believed', async () => {
    const { late, spare } = await rest(at10(1800, -0.3))
    expect(late).toBeGreaterThan(2)
    expect(spare).toBeLessThan(-2)
    const usual = await rest(at10(0, 0))
    near(usual.late, 0, 1)
    near(usual.spare, 0, 1)
  })

  it('is not told as if it were certain where hardly any day foretells the reading', async () => {
    const odd = await rest(at10(3600, -0.45))
    expect(odd.effective).toBeLessThan(8)
    const { time, left } = asPlanned(odd)
    expect(time.high - time.low).toBeGreaterThan(60)
    // What is left at the finish is less than what is left here, whatever was foretold.
    expect(left.high).toBeLessThan(plannedCharge - 0.45 + 0.03)
  })

  it('advises the greatest assist with which nine days of ten last, straight between those that were ridden', () => {
    const of = (assist: number, value: number) => ({ assist, reserve: { value, error: 0 } }) as RestChances
    const { verdict, assist } = adviceOf([of(0.5, 1), of(1, 0.8), of(1.5, 0.1)])
    expect(verdict).toBe('likely')
    near(assist!, 0.75, 1e-12)
    expect(adviceOf([of(0.5, 0.4), of(1, 0.1)])).toEqual({ verdict: 'not', assist: undefined })
    expect(adviceOf([of(0.5, 1), of(1, 1)])).toEqual({ verdict: 'enough', assist: 1 })
  })
})
