import { whittaker } from '../../src/model/route/smooth'
import type { ReferenceCheck } from './check'

/** Values, λ, order of the differences, smoothed values in rational arithmetic. */
const rows: [number[], number, 1 | 2, number[]][] = [
  [[0, 0, 1, 0, 0], 1, 1, [1 / 11, 2 / 11, 5 / 11, 2 / 11, 1 / 11]],
  [[0, 0, 1, 0, 0], 1, 2, [1 / 24, 1 / 4, 5 / 12, 1 / 4, 1 / 24]],
  [[0, 0, 1, 0, 0], 10, 2, [190 / 1131, 80 / 377, 271 / 1131, 80 / 377, 190 / 1131]],
  [[0, 1, 0, 1, 0, 1], 1, 2, [3 / 13, 6 / 13, 6 / 13, 7 / 13, 7 / 13, 10 / 13]],
  [[100, 102, 101, 105, 104], 5, 2, [100.187439, 101.308666, 102.392405, 103.539435, 104.572055]],
]

export const smoothingChecks: ReferenceCheck[] = rows.flatMap(([values, lambda, order, smoothed]) =>
  smoothed.map((expected, i) => ({
    quantity: `smoother on ${values.join(', ')}; λ ${lambda}, order ${order}: entry ${i + 1}`,
    source: 'Whittaker 1923; Eilers 2003, Anal. Chem. 75:3631-3636: (I + λD′D) z = y in rational arithmetic',
    unit: '1',
    expected,
    ours: () => whittaker(Float64Array.from(values), lambda, order)[i]!,
    tolerance: values[0] === 100 ? 1e-6 : 1e-12,
    basis: 'computed from published' as const,
  })),
)
