import {
  chargeAtOpenCircuit,
  chemistries,
  openCircuitIntegral,
  openCircuitVoltage,
  type Chemistry,
} from '../../src/model/battery/chemistry'
import { packAt, resistance } from '../../src/model/battery/pack'
import { cellNames, tenSeries } from './battery-packs'
import type { ReferenceCheck } from './check'

const { nmc, lfp } = chemistries

const sunil = 'data to Sunil, Pattipati and Balasingam 2025, IEEE Trans. Instrum. Meas., about C/32'
const chen = 'Chen et al. 2020, J. Electrochem. Soc. 167:080534, equilibrium curve from the published parameters'
const plett = 'data to Plett 2015, Battery Management Systems I, 26650-class LFP cell'
const wiggins = 'Wiggins, Allu and Wang 2019, doi:10.5281/zenodo.2580327, 30 Ah laminate cell'
const pulses = 'open pulse data of three high-nickel 3 Ah 18650 cells, 10 s at 1 C'

/** Open-circuit voltage at 0, 5, ... 100 % of four high-nickel cylindrical cells, V (source: `sunil`). */
const highNickel = [
  [
    2.52, 3.162, 3.304, 3.401, 3.475, 3.521, 3.576, 3.614, 3.644, 3.676, 3.717, 3.765, 3.817, 3.875, 3.92, 3.965, 4.018,
    4.067, 4.092, 4.116, 4.194,
  ],
  [
    2.703, 3.194, 3.35, 3.434, 3.484, 3.539, 3.585, 3.621, 3.654, 3.691, 3.736, 3.783, 3.837, 3.883, 3.92, 3.964, 4.019,
    4.063, 4.083, 4.107, 4.188,
  ],
  [
    2.506, 3.169, 3.334, 3.421, 3.475, 3.529, 3.581, 3.621, 3.656, 3.695, 3.742, 3.79, 3.844, 3.891, 3.926, 3.975,
    4.034, 4.07, 4.08, 4.101, 4.193,
  ],
  [
    2.5, 3.192, 3.355, 3.436, 3.482, 3.542, 3.59, 3.623, 3.655, 3.692, 3.738, 3.786, 3.843, 3.888, 3.923, 3.971, 4.031,
    4.072, 4.085, 4.108, 4.2,
  ],
]

/** The same of the published model (source: `chen`), which is none of the four. */
const chenCurve = [
  2.5, 3.109, 3.296, 3.434, 3.485, 3.529, 3.581, 3.629, 3.667, 3.705, 3.751, 3.798, 3.841, 3.89, 3.948, 3.994, 4.042,
  4.081, 4.097, 4.124, 4.2,
]

/** Charge, percent: 18650 LFP cell (`sunil`), 26650-class LFP cell discharged and charged at C/30 (`plett`), V. */
const lfpCells: [number, number, number, number][] = [
  [5, 3.072, 3.013, 3.062],
  [10, 3.203, 3.162, 3.204],
  [20, 3.241, 3.222, 3.268],
  [30, 3.278, 3.251, 3.309],
  [40, 3.295, 3.283, 3.32],
  [50, 3.299, 3.291, 3.325],
  [60, 3.303, 3.298, 3.336],
  [70, 3.316, 3.311, 3.35],
  [80, 3.337, 3.332, 3.359],
  [90, 3.341, 3.34, 3.364],
  [95, 3.343, 3.353, 3.378],
  [100, 3.598, 3.58, 3.6],
]

/** Largest distance of our curve from a column of one value every 5 %, from a charge up, V. */
function worst(chemistry: Chemistry, column: readonly number[], fromPercent: number): number {
  const distances = column.map((volts, i) => Math.abs(openCircuitVoltage(chemistry, i / 20) - volts))
  return Math.max(...distances.slice(fromPercent / 5))
}

const meanOf = (chemistry: Chemistry, from: number, to: number) =>
  (openCircuitIntegral(chemistry, to) - openCircuitIntegral(chemistry, from)) / (to - from)

const computed = { basis: 'computed from published' } as const
const published = { basis: 'published' } as const

