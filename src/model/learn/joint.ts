import { figureOf, learntOf, learntParameter, withFigure } from '../plan/learnt'
import { mapped } from '../plan/lists'
import type { LearntFigure, LearntPath, Plan } from '../plan/schema'
import type { Matrix } from './linear'
import { formDeviation, toNinetyPercent } from './unknowns'

/** What rides told of several figures together: independent normal deviates become figures as they hang together. */
export interface Joint {
  figures: LearntFigure[]
  /** Lower triangle whose product with its transpose is the correlations. */
  factor: Matrix
  /** How many deviates a day takes: one a figure, and one for the rider's form. */
  deviates: number
}

const isAssist = (path: LearntPath) => path === 'assist.ratio' || path === 'assist.climbRatio'

/** What was learnt and still holds in a plan; undefined where nothing does. Assist is chosen anew for each day, and stays as uncertain as a share of that. */
export function jointIn(plan: Plan): Joint | undefined {
  const { learnt } = plan
  if (learnt === null) return undefined
  const figures = learnt.figures.filter(({ path }) => isAssist(path) || learntOf(plan, path) !== undefined)
  if (figures.length === 0) return undefined
  const correlation = (a: LearntPath, b: LearntPath) =>
    a === b
      ? 1
      : (learnt.correlations.find((one) => (one.a === a && one.b === b) || (one.a === b && one.b === a))?.value ?? 0)
  const matrix = figures.map(({ path }) => figures.map((other) => correlation(path, other.path)))
  return { figures, factor: semidefinite(matrix), deviates: figures.length + 1 }
}

/** Cholesky factor of correlations, of which some may be 1: what hangs on others alone has nothing of its own. Its rows have length 1. */
function semidefinite(matrix: Matrix): Matrix {
  const factor: Matrix = matrix.map((row) => row.map(() => 0))
  for (let i = 0; i < matrix.length; i++) {
    const row = factor[i]!
    for (let j = 0; j <= i; j++) {
      const dot = (one: readonly number[]) => row.reduce((sum, value, k) => (k < j ? sum + value * one[k]! : sum), 0)
      const rest = matrix[i]![j]! - dot(factor[j]!)
      if (i === j) row[j] = Math.sqrt(Math.max(0, rest))
      else row[j] = factor[j]![j]! > 1e-6 ? rest / factor[j]![j]! : 0
    }
    // Correlations that contradict each other are made to agree.
    const length = Math.hypot(...row)
    if (length > 0) factor[i] = row.map((value) => value / length)
  }
  return factor
}

/**
 * The plan with what was learnt as it may be on one day.
 *
 * @param deviates independent and standard normal, as many as `joint` takes
 * @param first index of the first of them
 */
export function planDrawn(plan: Plan, { figures, factor }: Joint, deviates: ArrayLike<number>, first = 0): Plan {
  let drawn = plan
  figures.forEach(({ path, middle, low, high }, k) => {
    const u = factor[k]!.reduce((sum, value, j) => sum + value * deviates[first + j]!, 0)
    const share = ((u < 0 ? low : high) / middle) ** (Math.abs(u) / toNinetyPercent)
    const form = path === 'rider.power' ? Math.exp(formDeviation * deviates[first + figures.length]!) : 1
    drawn = withFigure(drawn, path, figureOf(plan, path) * share * form)
    if (path === 'assist.ratio') drawn = withStretchRatios(drawn, plan, share)
  })
  return drawn
}

/** Stretches state ratios of the same display. */
function withStretchRatios(drawn: Plan, { stretches }: Plan, share: number): Plan {
  const { max } = learntParameter('assist.ratio')
  return {
    ...drawn,
    stretches: mapped(stretches, (stretch) =>
      stretch.assistRatio === null ? stretch : { ...stretch, assistRatio: Math.min(max, stretch.assistRatio * share) },
    ),
  }
}
