import { expect, it } from 'vitest'
import { bestAssist } from '../../src/model/decide/assist'
import { easiestAssist } from '../../src/model/decide/easiest'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { courseRoute } from '../routes'

const ratios = [0, 0.5, 1, 1.5, 2, 2.5, 3]
const route = courseRoute({ length: 20_000, elevation: (d) => 300 + 50 * Math.sin(d / 1200) })
const plan: Plan = {
  ...defaultPlan(),
  battery: { ...defaultPlan().battery, packs: [{ ...defaultPlan().battery.packs[0]!, capacityAh: 4 }] },
}

function soonest(power: number): number {
  const found = bestAssist(route, {
    plan: { ...plan, rider: { ...plan.rider, power } },
    ratios,
    aim: { for: 'soonest' },
  })
  return found.code === 'found' ? found.advice.time : Infinity
}

function easiest(by: number) {
  const found = easiestAssist(route, { plan, sure: undefined, ratios, by })
  if (found.code !== 'found') throw new Error(found.code)
  return found
}

it('is the least power in steps of 5 W that is in time by the best assist, of all that are tried one by one', () => {
  const by = soonest(plan.rider.power) + 400
  const found = easiest(by)
  const { power } = found.stopped.rider
  let least = plan.rider.power
  while (soonest(least - 5) <= by) least -= 5
  expect(least).toBeLessThan(plan.rider.power)
  expect(Math.abs(power - least)).toBeLessThanOrEqual(5)
  expect(found.advice.time).toBeLessThanOrEqual(by)
  expect(simulate(route, found.plan!).columns.time.at(-1)).toBe(found.advice.time)
  expect(found.advice.riderWork).toBeLessThan(easiest(by - 200).advice.riderWork)
})

it('is the planned power where not even that is in time', () => {
  const found = easiest(soonest(plan.rider.power) - 300)
  expect(found.stopped.rider.power).toBe(plan.rider.power)
})
