import { cableLoad, cableResistance, resistancePerMetre } from '../../src/model/battery/cable'
import { proposeFuse } from '../../src/model/battery/fuse'
import { airTravel } from '../../src/model/battery/travel'
import type { ReferenceCheck } from './check'

const conductors = (
  [
    [0.5, 39],
    [0.75, 26],
    [1, 19.5],
    [1.5, 13.3],
    [2.5, 7.98],
    [4, 4.95],
    [6, 3.3],
    [10, 1.91],
    [16, 1.21],
  ] as const
).map(([area, ohm]): ReferenceCheck => ({
  quantity: `flexible copper, ${area} mm², 20 °C`,
  source: 'IEC 60228, class 5, plain',
  unit: 'Ω/km',
  expected: ohm,
  ours: () => 1000 * resistancePerMetre(area),
  tolerance: 1e-9,
  basis: 'published',
}))

const warmth = (
  [
    [50, 1.1179],
    [70, 1.1965],
  ] as const
).map(([temperature, expected]): ReferenceCheck => ({
  quantity: `resistance at ${temperature} °C over that at 20 °C`,
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
    source: '2 × length × Ω/km of IEC 60228 class 5, by hand',
    basis: 'computed from published',
  } as const
  const name = `lead of ${length} m, ${areaMm2} mm², ${temperature} °C, ${current} A:`
  return [
    {
      ...common,
      quantity: `${name} there and back`,
      unit: 'mΩ',
      expected: milliohm,
      ours: () => 1000 * load().resistance,
      tolerance: 0.01,
    },
    { ...common, quantity: `${name} drop`, unit: 'V', expected: drop, ours: () => load().drop, tolerance: 5e-5 },
    { ...common, quantity: `${name} loss`, unit: 'W', expected: loss, ours: () => load().loss, tolerance: 1e-4 },
  ]
})

const dropShares = (
  [
    [4, 1.2375],
    [2.5, 1.995],
  ] as const
).map(([areaMm2, expected]): ReferenceCheck => ({
  quantity: `drop of 10 A in 1.5 m of ${areaMm2} mm² on 12 V`,
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
  quantity: `fuse for ${load} A`,
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

/** Rated voltage of the blade fuse for a pack's full voltage, V; 0 where none is. */
const bladeFuses = (
  [
    ['7S NMC', 29.4, 32],
    ['10S NMC', 42, 58],
    ['12S LFP', 43.8, 58],
    ['16S LFP', 58.4, 0],
  ] as const
).map(([name, volts, expected]): ReferenceCheck => ({
  quantity: `rated voltage of the blade fuse on a ${name} pack, 0 if none`,
  source: 'ISO 8820-3: blade fuses are rated 32 V or 58 V',
  unit: 'V',
  expected,
  ours: () => {
    const proposal = proposeFuse(5, 23, volts)
    return proposal.code === 'fuse' ? (proposal.blade ?? 0) : NaN
  },
  tolerance: 1e-9,
  basis: 'computed from published',
}))

/** V, Ah: 0 allowed, 1 with approval, 2 not allowed. */
const travel = (
  [
    [36, 10, 2],
    [38.4, 2.6, 0],
    [38.4, 4, 1],
    [38.4, 4.2, 2],
    [25, 4, 0],
    [40, 4, 1],
    [3.6, 100 / 3.6, 0],
  ] as const
).map(([volts, ampereHours, expected]): ReferenceCheck => ({
  quantity: `by air, ${volts} V × ${ampereHours.toFixed(2)} Ah: 0 allowed, 1 with approval, 2 not`,
  source: 'IATA passenger provisions 2018: up to 100 Wh; up to 160 Wh with approval',
  unit: 'number',
  expected,
  ours: () => ['allowed', 'withApproval', 'notAllowed'].indexOf(airTravel(volts * ampereHours)),
  tolerance: 0.05,
  basis: 'computed from published',
}))

export const cableChecks: ReferenceCheck[] = [
  ...conductors,
  ...warmth,
  ...drops,
  ...dropShares,
  ...fuses,
  ...bladeFuses,
  ...travel,
]
