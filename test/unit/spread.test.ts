import { describe, expect, it } from 'vitest'
import { defaultPlan } from '../../src/model/plan/defaults'
import { spreadOf } from '../../src/model/studies/spread'
import { near, within } from '../asserts'
import { courseRoute } from '../routes'

const route = courseRoute({ length: 20_000 })

describe('spreadOf', () => {
  it('moves drag and tyres by 1/√2 of the deviation between bikes, and both days follow', () => {
    const plan = defaultPlan()
    const { harder, easier } = spreadOf(route, plan)
    // Tengattini and Bigazzi 2018, J. Sports Sci. 36:2383-2391: SD of AfCd 0.170 m², of Cr 0.0036.
    for (const [outcome, sign] of [
      [harder, 1],
      [easier, -1],
    ] as const) {
      within(outcome.plan.bike.dragArea - 0.6, (sign * 0.17) / Math.SQRT2, 2e-3, 'drag area')
      within(outcome.plan.bike.rolling - 0.008, (sign * 0.0036) / Math.SQRT2, 2e-3, 'rolling')
    }
    expect(harder.columns.time.at(-1)).toBeGreaterThan(easier.columns.time.at(-1)!)
    expect(plan).toEqual(defaultPlan())
  })

  it('stays within what a plan can hold', () => {
    const plan = defaultPlan()
    Object.assign(plan.bike, { dragArea: 0.16, rolling: 0.002 })
    const { easier } = spreadOf(route, plan)
    near(easier.plan.bike.dragArea, 0.15, 0)
    near(easier.plan.bike.rolling, 0.001, 0)
  })
})
