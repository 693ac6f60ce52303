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

  it('never has more than the forecast has at a place, whatever charges it leaves out', () => {
    // So no charge in it can pass a full pack.
    const plan = small((plan) => {
      plan.stops = [
        { ...plan.stops[0]!, distance: 10_000, duration: 7200 },
        { ...plan.stops[0]!, id: 'stop-2', distance: 11_000, duration: 7200 },
      ]
    })
    const outcome = rideOver({ length: 30_000 }, plan)
    const { before, after } = reachAtStop(outcome, 1000)
    expect(outcome.halts[1]!.leftAfter).toBeGreaterThan(0.99 * outcome.usable)
    expect(before.spare).toBeLessThan(after.spare)
    within(after.spare, leftAtFinish(outcome) - outcome.reserve, 1e-9)
    const added = outcome.halts[0]!.leftAfter - outcome.halts[0]!.leftBefore
    within(after.spare - before.spare, added, 1e-9)
  })

  it('says how far the spare would go at the mean drain, and of a ride without motor nothing', () => {
    const outcome = rideOver(course, small())
    const { spare, spareLength } = reachFrom(outcome, 45_000)
    within(spareLength!, (spare / outcome.electric.drained) * 60_000, 1e-9)
    const still = rideOver(
      course,
      small(({ assist }) => Object.assign(assist, { ratio: 0, climbRatio: 0, electronics: 0, lights: 0 })),
    )
    expect(reachFrom(still, 0)).toMatchObject({ until: undefined, spareLength: undefined })
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

describe('marginOf', () => {
  it('is a finish above the reserve, below it, or without the motor for the rest of the way', () => {
    const of = (length: number) => {
      const outcome = rideOver(
        { length },
        small((plan) => (plan.stops = [])),
      )
      return { outcome, margin: marginOf(outcome) }
    }
    const short = of(20_000)
    expect(short.margin).toMatchObject({ verdict: 'lasts', withoutMotor: 0, reserveAt: undefined, emptyAt: undefined })
    within(short.margin.margin, short.outcome.columns.left.at(-1)! - short.outcome.reserve, 1e-12)
    const { reserveAt } = of(60_000).outcome
    const low = of(reserveAt! + 300)
    expect(low.margin).toMatchObject({ verdict: 'reserve', withoutMotor: 0 })
    expect(low.margin.margin).toBeLessThan(0)
    const long = of(90_000)
    expect(long.margin.verdict).toBe('empty')
    near(long.margin.withoutMotor, 90_000 - long.margin.emptyAt!, 20)
  })
})

describe('the least charge on arrival', () => {
  const facts = { started: 0, sailings: [], passages: [] }
  const leastAt = (outcome: ReturnType<typeof rideOver>, distance: number) =>
    daySheet(outcome, facts).find((row) => row.distance === distance)!.least * outcome.usable
  /** Drained from a place to the finish, J. */
  const fromThere = ({ columns, route }: ReturnType<typeof rideOver>, distance: number) =>
    columns.drained.at(-1)! - columns.drained[route.stations.distance.indexOf(distance)]!

  it('at a stop that charges to a share which is not enough is what is needed less what it adds', () => {
    const outcome = rideOver(
      { length: 54_000 },
      small((plan) => {
        Object.assign(plan.stops[0]!, { goal: 'charge', chargeTo: 0.45 })
        plan.battery.packs[0]!.charge = 0.75
      }),
    )
    const { leftAfter, leftBefore } = outcome.halts[0]!
    const needed = outcome.reserve + fromThere(outcome, 30_000)
    expect(leftAfter).toBeGreaterThan(leftBefore)
    expect(leftAfter).toBeLessThan(needed)
    expect(outcome.emptyAt).toBeUndefined()
    within(leastAt(outcome, 30_000), needed - (leftAfter - leftBefore), 1e-9)
  })

  it('is the reserve where a stop charges more than the rest asks for', () => {
    const outcome = rideOver(
      course,
      small((plan) => Object.assign(plan.stops[0]!, { distance: 55_000, duration: 5400 })),
    )
    const { leftAfter, leftBefore } = outcome.halts[0]!
    expect(leftAfter - leftBefore).toBeGreaterThan(fromThere(outcome, 55_000))
    within(leastAt(outcome, 55_000), outcome.reserve, 1e-12)
    within(leastAt(outcome, 60_000), outcome.reserve, 1e-12)
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
    expect(outcome.halts[0]!.charges.at(-1)!.run.end).toBe('sourceEmpty')
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
    expect(shown({ goal: 'duration' })).toEqual(['duration'])
    const swap = { ...plan, sources: [{ id: 'source-1', name: 'Pack', kind: 'swap' as const }] }
    expect(figuresOf(swap, { ...plan.stops[0]!, goal: 'charge' })).toEqual(['duration'])
    expect(stay({ goal: 'duration', duration: 600 }, 900)).toBe(600)
    expect(stay({ goal: 'charge', duration: 600 }, 300)).toBe(300)
    expect(stay({ goal: 'longer', duration: 600 }, 300)).toBe(600)
    expect(shown({ goal: 'longer', source: null })).toEqual(['duration'])
    expect(stay({ goal: 'longer', duration: 600 }, 900)).toBe(900)
    expect(stay({ goal: 'sum', duration: 600 }, 900)).toBe(1500)
  })
})
