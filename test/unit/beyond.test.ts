import { expect, it } from 'vitest'
import { placesBeyond } from '../../src/model/plan/beyond'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { addControl } from '../../src/model/plan/edit-day'
import { addStretch } from '../../src/model/plan/edit-stretches'

it('counts every place of a plan that lies beyond a route, and tells the farthest', () => {
  let plan = defaultPlan()
  expect(placesBeyond(plan, 1000)).toBeUndefined()
  plan = { ...plan, stops: [10_000, 20_000].map((distance) => defaultStop(`${distance}`, 'Stop', distance, null)) }
  plan = addControl(plan, 30_000, () => 'Gate')
  plan = addStretch(plan, 35_000, 40_000).plan
  plan = { ...plan, weather: { ...plan.weather, table: [{ name: 'End', distance: 39_000, hours: [] }] } }
  expect(placesBeyond(plan, 40_000)).toBeUndefined()
  expect(placesBeyond(plan, 39_999.5)).toBeUndefined()
  expect(placesBeyond(plan, 39_500)).toEqual({ count: 1, farthest: 40_000 })
  expect(placesBeyond(plan, 25_000)).toEqual({ count: 3, farthest: 40_000 })
  expect(placesBeyond(plan, 5000)).toEqual({ count: 5, farthest: 40_000 })
})
