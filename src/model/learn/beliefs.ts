import type { LearntPath, Plan } from '../plan/schema'
import { inverse } from './linear'
import { readingDeviationOf } from './evidence'
import { indexOf, type Posterior } from './posterior'
import { toNinetyPercent, unknowns, valueAt } from './unknowns'

/** How much the rides narrowed a figure. */
export type Verdict = 'learnt' | 'hardly' | 'not'

/** Middle of what a figure may be, and the span that holds 80 %. */
export interface Span80 {
  middle: number
  low80: number
  high80: number
}

/** What is known of a figure of the plan, beside what was before, in the plan's units. */
export interface LearntBelief extends Span80 {
  path: LearntPath
  prior: Span80
  verdict: Verdict
}

/** Of the span that was before, what is left at the most. Choices. */
const learntBelow = 0.5
const hardlyBelow = 0.85

/** @param left of the deviation that was before, a share */
export const verdictOn = (left: number): Verdict =>
  left <= learntBelow ? 'learnt' : left <= hardlyBelow ? 'hardly' : 'not'

/** A span by the z of its middle and their deviation. */
export const spanAt = (at: (z: number) => number, z: number, deviation: number): Span80 => ({
  middle: at(z),
  low80: at(z - toNinetyPercent * deviation),
  high80: at(z + toNinetyPercent * deviation),
})

/** The told figures that a plan has: no assist where it has no motor at work. */
const toldOf = ({ assist }: Plan) => {
  const hasMotor = assist.ratio > 0 || assist.climbRatio > 0
  return unknowns.filter(
    ({ key, paths }) => paths.length > 0 && (hasMotor || (key !== 'assist' && key !== 'lossFactor')),
  )
}

/** @param plan with the stated figures, from which the rides were looked at */
export function beliefsOf({ z, covariance }: Posterior, plan: Plan): LearntBelief[] {
  return toldOf(plan).flatMap(({ key, paths }) => {
    const i = indexOf(key)
    const deviation = Math.sqrt(covariance[i]![i]!)
    return paths.map((path) => {
      const at = (value: number) => valueAt(plan, path, value)
      return { path, ...spanAt(at, z[i]!, deviation), prior: spanAt(at, 0, 1), verdict: verdictOn(deviation) }
    })
  })
}

/** Two told figures that the rides can tell apart only in part. */
export interface Correlation {
  a: LearntPath
  b: LearntPath
  value: number
}

/** Correlations of the told figures, each by its first path, greatest first. */
export function correlationsOf({ covariance }: Posterior, plan: Plan): Correlation[] {
  const told = toldOf(plan)
  return told
    .flatMap((one, k) =>
      told.slice(k + 1).map((other) => {
        const [i, j] = [indexOf(one.key), indexOf(other.key)]
        const value = covariance[i]![j]! / Math.sqrt(covariance[i]![i]! * covariance[j]![j]!)
        return { a: one.paths[0]!, b: other.paths[0]!, value }
      }),
    )
    .sort((a, b) => Math.abs(b.value) - Math.abs(a.value))
}

/** Half the 80 % span of a figure over its middle, now and with the charge at the finish of a ride read too. */
export interface Worth {
  path: LearntPath
  now: number
  then: number
}

/**
 * What a reading of the charge at the start and the finish of a ride would be worth, before it is typed: from the derivatives alone, whatever it says.
 *
 * @param ride number of the ride
 * @param plan with the stated figures
 */
export function worthOfReading({ z, covariance, leftAtFinish }: Posterior, plan: Plan, ride: number): Worth[] {
  const row = leftAtFinish[ride]!.slice()
  // Of the difference of two readings.
  const pairDeviation = Math.SQRT2 * readingDeviationOf(plan.battery.packs.length)
  // What is not known of the start is in the pair of readings already.
  row[indexOf('start', ride)] = 0
  const normal = inverse(covariance).map((line, i) =>
    line.map((value, j) => value + (row[i]! * row[j]!) / pairDeviation ** 2),
  )
  const after = inverse(normal)
  return toldOf(plan).map(({ key, paths: [path] }) => {
    const i = indexOf(key)
    const share = (deviation: number) => {
      const { middle, low80, high80 } = spanAt((value) => valueAt(plan, path!, value), z[i]!, deviation)
      return (high80 - low80) / 2 / middle
    }
    return { path: path!, now: share(Math.sqrt(covariance[i]![i]!)), then: share(Math.sqrt(after[i]![i]!)) }
  })
}