const curves: ReferenceCheck[] = [
  {
    quantity: 'NMC open-circuit curve, largest distance from the mean of four cells at 21 charges',
    source: `mean of four cells: ${sunil}`,
    unit: 'V',
    expected: 0,
    ours: () => {
      const mean = highNickel[0]!.map((_, i) => highNickel.reduce((sum, cell) => sum + cell[i]!, 0) / highNickel.length)
      return worst(nmc, mean, 0)
    },
    tolerance: 0.001,
    ...computed,
  },
  ...['A', 'B', 'C', 'D'].map((name, i): ReferenceCheck => ({
    quantity: `NMC open-circuit curve, largest distance from cell ${name}, 20 to 100 %`,
    source: sunil,
    unit: 'V',
    expected: 0,
    ours: () => worst(nmc, highNickel[i]!, 20),
    tolerance: 0.03,
    ...published,
  })),
  {
    quantity: 'NMC open-circuit curve, largest distance from an independent cell, 20 to 100 %',
    source: chen,
    unit: 'V',
    expected: 0,
    ours: () => worst(nmc, chenCurve, 20),
    tolerance: 0.03,
    ...computed,
  },
  {
    quantity: 'NMC open-circuit voltage at 10 %',
    source: chen,
    unit: 'V',
    expected: 3.296,
    ours: () => openCircuitVoltage(nmc, 0.1),
    tolerance: 0.06,
    ...computed,
  },
  {
    quantity: 'NMC mean open-circuit voltage against an independent cell (19.181 Wh / 5.1532 Ah)',
    source: chen,
    unit: 'V',
    expected: 19.181 / 5.1532,
    ours: () => openCircuitIntegral(nmc, 1),
    tolerance: 0.01,
    ...computed,
  },
  {
    quantity: 'LFP open-circuit curve, largest distance from the mean of two cells at 12 charges',
    source: `${sunil}; charge-discharge mean of ${plett}, C/30`,
    unit: 'V',
    expected: 0,
    ours: () =>
      Math.max(
        ...lfpCells.map(([percent, one, down, up]) =>
          Math.abs(openCircuitVoltage(lfp, percent / 100) - (one + (down + up) / 2) / 2),
        ),
      ),
    tolerance: 0.001,
    ...computed,
  },
]

const means = (
  [
    ['NMC', nmc, 0, 1, 3.7188],
    ['NMC', nmc, 0.1, 0.9, 3.7442],
    ['NMC', nmc, 0.2, 0.8, 3.7461],
    ['LFP', lfp, 0, 1, 3.2715],
    ['LFP', lfp, 0.1, 0.9, 3.2963],
    ['LFP', lfp, 0.2, 0.8, 3.3016],
  ] as const
).map(([name, chemistry, from, to, expected]): ReferenceCheck => ({
  quantity: `${name} mean open-circuit voltage, ${from * 100} to ${to * 100} %`,
  source: 'trapezoid rule on the mean curve of the cells above',
  unit: 'V',
  expected,
  ours: () => meanOf(chemistry, from, to),
  tolerance: 0.0001,
  ...computed,
}))

const inverses = (
  [
    ['NMC', nmc, 3.0, 2.3],
    ['NMC', nmc, 3.3, 8.9],
    ['NMC', nmc, 3.5, 21.9],
    ['NMC', nmc, 3.6, 32.3],
    ['NMC', nmc, 3.7, 46.3],
    ['NMC', nmc, 3.8, 56.8],
    ['NMC', nmc, 3.9, 67.1],
    ['NMC', nmc, 4.0, 77.8],
    ['NMC', nmc, 4.1, 93.3],
    ['LFP', lfp, 2.5, 0.7],
    ['LFP', lfp, 3.0, 4.2],
    ['LFP', lfp, 3.2, 11.5],
    ['LFP', lfp, 3.25, 21.8],
    ['LFP', lfp, 3.3, 42.5],
    ['LFP', lfp, 3.33, 72.5],
    ['LFP', lfp, 3.4, 98.4],
  ] as const
).map(([name, chemistry, volts, expected]): ReferenceCheck => ({
  quantity: `${name} charge at ${volts} V at rest`,
  source: 'read off the mean curve of the cells above, to 0.1 %',
  unit: '%',
  expected,
  ours: () => 100 * chargeAtOpenCircuit(chemistry, volts),
  tolerance: 0.06,
  ...computed,
}))

