import * as v from 'valibot'
import { readPlan } from '../model/plan/check'
import type { Plan } from '../model/plan/schema'
import { choiceSchema } from '../model/route/choice-schema'
import type { RouteChoice } from '../model/route/reading'
import { textOf } from './day'
import type { Timeline } from './history'

/** A state of a day. */
export interface Step {
  choice: RouteChoice
  plan: Plan
}

/** As it is kept. */
export interface StepRecord {
  choice: RouteChoice
  plan: string
}

/** Steps of undo that outlive a reload, to either side, and how much room they may take. */
const mostSteps = 50
const mostLetters = 2_000_000

/** The states that are kept beside the present one: the nearest, as many as have room. */
export function stepsOf({ past, future, at }: Timeline<Step>): (readonly [at: number, state: Step])[] {
  let left = mostLetters
  const near = (states: readonly Step[], first: number, by: 1 | -1) => {
    const steps: (readonly [number, Step])[] = []
    for (const [i, state] of states.slice(0, mostSteps).entries()) {
      left -= textOf(state.plan).length
      if (left < 0) break
      steps.push([first + by * i, state])
    }
    return steps
  }
  return [...near(past.toReversed(), at - 1, -1), ...near(future, at + 1, 1)]
}

const stepSchema = v.object({ choice: choiceSchema, plan: v.string() })

/** @returns undefined where it can't be read */
export function readStep(record: unknown): Step | undefined {
  const reading = v.safeParse(stepSchema, record)
  const plan = reading.success ? readPlan(reading.output.plan) : undefined
  return reading.success && plan?.ok ? { choice: reading.output.choice, plan: plan.plan } : undefined
}

/** Steps as they were kept, before and after a state, each way as far as they can be read. */
export function readSteps(records: readonly (readonly [at: number, record: unknown])[], present: number) {
  const kept = new Map(records)
  const row = (by: 1 | -1): Step[] => {
    const steps: Step[] = []
    for (let at = present + by; ; at += by) {
      const step = readStep(kept.get(at))
      if (step === undefined) return steps
      steps.push(step)
    }
  }
  return { past: row(-1).reverse(), future: row(1) }
}
