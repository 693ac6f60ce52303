import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPack, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { evenEdges, explain, rideFigures, rideMixed, ridesToExplain } from '../../src/model/studies/causes'
import { mixPlans, type PlanGroup } from '../../src/model/studies/plan-groups'
import { near } from '../asserts'
import { courseRoute } from '../routes'

const route = courseRoute({
  length: 60_000,
  elevation: (d) => 200 - 120 * Math.cos(d / 2500) + d / 300,
  curvature: (d) => 0.03 * Math.max(0, Math.sin(d / 90)) ** 8,
})
const plan: Plan = {
  ...defaultPlan(),
  stops: [{ ...defaultStop('stop-1', 'Inn', 25_000, 'source-1'), duration: 1500 }],
}
plan.battery.packs = [{ ...defaultPack('pack-1', 'Pack'), capacityAh: 9 }]
/** Of five groups: heavier, weaker, another pack, a longer stop, less assist. */
const other: Plan = {
  ...plan,
  bike: { ...plan.bike, luggage: plan.bike.luggage + 9 },
  rider: { ...plan.rider, power: 0.9 * plan.rider.power },
  battery: { ...plan.battery, packs: [{ ...plan.battery.packs[0]!, health: 0.7 }] },
  stops: [{ ...plan.stops[0]!, duration: 2400, distance: 31_000 }],
  assist: { ...plan.assist, ratio: plan.assist.ratio + 0.3 },
}
const groups: PlanGroup[] = ['mass', 'rider', 'packs', 'stops', 'assist']
const edges = evenEdges(route, 10)
const explained = (before: Plan, after: Plan) => {
  const rides = ridesToExplain(route, before, after, edges)
  return explain(
    rides,
    rides.map((ride) => rideMixed(route, ride)),
  )
}
const sum = (values: number[]) => values.reduce((sum, value) => sum + value, 0)

describe('what makes the difference between two plans', () => {
  const { before, after, causes } = explained(plan, other)

  it('is told of whole forecasts', () => {
    for (const [figures, outcome] of [
      [before, simulate(route, plan)],
      [after, simulate(route, other)],
    ] as const) {
      const { time, ridingTime, left } = outcome.columns
      expect(figures.finish).toBe(time.at(-1))
      expect(figures.riding).toBe(ridingTime.at(-1))
      near(figures.standing, time.at(-1)! - ridingTime.at(-1)!, 1e-9)
      near(figures.energy, outcome.electric.drained, 1e-6)
      expect(figures.least).toBe(Math.min(...left))
    }
    expect(causes.map(({ group }) => group)).toEqual(groups)
  })

  it('has parts that sum to the difference, of each figure and of each part of the way', () => {
    for (const figure of rideFigures)
      near(sum(causes.map(({ change }) => change[figure])), after[figure] - before[figure], 1e-6, figure)
    const ends = [plan, other].map((one) => edges.map((edge) => simulate(route, one).columns.time[edge]!))
    for (let part = 0; part < 10; part++) {
      const [was, is] = ends.map((times) => times[part + 1]! - times[part]!)
      near(sum(causes.map(({ times }) => times[part]!)), is! - was!, 1e-6, `part ${part}`)
    }
    for (const { group, change, times } of causes) near(sum(times), change.finish, 1e-6, group)
    expect(Math.min(...causes.map(({ change }) => Math.abs(change.finish))), 'each of them matters').toBeGreaterThan(20)
  })

  it('is the mean over all 120 orders in which the five may be changed', () => {
    const finish = (set: number) =>
      simulate(
        route,
        mixPlans(
          route,
          plan,
          other,
          groups.filter((_, i) => (set >> i) & 1),
        ),
      ).columns.time.at(-1)!
    const times = Array.from({ length: 32 }, (_, set) => finish(set))
    const added = groups.map(() => 0)
    let orders = 0
    const change = (set: number, order: number[]): void => {
      if (order.length === groups.length) {
        orders++
        let now = 0
        for (const group of order) {
          added[group]! += times[now | (1 << group)]! - times[now]!
          now |= 1 << group
        }
      } else groups.forEach((_, i) => ((set >> i) & 1 ? undefined : change(set | (1 << i), [...order, i])))
    }
    change(0, [])
    expect(orders).toBe(120)
    causes.forEach(({ group, change }, i) => near(change.finish, added[i]! / orders, 1e-6, group))
  })

  it('is nothing between a plan and itself, and one group alone has it all', () => {
    expect(explained(plan, plan)).toMatchObject({ before, after: before, causes: [] })
    const heavier = { ...plan, bike: other.bike }
    const alone = explained(plan, heavier)
    expect(alone.causes.map(({ group }) => group)).toEqual(['mass'])
    near(alone.causes[0]!.change.finish, alone.after.finish - alone.before.finish, 1e-9)
    expect(alone.causes[0]!.change.finish).toBeGreaterThan(60)
  })

  it('is as much the other way round', () => {
    const back = explained(other, plan)
    back.causes.forEach(({ change }, i) => near(change.finish, -causes[i]!.change.finish, 1e-6))
  })
})
