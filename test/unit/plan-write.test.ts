import { describe, expect, test } from 'vitest'
import { defaultPlan } from '../../src/model/plan/defaults'
import { changeStop } from '../../src/model/plan/edit'
import { writePlan } from '../../src/model/plan/write'
import { fullestPlan } from '../fullest'

describe('a plan as text', () => {
  test.each([
    ['default', defaultPlan()],
    ['fullest', fullestPlan(200_000, 3)],
    ['with lines within a name', { ...defaultPlan(), kit: [{ ...fullestPlan().kit[0]!, name: 'a\nb "c" {\n' }] }],
  ])('of the %s plan is what JSON.stringify gives (ECMA-262, 25.5.2)', (_, plan) => {
    expect(writePlan(plan)).toBe(JSON.stringify(plan, null, 2) + '\n')
  })

  test('follows each edit, though what stays is not written again', () => {
    let plan = fullestPlan(200_000, 3)
    for (const distance of [81_000, 81_010, 90_000]) {
      plan = changeStop(plan, 'stop-40', { distance })
      expect(writePlan(plan)).toBe(JSON.stringify(plan, null, 2) + '\n')
    }
    const without = { ...plan, stops: [], start: '2027-06-18T06:00' }
    expect(writePlan(without)).toBe(JSON.stringify(without, null, 2) + '\n')
  })
})
