import { catalogue } from './catalogue'
import { merged } from './lists'
import type { Parameter } from './parameters'
import { stepsAsStated } from './steps'
import type { Learnt, LearntFigure, LearntPath, Plan } from './schema'

type Place = [group: 'rider' | 'bike' | 'assist', key: string]
const placeOf = (path: LearntPath) => path.split('.') as Place

/** The catalogue's entry of a figure that rides can tell. */
export function learntParameter(path: LearntPath): Parameter {
  const [group, key] = placeOf(path)
  return (catalogue[group] as Record<string, Parameter>)[key]!
}

/** A figure that rides can tell as the plan has it, in the plan's unit. */
export function figureOf(plan: Plan, path: LearntPath): number {
  const [group, key] = placeOf(path)
  return (plan[group] as Record<string, unknown>)[key] as number
}

/** A plan with such a figure, held within its bounds. @param value in the plan's unit */
export function withFigure(plan: Plan, path: LearntPath, value: number): Plan {
  const [group, key] = placeOf(path)
  const { min, max } = learntParameter(path)
  return merged(plan, { [group]: merged(plan[group] as object, { [key]: Math.min(max, Math.max(min, value)) }) })
}

/** What rides told of a figure, as long as it stands as they told it; undefined where the rider has stated another since. */
export const learntOf = (plan: Plan, path: string): LearntFigure | undefined =>
  plan.learnt?.figures.find((figure) => figure.path === path && figureOf(plan, figure.path) === figure.middle)

/** The plan with what rides told in place of what was stated. */
export const takeOver = (plan: Plan, learnt: Learnt): Plan =>
  learnt.figures.reduce<Plan>((taken, { path, middle }) => withFigure(taken, path, middle), { ...plan, learnt })

/** The plan as it was stated before anything was learnt: each figure that still stands as rides told it is what it was before. */
export const asStated = (plan: Plan): Plan => ({
  ...(plan.learnt?.figures ?? []).reduce<Plan>(
    (stated, figure) =>
      learntOf(plan, figure.path) === undefined ? stated : withFigure(stated, figure.path, figure.stated),
    plan,
  ),
  steps: stepsAsStated(plan.steps),
  learnt: null,
})