/** Resistance of a pack of the default cells at a temperature, over that at another. */
function warmth(chemistry: 'nmc' | 'lfp', temperature: number, over: number): number {
  const spec = { ...tenSeries, chemistry, wiringResistance: 0 }
  return packAt(spec, temperature).cellsResistance / packAt(spec, over).cellsResistance
}

const capacityRatio = (temperature: number) => packAt(tenSeries, temperature).capacity / packAt(tenSeries, 25).capacity

const temperatures: ReferenceCheck[] = (
  [
    ['nmc', 10, 25, 3.83 / 2.53, 0.05, `${wiggins}, 30 s`, 'published'],
    ['nmc', 40, 25, 2.33 / 2.53, 0.06, `${wiggins}, 30 s`, 'published'],
    ['nmc', 20, 30, 41.2 / 36.0, 0.03, pulses, 'published'],
    ['nmc', 40, 30, 33.7 / 36.0, 0.03, pulses, 'published'],
    [
      'nmc',
      0,
      25,
      14.0 / 4.93,
      0.5,
      '6 Ah Li-ion resistance tables to Johnson 2002, J. Power Sources 110:321-329 (an older cell)',
      'published',
    ],
    ['lfp', -15, 25, 58.7 / 9.85, 0.01, `${plett}, 1 s`, 'published'],
    ['lfp', -5, 25, 29.0 / 9.85, 0.01, `${plett}, 1 s`, 'published'],
    ['lfp', 0, 25, 2.29, 0.01, `${plett}, 1 s, interpolated`, 'computed from published'],
    ['lfp', 5, 25, 17.5 / 9.85, 0.01, `${plett}, 1 s`, 'published'],
    ['lfp', 35, 25, 8.47 / 9.85, 0.01, `${plett}, 1 s`, 'published'],
  ] as const
).map(([chemistry, temperature, over, expected, tolerance, source, basis]) => ({
  quantity: `${cellNames[chemistry]} resistance at ${temperature} °C over that at ${over} °C`,
  source,
  unit: '1',
  expected,
  ours: () => warmth(chemistry, temperature, over),
  tolerance,
  basis,
}))

const capacities: ReferenceCheck[] = [
  {
    quantity: 'NMC resistance below 15 % of charge over that from 20 to 90 %',
    source: `${pulses}, 20 °C: 58 and 41.2 mΩ`,
    unit: '1',
    expected: 58 / 41.2,
    ours: () => {
      const pack = packAt({ ...tenSeries, wiringResistance: 0 }, 20)
      return resistance(pack, 0.1) / resistance(pack, 0.5)
    },
    tolerance: 0.1,
    ...published,
  },
  {
    quantity: 'capacity at 10 °C over that at 25 °C, low rate',
    source: `${wiggins}, 10 A stepped: 30.26 of 30.48 Ah`,
    unit: '1',
    expected: 30.26 / 30.48,
    ours: () => capacityRatio(10),
    tolerance: 0.001,
    ...published,
  },
  {
    quantity: 'capacity at 5 °C over that at 25 °C, low rate',
    source: `${plett}, C/30`,
    unit: '1',
    expected: 0.991,
    ours: () => capacityRatio(5),
    tolerance: 0.002,
    ...published,
  },
  {
    quantity: 'coulombic efficiency',
    source: `${wiggins}: 29.99 Ah out of 30.04 Ah in`,
    unit: '1',
    expected: 29.99 / 30.04,
    ours: () => nmc.coulombicEfficiency,
    tolerance: 0.001,
    ...published,
  },
]

export const cellChecks: ReferenceCheck[] = [...curves, ...means, ...inverses, ...temperatures, ...capacities]
