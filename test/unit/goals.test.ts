import { describe, expect, it } from 'vitest'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { passagesFor, ridingMargin } from '../../src/model/readings/passages'
import { answerSentence } from '../../src/view/answer/sentence'
import { near } from '../asserts'
import { rideOver } from '../rides'

const plan = { ...defaultPlan(), stops: [{ ...defaultStop('stop-1', 'Inn', 10_000, null), duration: 3600 }] }
const course = { length: 20_000 }
const riding = rideOver(course, plan).columns.ridingTime.at(-1)!
const whole = rideOver(course, plan).columns.time.at(-1)!
const said = (goals: { goal?: number; ridingGoal?: number }) => {
  const outcome = rideOver(course, { ...plan, ...goals })
  return answerSentence(outcome, passagesFor(outcome), 'metric')
}

describe('goals', () => {
  it('of riding time leave halts out, and there may be none', () => {
    expect(ridingMargin(rideOver(course, plan))).toBeUndefined()
    near(ridingMargin(rideOver(course, { ...plan, ridingGoal: riding + 600 }))!, 600, 1e-6)
    expect(whole).toBeGreaterThan(riding + 3500)
  })

  it('are judged each: that of the whole day first, then that of riding', () => {
    expect(said({ goal: whole + 60, ridingGoal: riding + 60 })).toMatch(/^The charge/)
    expect(said({ goal: whole + 60, ridingGoal: riding - 300 })).toMatch(
      /^You miss your goal of .* of riding by 5 min\./,
    )
    expect(said({ goal: whole - 600, ridingGoal: riding - 300 })).toMatch(/^You miss your goal of [^.]* by 10 min\./)
    expect(said({ goal: whole - 600, ridingGoal: riding + 60 })).toMatch(/^You miss your goal of [^.]* by 10 min\./)
    expect(said({ ridingGoal: riding + 60 })).toMatch(/^The charge/)
  })
})
