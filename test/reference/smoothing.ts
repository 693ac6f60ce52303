import { smoothOver } from '../../src/model/route/smooth'
import { seeded } from '../bench/big-gpx'
import type { ReferenceCheck } from './check'

const eilers = 'Eilers 2003, doi:10.1021/ac034173t, (I + λD’D) z = y solved in rational arithmetic'

const rows: { y: number[]; lambda: number; z: number[]; tolerance?: number }[] = [
  { y: [0, 0, 1, 0, 0], lambda: 1, z: [1 / 24, 1 / 4, 5 / 12, 1 / 4, 1 / 24] },
  { y: [0, 0, 1, 0, 0], lambda: 10, z: [190 / 1131, 80 / 377, 271 / 1131, 80 / 377, 190 / 1131] },
  { y: [0, 1, 0, 1, 0, 1], lambda: 1, z: [3 / 13, 6 / 13, 6 / 13, 7 / 13, 7 / 13, 10 / 13] },
  {
    y: [100, 102, 101, 105, 104],
    lambda: 5,
    z: [100.187439, 101.308666, 102.392405, 103.539435, 104.572055],
    tolerance: 5e-7,
  },
]

/** The smoother where values lie on the nodes. @param weight of each value; 1 where absent */
export const whittaker = (value: Float64Array, lambda: number, weight = value.map(() => 1)): Float64Array =>
  smoothOver(
    { at: value.map((_, i) => i), value, weight },
    { nodes: value.length, spacing: 1 },
    value.map(() => lambda),
  )

const byHand = rows.flatMap(({ y, lambda, z, tolerance }): ReferenceCheck[] =>
  z.map((expected, i) => ({
    quantity: 'smoother, small systems by hand',
    sample: `λ ${lambda}, of ${y.join(' ')}: entry ${i + 1}`,
    source: eilers,
    unit: '1',
    expected,
    ours: () => whittaker(Float64Array.from(y), lambda)[i]!,
    tolerance: tolerance ?? 1e-12,
    basis: 'computed from published' as const,
  })),
)

/** z of (W + λD’D) z = W y by Gaussian elimination on the whole matrix. */
function dense(y: readonly number[], weight: readonly number[], lambda: number): number[] {
  const n = y.length
  const rows = y.map((value, i) => [...y.map((_, j) => (i === j ? weight[i]! : 0)), weight[i]! * value])
  for (let k = 0; k + 2 < n; k++)
    for (const [i, a] of [1, -2, 1].entries())
      for (const [j, b] of [1, -2, 1].entries()) rows[k + i]![k + j]! += lambda * a * b
  for (let k = 0; k < n; k++) {
    const pivot = rows.reduce((best, row, i) => (i > k && Math.abs(row[k]!) > Math.abs(rows[best]![k]!) ? i : best), k)
    ;[rows[k], rows[pivot]] = [rows[pivot]!, rows[k]!]
    for (let i = 0; i < n; i++) {
      if (i === k) continue
      const factor = rows[i]![k]! / rows[k]![k]!
      for (let j = k; j <= n; j++) rows[i]![j]! -= factor * rows[k]![j]!
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!)
}

const random = seeded(20)
const series = Array.from({ length: 20 }, (_, k) => ({
  lambda: 10 ** (4 * random() - 1),
  y: Array.from({ length: 30 }, () => 100 * random()),
  weight: Array.from({ length: 30 }, () => (random() < 0.1 ? 0 : random())),
  name: `series ${k + 1}`,
}))

const bySolver = series.flatMap(({ name, y, weight, lambda }) => {
  const solved = dense(y, weight, lambda)
  return y.map((_, i): ReferenceCheck => ({
    quantity: 'smoother, weighted, against elimination on the whole matrix',
    sample: `${name}, λ ${lambda.toPrecision(3)}: entry ${i + 1}`,
    source: 'Eilers 2003, doi:10.1021/ac034173t, (W + λD’D) z = W y; Gaussian elimination, written out in the test',
    unit: '1',
    expected: solved[i]!,
    ours: () => whittaker(Float64Array.from(y), lambda, Float64Array.from(weight))[i]!,
    tolerance: 1e-8,
    basis: 'computed from published',
  }))
})

export const smoothingChecks: ReferenceCheck[] = [...byHand, ...bySolver]
