import { describe, expect, it } from 'vitest'
import { readPlan } from '../../src/model/plan/check'
import { writePlan } from '../../src/model/plan/write'
import { defaultPlan } from '../../src/model/plan/defaults'
import { asStated } from '../../src/model/plan/learnt'
import { changeStep, guessedSpan, nearestStep, setStepCount, stateRatio, stepsLearnt } from '../../src/model/plan/steps'

describe('the display’s steps', () => {
  const five = setStepCount(defaultPlan(), 5)

  it('begin as guesses from weak to strong, and are written and read with the plan', () => {
    const ratios = five.steps.map(({ ratio }) => ratio)
    expect(ratios).toEqual(ratios.toSorted((a, b) => a - b))
    expect(ratios[0]).toBe(0.4)
    expect(ratios[4]).toBe(2.5)
    expect(five.steps.every(({ span }) => span === guessedSpan)).toBe(true)
    const named = changeStep(five, 1, { name: 'the quiet one' })
    expect(readPlan(writePlan(named))).toEqual({ ok: true, plan: named })
  })

  it('stay where the display turns out to have more or fewer', () => {
    const known = changeStep(five, 0, { ratio: 0.55, span: 1.1 })
    expect(setStepCount(known, 3).steps).toEqual(known.steps.slice(0, 3))
    const seven = setStepCount(known, 7).steps
    expect(seven.slice(0, 5)).toEqual(known.steps)
    expect(seven[6]!.ratio).toBeGreaterThanOrEqual(seven[5]!.ratio)
    expect(setStepCount(five, 5)).toBe(five)
    expect(setStepCount(five, 99).steps).toHaveLength(12)
  })

  it('forget what was found of a ratio that is stated anew, and no more than that', () => {
    const found = changeStep(five, 2, { name: 'hills', ratio: 1.2, span: 1.08, before: { ratio: 1, span: 2 } })
    const stated = stateRatio(found, 2, 9).steps
    expect(stated[2]).toMatchObject({ name: 'hills', ratio: 4, span: guessedSpan, before: null })
    expect(stated[1]).toBe(found.steps[1])
    expect(changeStep(five, 9, { name: 'none' })).toBe(five)
  })

  it('hold what a ride told, and are what they were before it when it is undone', () => {
    const found = five.steps.map(({ ratio }) => ({ ratio: ratio * 1.2345, span: 1.2 }))
    const told = stepsLearnt(five, found)
    expect(told.steps[0]).toMatchObject({ ratio: 0.494, span: 1.2, before: { ratio: 0.4, span: 2 } })
    expect(readPlan(writePlan(told))).toEqual({ ok: true, plan: told })
    const again = stateRatio(told, 1, 0.9)
    expect(asStated(again).steps.map(({ ratio }) => ratio)).toEqual([0.4, 0.9, 1, 1.58, 2.5])
  })

  it('are named by the nearest one, by factor; below half the weakest the motor is off', () => {
    // 0.40, 0.63, 1.00, 1.58, 2.50: between two of them the geometric mean parts them.
    expect(five.steps.map(({ ratio }) => ratio)).toEqual([0.4, 0.63, 1, 1.58, 2.5])
    expect(nearestStep(five.steps, 0.5)).toBe(0)
    expect(nearestStep(five.steps, 0.51)).toBe(1)
    expect(nearestStep(five.steps, 1.25)).toBe(2)
    expect(nearestStep(five.steps, 1.26)).toBe(3)
    expect(nearestStep(five.steps, 4)).toBe(4)
    expect(nearestStep(five.steps, 0.2)).toBe(0)
    expect(nearestStep(five.steps, 0.19)).toBe(-1)
    expect(nearestStep([], 1)).toBeUndefined()
  })
})
