import { expect, it } from 'vitest'
import { assistAlong } from '../../src/model/readings/assist-along'
import { simulate } from '../../src/model/forecast/simulate'
import { plainPlan } from '../rides'
import { courseRoute } from '../routes'

it('the assist along a route is that of the flat, that of climbs, and that of a stretch with its own', () => {
  // Flat for a kilometre, then 6 % up, then flat again.
  const route = courseRoute({
    length: 4000,
    elevation: (d) => 0.06 * Math.min(1000, Math.max(0, d - 1000)),
  })
  const plan = plainPlan((plan) => {
    plan.assist = { ...plan.assist, ratio: 0.5, climbRatio: 2 }
    plan.stretches = [
      {
        id: 'stretch-1',
        name: '',
        start: 3000,
        end: 3500,
        surface: null,
        shelter: null,
        speedLimit: null,
        assistRatio: 3,
      },
    ]
  })
  const ratios = assistAlong(route, plan)
  expect([500, 1500, 2500, 3200, 3800].map((place) => ratios[place / 10])).toEqual([0.5, 2, 0.5, 3, 0.5])
  // And as the motor gives it: on the climb as many watts as that ratio takes, below its peak.
  const { motorWork, riderWork } = simulate(route, plan).columns
  const over = (work: Float64Array) => work[155]! - work[150]!
  expect(over(motorWork) / over(riderWork)).toBeCloseTo(2, 6)
})
