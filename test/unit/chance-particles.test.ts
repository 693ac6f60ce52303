import { describe, expect, it } from 'vitest'
import { normalQuantile } from '../../src/model/chance/normal'
import {
  drawnBy,
  effectiveSize,
  evenWeights,
  logLikelihood,
  logPrior,
  priorLaw,
  proposalFor,
  weightsOf,
} from '../../src/model/chance/particles'
import { weighted, weightedBand } from '../../src/model/chance/rest-chances'
import { SobolPoints } from '../../src/model/chance/sobol'
import { near } from '../asserts'

/** Standard normal numbers, evenly. */
const normals = (count: number, dimensions: number, seed: number) => {
  const points = new SobolPoints(dimensions, seed)
  return Array.from({ length: count }, (_, k) => {
    const point = new Float64Array(dimensions)
    points.at(k, point)
    return point.map(normalQuantile)
  })
}

describe('effective size', () => {
  it('is that of Kish: all where weights are equal, 1 where one counts, and in between n over 1 plus their variance over their mean squared', () => {
    near(effectiveSize(new Float64Array(40).fill(0.3)), 40, 1e-9)
    near(effectiveSize([0, 0, 5, 0]), 1, 1e-12)
    const weights = [1, 2, 3, 4]
    // Mean 2.5, variance 1.25: Kish 1965, section 11.7, n / (1 + cv²).
    near(effectiveSize(weights), 4 / (1 + 1.25 / 2.5 ** 2), 1e-12)
  })
})

describe('weights of days that hardly foretell a reading', () => {
  const logs = Float64Array.from({ length: 64 }, (_, k) => -k * k)

  it('are made so even that as many days count as are wanted, in the same order', () => {
    expect(effectiveSize(weightsOf(logs))).toBeLessThan(2)
    const even = evenWeights(logs, 16)
    near(effectiveSize(even), 16, 0.01)
    expect(even).toEqual(even.toSorted().toReversed())
    near(
      even.reduce((sum, weight) => sum + weight, 0),
      1,
      1e-12,
    )
  })

  it('stay as they are where enough days count', () => {
    expect(evenWeights(logs, 1)).toEqual(weightsOf(logs))
  })
})

describe('a law to draw from', () => {
  // x ~ N(0, I₂), read y = 3 + 2 x₁ − x₂ with variance 0.5: posterior mean and covariance in closed form (Lindley and Smith 1972).
  const slope = [2, -1]
  const foretell = (x: ArrayLike<number>) => [3 + slope[0]! * x[0]! + slope[1]! * x[1]!]
  const read = [{ value: 6, variance: 0.5 }]
  const whole = 2 ** 2 + 1 + 0.5
  const mean = slope.map((one) => (one * (6 - 3)) / whole)
  const covariance = (i: number, j: number) => (i === j ? 1 : 0) - (slope[i]! * slope[j]!) / whole

  const points = normals(64, 2, 3)
  const law = proposalFor(points, points.map(foretell), read)

  it('is the posterior of conjugate normal theory, a fifth wider, where what is foretold is linear', () => {
    law.mean.forEach((one, k) => near(one, mean[k]!, 1e-6))
    const factor = law.factor
    for (const [i, j] of [
      [0, 0],
      [1, 0],
      [1, 1],
    ] as const) {
      const got = factor[i]!.reduce((sum, value, k) => sum + value * factor[j]![k]!, 0)
      near(got, 1.2 * covariance(i, j), 1e-6)
    }
  })

  it('gives weighted draws with the posterior’s mean, spread and quantiles, most of which count', () => {
    const drawn = normals(4096, 2, 7).map((normal) => {
      const x = new Float64Array(2)
      drawnBy(law, normal, x)
      return { x, weight: logLikelihood(read, foretell(x)) + logPrior(x, normal) }
    })
    const weights = weightsOf(drawn.map(({ weight }) => weight))
    // Of a normal law drawn with variances 1.2 times its own, (√(2·1.2 − 1) / 1.2)² of the draws count.
    near(effectiveSize(weights) / 4096, (2 * 1.2 - 1) / 1.2 ** 2, 0.01)
    for (const k of [0, 1]) {
      const got = weighted(weights, 8, (day) => drawn[day]!.x[k]!)
      near(got.value, mean[k]!, 0.005)
      expect(Math.abs(got.value - mean[k]!)).toBeLessThan(5 * got.error + 1e-4)
      const band = weightedBand(
        Float64Array.from(drawn, ({ x }) => x[k]!),
        weights,
      )
      near(band.high, mean[k]! + 1.2815515655 * Math.sqrt(covariance(k, k)), 0.02)
      near(band.low, mean[k]! - 1.2815515655 * Math.sqrt(covariance(k, k)), 0.02)
    }
  })

  it('before anything was read is the standard normal law, which weighs all alike', () => {
    const x = new Float64Array(2)
    drawnBy(priorLaw(2), [0.3, -1.1], x)
    expect([...x]).toEqual([0.3, -1.1])
    near(logPrior(x, [0.3, -1.1]), 0, 1e-12)
  })

  it('counts what a straight line leaves as not known', () => {
    const many = normals(2048, 2, 5)
    const curved = (x: ArrayLike<number>) => [3 + 2 * x[0]! + 3 * (x[1]! ** 2 - 1)]
    const { factor } = proposalFor(many, many.map(curved), read)
    // Var 3 (x² − 1) = 18: hardly anything is learnt of x₁.
    near(factor[0]![0]! ** 2 / 1.2, 1 - 4 / (4 + 0.5 + 18), 0.03)
  })
})
