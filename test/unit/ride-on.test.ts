import { describe, expect, it } from 'vitest'
import { coarser } from '../../src/model/forecast/coarser'
import { factsOf } from '../../src/model/readings/facts'
import { daySheet } from '../../src/model/readings/sheet'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultMains, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { chargeToRideOn, waysOn } from '../../src/model/studies/ride-on'
import { restOfDay } from '../../src/model/studies/rest-of-day'
import { near } from '../asserts'
import { courseRoute } from '../routes'

const route = courseRoute({ length: 90_000, elevation: (d) => 100 - 100 * Math.cos((2 * Math.PI * d) / 15_000) })
const plan: Plan = {
  ...defaultPlan(),
  sources: [defaultMains('source-1', 'Charger')],
  stops: [{ ...defaultStop('stop-1', 'Inn', 40_000, 'source-1'), duration: 1800 }],
}
const places = [20_000, 60_000, 80_000]
const { factors, places: table } = chargeToRideOn(route, plan, places)

describe('the charge to ride on with', () => {
  it('is more where more is spent, and less the nearer the finish', () => {
    for (const { ease, planned, more } of table) {
      expect(ease!).toBeLessThan(planned!)
      expect(planned!).toBeLessThan(more!)
    }
    for (const way of ['ease', 'planned', 'more'] as const) expect(table[1]![way]!).toBeGreaterThan(table[2]![way]!)
  })

  it('as planned is that of the sheet, to half a percent and what the road with fewer stations moves', () => {
    const outcome = simulate(route, plan)
    const sheet = daySheet(outcome, factsOf(outcome))
    const rows = sheet.filter(({ kind }) => kind === 'mark' || kind === 'stop')
    expect(rows.length).toBeGreaterThan(2)
    const { places: found } = chargeToRideOn(
      route,
      plan,
      rows.map(({ distance }) => distance),
    )
    rows.forEach(({ least }, k) => near(found[k]!.planned!, least, 0.012))
  })

  it('is enough, and half a percent less is not: by riding the rest at that assist', () => {
    const road = coarser(route, plan.bike)
    for (const [way, factor] of Object.entries(factors) as ['ease' | 'planned' | 'more', number][]) {
      const { assist } = plan
      const so = {
        ...plan,
        assist: { ...assist, ratio: factor * assist.ratio, climbRatio: factor * assist.climbRatio },
      }
      const need = table[1]![way]!
      const leftFrom = (share: number) =>
        restOfDay(road, so, places[1]!, ({ time, usable }) => ({ time, left: share * usable })).reserveAt
      expect(leftFrom(need + 0.002), way).toBeUndefined()
      expect(leftFrom(need - 0.008), way).toBeDefined()
    }
  })

  it('is by the greatest share of the assist that lasts from the start, where the plan does not last', () => {
    expect(factors).toEqual(waysOn)
    const [pack] = plan.battery.packs
    const short = { ...plan, stops: [], battery: { ...plan.battery, packs: [{ ...pack!, capacityAh: 9 }] } }
    const { ease } = chargeToRideOn(route, short, places).factors
    const lastsAt = (factor: number) => {
      const { ratio, climbRatio } = short.assist
      const assist = { ...short.assist, ratio: factor * ratio, climbRatio: factor * climbRatio }
      return simulate(route, { ...short, assist }).reserveAt === undefined
    }
    expect(ease).toBe(0.5)
    expect([lastsAt(ease), lastsAt(0.75)]).toEqual([true, false])
  })

  it('is none where not even full packs last', () => {
    const [pack] = plan.battery.packs
    const small = { ...plan, stops: [], battery: { ...plan.battery, packs: [{ ...pack!, capacityAh: 2 }] } }
    const [first] = chargeToRideOn(route, small, [10_000]).places
    expect(first!.planned).toBeUndefined()
    expect(first!.more).toBeUndefined()
  })
})
