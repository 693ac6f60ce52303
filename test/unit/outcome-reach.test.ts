import { describe, expect, it } from 'vitest'
import { readingAt } from '../../src/model/readings/at'
import { leftAtFinish } from '../../src/model/forecast/outcome'
import { marginOf, reachAtStop, reachFrom } from '../../src/model/readings/reach'
import { defaultPack, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { near, within } from '../asserts'
import { rideOver } from '../rides'

const course = { length: 60_000 }

/** One pack of 200 Wh, and a stop with a charger half-way. */
function small(change: (plan: Plan) => void = () => {}): Plan {
  const plan = defaultPlan()
  plan.battery.packs = [{ ...defaultPack('pack-1', 'Small'), capacityAh: 5 }]
  plan.stops = [{ ...defaultStop('stop-1', 'Inn', 30_000, 'source-1'), duration: 3600 }]
  change(plan)
  return plan
}

describe('reachFrom', () => {
  it('counts the charge of a stop ahead, and of one just passed only as what is in the pack', () => {
    const outcome = rideOver(course, small())
    const spare = leftAtFinish(outcome) - outcome.reserve
    expect(spare).toBeGreaterThan(0)
    for (const place of [0, 29_990, 30_000, 30_001, 30_005, 45_000]) {
      const reach = reachFrom(outcome, place)
      expect(reach.until).toBeUndefined()
      within(reach.spare, spare, 1e-9, `spare from ${place} m`)
      within(reach.left, readingAt(outcome, place).left, 1e-12, `left at ${place} m`)
    }
  })

  it('ends where the reserve is reached, between stations', () => {
    const outcome = rideOver(
      course,
      small((plan) => (plan.stops = [])),
    )
    const { until } = reachFrom(outcome, 1234.5)
    near(readingAt(outcome, until!).left, outcome.reserve, 1e-6 * outcome.usable, 'charge there')
    expect(outcome.reserveAt! - until!).toBeGreaterThanOrEqual(0)
    expect(outcome.reserveAt! - until!).toBeLessThanOrEqual(10)
  })

  it('ends where the motor stops, if there is no reserve', () => {
    const plan = small((plan) => {
      plan.stops = []
      plan.battery.reserve = 0
    })
    const outcome = rideOver({ length: 90_000 }, plan)
    expect(outcome.emptyAt).toBeDefined()
    expect(reachFrom(outcome, 0).until).toBe(outcome.emptyAt)
    expect(outcome.reserveAt).toBe(outcome.emptyAt)
    expect(marginOf(outcome).verdict).toBe('empty')
  })

  it('is nothing from a place below the reserve', () => {
    const outcome = rideOver(
      course,
      small((plan) => (plan.stops = [])),
    )
    const place = outcome.reserveAt! + 500
    expect(reachFrom(outcome, place)).toMatchObject({ until: place, length: 0 })
  })
})

describe('reachAtStop', () => {
  it('is longer with the charge than without, and the same where nothing is charged', () => {
    const station = 3000
    const charged = reachAtStop(rideOver(course, small()), station)
    expect(charged.before.until).toBeGreaterThan(30_000)
    expect(charged.after.until).toBeUndefined()
    const rest = reachAtStop(
      rideOver(
        course,
        small((plan) => (plan.stops[0]!.source = null)),
      ),
      station,
    )
    expect(rest.after).toEqual(rest.before)
  })
})
