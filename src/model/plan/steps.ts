import { mapped, merged } from './lists'
import { assistParameters } from './parameters'
import { most, type Plan, type PlanStep } from './schema'

/** Of a ratio that nobody stated the true one lies within half and twice as much in 8 of 10 cases: a judgement, as of assist that was not learnt. */
export const guessedSpan = 2
/** What the weakest and the strongest step may be before anything is known of them. Guesses. */
const weakest = 0.4
const strongest = 2.5

const { min, max } = assistParameters.ratio
const guess = (ratio: number): PlanStep => ({
  ...{ name: '', ratio: Number(ratio.toFixed(2)), span: guessedSpan, before: null, test: null },
})

/**
 * A display with as many steps: those that are there stay, further ones are guesses above them.
 *
 * @param count 0 to `most.steps`
 */
export function setStepCount(plan: Plan, count: number): Plan {
  const { steps } = plan
  const wanted = Math.max(0, Math.min(most.steps, Math.round(count)))
  if (wanted === steps.length) return plan
  if (wanted < steps.length) return merged(plan, { steps: steps.slice(0, wanted) })
  const further = wanted - steps.length
  const lowest = steps.at(-1)?.ratio
  const added = Array.from({ length: further }, (_, k) => {
    if (lowest === undefined) return guess(weakest * (strongest / weakest) ** (further === 1 ? 0.5 : k / (further - 1)))
    const highest = Math.max(strongest, lowest)
    return guess(lowest * (highest / lowest) ** ((k + 1) / further))
  })
  return merged(plan, { steps: [...steps, ...added] })
}

/** Changes what is said of a step. @param at its place in the list */
export function changeStep(plan: Plan, at: number, change: Partial<PlanStep>): Plan {
  const step = plan.steps[at]
  return step === undefined
    ? plan
    : merged(plan, { steps: mapped(plan.steps, (one) => (one === step ? merged(one, change) : one)) })
}

/** What a ride told of each step, in their order; what stood before is kept beside it. */
export const stepsLearnt = (plan: Plan, found: readonly { ratio: number; span: number }[]): Plan =>
  merged(plan, {
    steps: plan.steps.map((step, k) => {
      const told = found[k]
      if (told === undefined) return step
      const rounded = (value: number) => Number(value.toPrecision(3))
      const { ratio, span } = step
      return { ...step, ratio: rounded(told.ratio), span: rounded(told.span), before: { ratio, span } }
    }),
  })

/** The steps as they stood before a ride told of them. */
export const stepsAsStated = (steps: readonly PlanStep[]): PlanStep[] =>
  steps.map((step) => (step.before === null ? step : { ...step, ...step.before, before: null }))

/** A step with the ratio that the rider states: what was tested or learnt of it no longer holds. */
export const stateRatio = (plan: Plan, at: number, ratio: number): Plan =>
  changeStep(plan, at, { ratio: Math.max(min, Math.min(max, ratio)), span: guessedSpan, before: null })

/**
 * The step of the display that comes nearest to a ratio, by its factor.
 *
 * @param steps of the plan
 * @param ratio motor power over rider power
 * @returns its place in the list; -1 for the motor off, which is nearer to ratios below half the weakest step; undefined where there are no steps
 */
export function nearestStep(steps: readonly PlanStep[], ratio: number): number | undefined {
  const on = steps.map((step, at) => ({ at, ratio: step.ratio })).filter((step) => step.ratio > 0)
  if (on.length === 0) return undefined
  if (ratio < Math.min(...on.map((step) => step.ratio)) / 2) return -1
  const off = (step: { ratio: number }) => Math.abs(Math.log(step.ratio / ratio))
  return on.reduce((best, step) => (off(step) < off(best) ? step : best)).at
}
