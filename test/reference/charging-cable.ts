import { cableLoad, cableResistance } from '../../src/model/battery/cable'
import { proposeFuse } from '../../src/model/battery/fuse'
import type { ReferenceCheck } from './check'

const warmth = (
  [
    [50, 1.1179],
    [70, 1.1965],
  ] as const
).map(([temperature, expected]): ReferenceCheck => ({
  quantity: 'resistance of copper over that at 20 °C',
  sample: `${temperature} °C`,
  source: 'IEC 60228: (234.5 + T)/254.5',
  unit: '1',
  expected,
  ours: () =>
    cableResistance({ areaMm2: 1.5, length: 3, temperature }) /
    cableResistance({ areaMm2: 1.5, length: 3, temperature: 20 }),
  tolerance: 5e-5,
  basis: 'computed from published',
}))

/** One way, m, °C, A, mm²; loop mΩ, drop V, loss W, by hand. */
const drops = (
  [
    [2, 20, 5, 2.5, 31.92, 0.1596, 0.798],
    [1.5, 20, 10, 4, 14.85, 0.1485, 1.485],
    [1.5, 20, 10, 2.5, 23.94, 0.2394, 2.394],
    [1, 20, 4, 1.5, 26.6, 0.1064, 0.4256],
    [3, 40, 2, 1, 126.2, 0.2524, 0.5048],
  ] as const
).flatMap(([length, temperature, current, areaMm2, milliohm, drop, loss]): ReferenceCheck[] => {
  const load = () => cableLoad({ areaMm2, length, temperature }, current, 12, 30)
  const common = {
    sample: `${length} m, ${areaMm2} mm², ${temperature} °C, ${current} A`,
    source: '2 × length × Ω/km of IEC 60228 class 5, by hand',
    basis: 'computed from published',
  } as const
  return [
    {
      ...common,
      quantity: 'lead, there and back',
      unit: 'mΩ',
      expected: milliohm,
      ours: () => 1000 * load().resistance,
      tolerance: 0.01,
    },
    { ...common, quantity: 'drop in a lead', unit: 'V', expected: drop, ours: () => load().drop, tolerance: 5e-5 },
    { ...common, quantity: 'loss in a lead', unit: 'W', expected: loss, ours: () => load().loss, tolerance: 1e-4 },
  ]
})

const dropShares = (
  [
    [4, 1.2375],
    [2.5, 1.995],
  ] as const
).map(([areaMm2, expected]): ReferenceCheck => ({
  quantity: 'drop of 10 A in 1.5 m on 12 V',
  sample: `${areaMm2} mm²`,
  source: 'IEC 60228 class 5, by hand',
  unit: '%',
  expected,
  ours: () => 100 * cableLoad({ areaMm2, length: 1.5, temperature: 20 }, 10, 12, 30).dropShare,
  tolerance: 1e-6,
  basis: 'computed from published',
}))

const fuses = (
  [
    [10, 15],
    [4, 5],
    [5, 7.5],
  ] as const
).map(([load, expected]): ReferenceCheck => ({
  quantity: 'fuse for a continuous load',
  sample: `${load} A`,
  source: 'NEC 210.20(A): 1.25 × continuous load; next size of ISO 8820-3',
  unit: 'A',
  expected,
  ours: () => {
    const proposal = proposeFuse(load, 23, 29.2)
    return proposal.code === 'fuse' ? proposal.current : NaN
  },
  tolerance: 1e-9,
  basis: 'computed from published',
}))

export const cableChecks: ReferenceCheck[] = [...warmth, ...drops, ...dropShares, ...fuses]
