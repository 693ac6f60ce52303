import { describe, expect, it } from 'vitest'
import { readingAt } from '../../src/model/readings/at'
import { leftAtFinish } from '../../src/model/forecast/outcome'
import { marginOf, reachAtStop, reachFrom } from '../../src/model/readings/reach'
import { daySheet } from '../../src/model/readings/sheet'
import { defaultCarried, defaultPack, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan, PlanStop } from '../../src/model/plan/schema'
import { figuresOf, stay } from '../../src/model/plan/stop-goal'
import { near, within } from '../asserts'
import { rideOver } from '../rides'

const course = { length: 60_000 }

/** One pack of 140 Wh, and a stop with a charger half-way. */
function small(change: (plan: Plan) => void = () => {}): Plan {
  const plan = defaultPlan()
  plan.battery.packs = [{ ...defaultPack('pack-1', 'Small'), capacityAh: 4 }]
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

describe('a stop that charges to a share', () => {
  const to = (goal: PlanStop['goal']) => (plan: Plan) => Object.assign(plan.stops[0]!, { goal, chargeTo: 0.9 })
  const goals = ['charge', 'longer', 'sum'] as const
  const facts = { started: 0, sailings: [], passages: [] }

  it('means the same to the forecast, the reach and the day sheet, whichever way its time is told', () => {
    for (const goal of goals) {
      const outcome = rideOver(course, small(to(goal)))
      within(outcome.halts[0]!.leftAfter, 0.9 * outcome.usable, 1e-9, `${goal}: charge on leaving`)
      // What was used before the stop is made good there: a day begun with less ends no lower.
      const begun = small((plan) => {
        to(goal)(plan)
        plan.battery.packs[0]!.charge = 0.7
      })
      within(leftAtFinish(rideOver(course, begun)), leftAtFinish(outcome), 1e-9, `${goal}: begun with 70 %`)
      const rows = daySheet(outcome, facts)
      const needed = outcome.reserve + outcome.leftAtStart - outcome.halts[0]!.leftBefore
      within(rows[0]!.least * outcome.usable, needed, 1e-6, `${goal}: least at the start reaches the stop`)
    }
  })

  it('makes good in the reach what an earlier stop would not have charged', () => {
    for (const goal of goals) {
      const plan = small((plan) => {
        to(goal)(plan)
        plan.stops.unshift({ ...defaultStop('stop-0', 'Mill', 15_000, 'source-1'), duration: 1800 })
      })
      const { before, after } = reachAtStop(rideOver(course, plan), 1500)
      expect(after.spare, goal).toBeGreaterThan(0)
      within(before.spare, after.spare, 1e-9, `${goal}: spare with and without the charge at the mill`)
    }
  })

  it('makes good too where by plan it has nothing to put in', () => {
    const plan = small((plan) => {
      Object.assign(plan.stops[0]!, { goal: 'charge', chargeTo: 0.5 })
      plan.stops.unshift({ ...defaultStop('stop-0', 'Mill', 15_000, 'source-1'), duration: 7200 })
    })
    const outcome = rideOver({ length: 40_000 }, plan)
    expect(outcome.halts[1]!.charges).toEqual([])
    const { before } = reachAtStop(outcome, 1500)
    const drained = outcome.columns.drained
    within(before.spare, 0.5 * outcome.usable - (drained.at(-1)! - drained[3000]!) - outcome.reserve, 1e-9, 'spare')
  })

  it('does not make good what a carried pack no longer holds', () => {
    const plan = small((plan) => {
      to('charge')(plan)
      const carried = defaultCarried('source-2', 'Spare')
      carried.carried.charge = 0.1
      plan.sources.push(carried)
      plan.stops[0]!.source = 'source-2'
      plan.battery.packs[0]!.charge = 0.9
    })
    const outcome = rideOver({ length: 50_000 }, plan)
    expect(outcome.halts[0]!.charges.at(-1)!.run.end).toBe('source empty')
    expect(outcome.emptyAt).toBeUndefined()
    // Each watt-hour less at the start is one less at the finish.
    const least = daySheet(outcome, facts)[0]!.least * outcome.usable
    within(least, outcome.reserve + outcome.leftAtStart - leftAtFinish(outcome), 1e-6, 'least at the start')
  })

  it('shows only the figures that count', () => {
    const plan = small()
    const shown = (change: Partial<PlanStop>) => figuresOf(plan, { ...plan.stops[0]!, ...change })
    expect(shown({ goal: 'charge' })).toEqual(['chargeTo'])
    expect(shown({ goal: 'sum' })).toEqual(['duration', 'chargeTo'])
    expect(shown({ goal: 'longer', source: null })).toEqual(['duration'])
    expect(stay({ goal: 'longer', duration: 600 }, 900)).toBe(900)
    expect(stay({ goal: 'sum', duration: 600 }, 900)).toBe(1500)
  })
})
