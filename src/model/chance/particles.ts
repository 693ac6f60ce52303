import { cholesky, inverse, solve, type Matrix } from '../learn/linear'

/** What was read: a value, and the variance with which what is foretold of it lies about it. */
export interface Observation {
  value: number
  variance: number
}

/** A normal law that deviates are drawn from in place of the standard one. */
export interface Proposal {
  mean: number[]
  /** Lower triangle L: mean + L u of standard normal u. */
  factor: Matrix
}

/** Wider than what is sought, so that no weight grows without bound where the answer is not quite linear: a factor on all variances. A choice. */
const wider = 1.2

/** The law that nothing was read of: standard normal. */
export const priorLaw = (deviates: number): Proposal => ({
  mean: new Array<number>(deviates).fill(0),
  factor: Array.from({ length: deviates }, (_, i) => Array.from({ length: deviates }, (_, j) => (i === j ? 1 : 0))),
})

/** Deviates by standard normal numbers. @param normal as many as the law has @param into takes the deviates */
export function drawnBy({ mean, factor }: Proposal, normal: ArrayLike<number>, into: Float64Array): void {
  for (let i = 0; i < mean.length; i++) {
    let sum = mean[i]!
    for (let j = 0; j <= i; j++) sum += factor[i]![j]! * normal[j]!
    into[i] = sum
  }
}

/** Logarithm of how much likelier deviates are by the standard normal law than by the one they were drawn by, but for a constant. */
export function logPrior(deviates: ArrayLike<number>, normal: ArrayLike<number>): number {
  let sum = 0
  for (let i = 0; i < deviates.length; i++) sum += normal[i]! * normal[i]! - deviates[i]! * deviates[i]!
  return 0.5 * sum
}

/** Logarithm of the likelihood of what was read, but for a constant. @param foretold as many as were read */
export const logLikelihood = (read: readonly Observation[], foretold: ArrayLike<number>): number =>
  read.reduce((sum, { value, variance }, k) => sum - (value - foretold[k]!) ** 2 / (2 * variance), 0)

/**
 * The posterior law of standard normal deviates given what was read, were what is foretold linear in them, somewhat widened: what to draw from next.
 * What the straight line leaves of what is foretold counts as further variance.
 *
 * @param points deviates of some days, at least two more than deviates
 * @param foretold of each of these days, as many values as were read
 * @see conjugate normal theory, Lindley and Smith 1972, J. R. Stat. Soc. B 34:1-41; drawing anew by what the first draws tell: Cappé, Guillin, Marin and
 * Robert 2004, J. Comput. Graph. Stat. 13:907-929
 */
export function proposalFor(
  points: readonly ArrayLike<number>[],
  foretold: readonly ArrayLike<number>[],
  read: readonly Observation[],
): Proposal {
  const size = points[0]!.length
  const rows = points.map((point) => [1, ...Array.from(point)])
  const normal = Array.from({ length: size + 1 }, (_, i) =>
    Array.from(
      { length: size + 1 },
      (_, j) => rows.reduce((sum, row) => sum + row[i]! * row[j]!, 0) + (i === j ? 1e-9 : 0),
    ),
  )
  const lines = read.map(({ value, variance }, k) => {
    const line = solve(
      normal,
      normal.map((_, i) => rows.reduce((sum, row, n) => sum + row[i]! * foretold[n]![k]!, 0)),
    )
    const off = rows.reduce(
      (sum, row, n) => sum + (foretold[n]![k]! - row.reduce((at, x, i) => at + x * line[i]!, 0)) ** 2,
      0,
    )
    return { value: value - line[0]!, slope: line.slice(1), variance: variance + off / (rows.length - size - 1) }
  })
  const precision = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) =>
      lines.reduce((sum, { slope, variance }) => sum + (slope[i]! * slope[j]!) / variance, i === j ? 1 : 0),
    ),
  )
  const mean = solve(
    precision,
    precision.map((_, i) => lines.reduce((sum, { slope, value, variance }) => sum + (slope[i]! * value) / variance, 0)),
  )
  const covariance = inverse(precision)
  return { mean, factor: cholesky(covariance.map((row) => row.map((value) => wider * value))) }
}

/** Weights that sum to 1. @param logarithms of weights, but for a constant */
export function weightsOf(logarithms: ArrayLike<number>): Float64Array {
  let most = -Infinity
  for (let k = 0; k < logarithms.length; k++) most = Math.max(most, logarithms[k]!)
  const weights = Float64Array.from(logarithms, (one) => Math.exp(one - most))
  const sum = weights.reduce((all, one) => all + one, 0)
  return weights.map((one) => one / sum)
}

/**
 * Weights of which so many draws count at the least: all are raised to one power, at most 1, where else some few draws would pass for all that can be. A
 * reading that hardly any day foretells is trusted less so.
 *
 * @param logarithms of weights, but for a constant
 * @param least draws that count, fewer than there are
 * @see Koblents and Míguez 2015, Stat. Comput. 25:407-425, for weights that are made more even; the choice of the power is ours
 */
export function evenWeights(logarithms: Float64Array, least: number): Float64Array {
  let [low, high] = [0, 1]
  const raised = (power: number) => weightsOf(logarithms.map((one) => power * one))
  if (effectiveSize(raised(high)) >= least) return raised(high)
  for (let k = 0; k < 30; k++) {
    const power = 0.5 * (low + high)
    if (effectiveSize(raised(power)) >= least) low = power
    else high = power
  }
  return raised(low)
}

/** How many equally weighted draws are worth as much: (Σw)² / Σw². @see Kish 1965, Survey Sampling, section 11.7 */
export function effectiveSize(weights: ArrayLike<number>): number {
  let [sum, squares] = [0, 0]
  for (let k = 0; k < weights.length; k++) {
    sum += weights[k]!
    squares += weights[k]! ** 2
  }
  return sum ** 2 / squares
}
