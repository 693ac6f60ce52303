import { describe, expect, it } from 'vitest'
import { normalQuantile } from '../../src/model/chance/normal'
import { hashed, mostDimensions, SobolPoints } from '../../src/model/chance/sobol'
import { meanOf, quantile } from '../../src/model/chance/spread'
import { near, within } from '../asserts'
import { seeded } from '../bench/big-gpx'

describe('Sobol points', () => {
  it('are those of Joe and Kuo’s direction numbers, as SciPy 1.17 gives them from the published table', () => {
    const dimensions = [0, 1, 2, 12, 29, 39]
    const published: [index: number, point: number[]][] = [
      [1, [0.5, 0.5, 0.5, 0.5, 0.5, 0.5]],
      [2, [0.75, 0.25, 0.25, 0.25, 0.75, 0.25]],
      [3, [0.25, 0.75, 0.75, 0.75, 0.25, 0.75]],
      [5, [0.875, 0.875, 0.125, 0.875, 0.625, 0.375]],
      [37, [0.921875, 0.640625, 0.578125, 0.578125, 0.109375, 0.078125]],
      [1000, [0.2197265625, 0.0966796875, 0.5185546875, 0.1611328125, 0.3408203125, 0.4794921875]],
      [
        40001,
        [
          0.5245819091796875, 0.9809112548828125, 0.7424774169921875, 0.2594146728515625, 0.5048675537109375,
          0.2976531982421875,
        ],
      ],
    ]
    const points = new SobolPoints(mostDimensions, undefined)
    const point = new Float64Array(mostDimensions)
    for (const [index, expected] of published) {
      points.at(index, point)
      expect(dimensions.map((k) => point[k])).toEqual(expected)
    }
    expect(() => new SobolPoints(mostDimensions + 1, 1)).toThrow(RangeError)
  })

  it('stay a net when scrambled: 256 of them fall one each into 256 slices, and in two dimensions into 16 by 16', () => {
    const points = new SobolPoints(2, 5)
    const point = new Float64Array(2)
    const slices = [new Set<number>(), new Set<number>(), new Set<number>()]
    for (let index = 0; index < 256; index++) {
      points.at(index, point)
      const [x, y] = [point[0]!, point[1]!]
      slices[0]!.add(Math.floor(256 * x))
      slices[1]!.add(Math.floor(256 * y))
      slices[2]!.add(16 * Math.floor(16 * x) + Math.floor(16 * y))
    }
    expect(slices.map(({ size }) => size)).toEqual([256, 256, 256])
  })

  it('are scrambled otherwise by another seed, each digit turned half of the time', () => {
    const seeds = 2000
    const point = new Float64Array(1)
    let turned = 0
    let third = 0
    for (let seed = 0; seed < seeds; seed++) {
      new SobolPoints(1, hashed(7, seed)).at(0, point)
      if (point[0]! >= 0.5) turned++
      if (Math.floor(8 * point[0]!) % 2 === 1) third++
    }
    // Four standard deviations of a fair coin.
    near(turned / seeds, 0.5, 4 * Math.sqrt(0.25 / seeds))
    near(third / seeds, 0.5, 4 * Math.sqrt(0.25 / seeds))
  })
})

describe('the normal quantile', () => {
  it('is that of SciPy 1.17 (Cephes), from the middle to the tails', () => {
    for (const [p, z] of [
      [1e-300, -37.0470962993612],
      [1e-12, -7.034483825301131],
      [0.01, -2.3263478740408408],
      [0.06, -1.5547735945968535],
      [0.075, -1.4395314709384563],
      [0.3, -0.5244005127080409],
      [0.975, 1.959963984540054],
      [0.999999, 4.753424308817087],
    ] as const)
      within(normalQuantile(p), z, 1e-14)
    expect(normalQuantile(0.5)).toBe(0)
  })
})

describe('the sampling error over 200 seeds', () => {
  const weights = [0.5, 0.4, 0.3, 0.2, 0.1, 0.1]
  const squared = weights.reduce((sum, weight) => sum + weight * weight, 0)
  const along = (deviates: ArrayLike<number>) => weights.reduce((sum, weight, k) => sum + weight * deviates[k]!, 0)
  const seeds = 200
  const days = 512
  const replicates = 8

  /** Root mean square error, and mean of the standard error squared, of means over days by the points of a seed. */
  function errors(of: (deviates: Float64Array) => number, exact: number, plain: boolean) {
    let square = 0
    let claimed = 0
    for (let seed = 1; seed <= seeds; seed++) {
      const random = seeded(seed)
      const point = new Float64Array(weights.length)
      const sets = Array.from({ length: replicates }, (_, r) => new SobolPoints(weights.length, hashed(seed, r)))
      const each = days / replicates
      const { value, error } = meanOf(days, replicates, (day) => {
        if (plain) for (let k = 0; k < point.length; k++) point[k] = random() || 0.5
        else sets[Math.floor(day / each)]!.at(day % each, point)
        return of(point.map(normalQuantile))
      })
      square += (value - exact) ** 2 / seeds
      claimed += error ** 2 / seeds
    }
    return { actual: Math.sqrt(square), claimed: Math.sqrt(claimed) }
  }

  it('is under a third of that of plain random points where the answer is smooth, and as large as it says', () => {
    // Mean of a lognormal answer: exp(σ²/2), normal theory.
    const smooth = (deviates: Float64Array) => Math.exp(along(deviates))
    const sobol = errors(smooth, Math.exp(squared / 2), false)
    const random = errors(smooth, Math.exp(squared / 2), true)
    expect(sobol.actual).toBeLessThan(0.33 * random.actual)
    within(sobol.claimed, sobol.actual, 0.25)
    within(random.claimed, random.actual, 0.25)
  })

  it('is two thirds of it or less for a chance', () => {
    // P(a·z < σ) = Φ(1), normal theory.
    const chance = (deviates: Float64Array) => (along(deviates) < Math.sqrt(squared) ? 1 : 0)
    const sobol = errors(chance, 0.8413447460685429, false)
    const random = errors(chance, 0.8413447460685429, true)
    within(random.actual, Math.sqrt((0.8413 * 0.1587) / days), 0.15)
    expect(sobol.actual).toBeLessThan(0.67 * random.actual)
    within(sobol.claimed, sobol.actual, 0.25)
  })
})

describe('a quantile', () => {
  it('lies between values as definition 7 of Hyndman and Fan has it', () => {
    expect([0, 0.1, 0.5, 0.9, 1].map((share) => quantile([1, 2, 4, 8], share))).toEqual([
      1,
      1 + 0.1 * 3,
      3,
      4 + 0.9 * 3 * 4 - 8,
      8,
    ])
  })
})
