import { describe, expect, it } from 'vitest'
import { effectSums, effectsOf } from '../../src/model/chance/drivers'
import { normalQuantile } from '../../src/model/chance/normal'
import { SobolPoints } from '../../src/model/chance/sobol'
import { fitted, partsOf, valueAt } from '../../src/model/chance/surrogate'
import { near, within } from '../asserts'

/** Ishigami and Homma 1990, with a = 7 and b = 0.1. */
const ishigami = (point: ArrayLike<number>): number => {
  const [x, y, z] = [0, 1, 2].map((k) => Math.PI * (2 * point[k]! - 1)) as [number, number, number]
  return Math.sin(x) + 7 * Math.sin(y) ** 2 + 0.1 * z ** 4 * Math.sin(x)
}

describe('what drives the spread of Ishigami’s function', () => {
  it('has the published Shapley effects, within four of its own errors and 0.02', () => {
    const sampling = { seed: 3, points: 8192, replicates: 16 }
    const of = (from: number, to: number) => effectSums([1, 1, 1], (point) => [ishigami(point)], 1, sampling, from, to)
    const { share, error, variance } = effectsOf([of(0, 3000), of(3000, 8192)].map(([sums]) => sums!))
    // Owen and Prieur 2017, SIAM/ASA J. Uncertain. Quantif. 5:986, from the closed form.
    for (const [k, published] of [0.4357, 0.4424, 0.1218].entries()) {
      near(share[k]!, published, Math.min(0.02, 4 * error[k]!), `effect ${k}`)
      expect(error[k]!).toBeLessThan(0.015)
    }
    near(
      share.reduce((a, b) => a + b),
      1,
      1e-12,
    )
    // a²/8 + bπ⁴/5 + b²π⁸/18 + 1/2
    within(variance, 13.8446, 0.02)
  })

  it('has the published first-order indices by the same points: with one input held, what two answers share', () => {
    const points = new SobolPoints(6, 3)
    const point = new Float64Array(6)
    const many = 16384
    const shared = [0, 0, 0]
    let mean = 0
    let square = 0
    for (let index = 0; index < many; index++) {
      points.at(index, point)
      const one = ishigami(point)
      mean += one / many
      square += (one * one) / many
      for (const k of [0, 1, 2]) {
        const other = point.slice(3)
        other[k] = point[k]!
        shared[k]! += (one * ishigami(other)) / many
      }
    }
    for (const [k, published] of [0.3139, 0.4424, 0].entries())
      near((shared[k]! - mean * mean) / (square - mean * mean), published, 0.02, `index ${k}`)
  })
})

describe('a control variate', () => {
  const weights = [3, 2, 1]
  const answer = (deviates: ArrayLike<number>) =>
    weights.reduce((sum, weight, k) => sum + weight * deviates[k]!, 0) + 0.5 * deviates[0]! * deviates[1]!
  const deviates = (index: number, points: SobolPoints) => {
    const point = new Float64Array(3)
    points.at(index, point)
    return point.map(normalQuantile)
  }

  it('that stands in for the answer makes the effects of normal theory of few pairs', () => {
    const points = new SobolPoints(3, 1)
    const cases = Array.from({ length: 256 }, (_, k) => deviates(k, points))
    const surrogate = fitted(cases, cases.map(answer))
    near(valueAt(surrogate, [0.3, -1, 2]), answer([0.3, -1, 2]), 1e-3)
    // A linear part gives its weight squared, a product its square in halves.
    const exact = [9 + 0.125, 4 + 0.125, 1]
    partsOf(surrogate, [1, 1, 1]).forEach((part, k) => near(part, exact[k]!, 1e-3))
    const sampling = { seed: 1, points: 16, replicates: 8 }
    const both = (point: Float64Array) => {
      const z = point.map(normalQuantile)
      return [answer(z), valueAt(surrogate, z)]
    }
    const [sums, stands] = effectSums([1, 1, 1], both, 2, sampling, 0, 16)
    const without = effectsOf([sums!])
    const { share, error } = effectsOf([sums!], { sums: [stands!], parts: partsOf(surrogate, [1, 1, 1]) })
    share.forEach((value, k) => near(value, exact[k]! / 14.25, 1e-3))
    error.forEach((value, k) => expect(value).toBeLessThan(0.05 * without.error[k]!))
  })

  it('counts two deviates of one input together', () => {
    const points = new SobolPoints(3, 1)
    const cases = Array.from({ length: 256 }, (_, k) => deviates(k, points))
    const parts = partsOf(fitted(cases, cases.map(answer)), [2, 1])
    near(parts[0]!, 13.25, 1e-3)
    near(parts[1]!, 1, 1e-3)
  })

  it('has no products where there are too few cases for them', () => {
    const points = new SobolPoints(3, 1)
    const cases = Array.from({ length: 30 }, (_, k) => deviates(k, points))
    expect(fitted(cases, cases.map(answer)).coefficients).toHaveLength(10)
  })

  it('gives no share to anything where the answer does not vary', () => {
    const [sums] = effectSums([1, 1], () => [5], 1, { seed: 1, points: 16, replicates: 4 }, 0, 16)
    expect(effectsOf([sums!])).toEqual({ share: [0, 0], error: [0, 0], variance: 0 })
  })
})
