import { smoothOver } from '../../src/model/route/smooth'
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

export const smoothingChecks: ReferenceCheck[] = rows.flatMap(({ y, lambda, z, tolerance }) =>
  z.map((expected, i) => ({
    quantity: `smoother, λ ${lambda}, of ${y.join(' ')}: entry ${i + 1}`,
    source: eilers,
    unit: '1',
    expected,
    ours: () => whittaker(Float64Array.from(y), lambda)[i]!,
    tolerance: tolerance ?? 1e-12,
    basis: 'computed from published' as const,
  })),
)
