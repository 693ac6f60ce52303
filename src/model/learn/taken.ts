import { figureOf, learntParameter } from '../plan/learnt'
import type { Learnt, LearntPath, Plan } from '../plan/schema'
import type { LearntBelief } from './beliefs'
import { indexOf, type Posterior } from './posterior'
import { unknowns } from './unknowns'
import { wideningOf } from './widened'

/** Digits of a figure as it is taken into a plan: more say nothing. */
const digits = 3

/**
 * What rides told, as a plan keeps it: each figure with its span, widened to what real rides showed, and how figures hang together.
 *
 * @param beliefs of that posterior, from the same plan
 * @param plan into which it goes, as stated before anything was learnt
 * @param from what the rides are called
 */
export function learntFrom(
  { covariance }: Posterior,
  beliefs: readonly LearntBelief[],
  plan: Plan,
  from: Learnt['from'],
): Learnt {
  const figures = beliefs.flatMap(({ path, middle, low80, high80, verdict }) => {
    const stated = figureOf(plan, path)
    if (!(low80 > 0)) return []
    const { min, max } = learntParameter(path)
    const rounded = (value: number) => Number(value.toPrecision(digits))
    const unknown = unknowns.find(({ paths }) => paths.includes(path))
    const k = unknown === undefined ? undefined : indexOf(unknown.key)
    const wider = k === undefined ? 1 : wideningOf(Math.sqrt(covariance[k]![k]!))
    const end = (value: number) => rounded(middle * (value / middle) ** wider)
    return [
      {
        path,
        middle: Math.max(min, Math.min(max, rounded(middle))),
        ...{ low: end(low80), high: end(high80), stated, verdict },
      },
    ]
  })
  const correlation = (a: LearntPath, b: LearntPath) => {
    const [one, other] = [a, b].map((path) => unknowns.find(({ paths }) => paths.includes(path)))
    if (one === undefined || other === undefined) return 0
    const [i, j] = [indexOf(one.key), indexOf(other.key)]
    return Math.max(-1, Math.min(1, covariance[i]![j]! / Math.sqrt(covariance[i]![i]! * covariance[j]![j]!)))
  }
  const paths = figures.map(({ path }) => path)
  const correlations = paths.flatMap((a, k) =>
    paths
      .slice(k + 1)
      .map((b) => ({ a, b, value: Number(correlation(a, b).toFixed(4)) }))
      .filter(({ value }) => value !== 0),
  )
  return { from, figures, correlations }
}
