import { chemistries, openCircuitIntegral, openCircuitVoltage, type Chemistry } from '../../src/model/battery/chemistry'
import { packAt, resistance } from '../../src/model/battery/pack'
import { tenSeries } from './battery-packs'
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

const computed = { basis: 'computed from published' } as const
const published = { basis: 'published' } as const

/** Charge, percent, and voltage of a column of one value every 5 %. */
const everyFive = (column: readonly number[]) => column.map((volts, i) => [5 * i, volts] as const)

/**
 * One cell's curve against ours, a sample a charge. Ours is the mean of the cells, so this says how far a single cell lies from it, not that the table
 * was copied right; the independent cell is none of them.
 */
const curve = (
  quantity: string,
  chemistry: Chemistry,
  cell: string,
  points: readonly (readonly [percent: number, volts: number])[],
  tolerance: number,
  source: string,
  basis: ReferenceCheck['basis'],
): ReferenceCheck[] =>
  points.map(([percent, volts]) => ({
    quantity,
    sample: `${cell}, ${percent} %`,
    source,
    unit: 'V',
    expected: volts,
    ours: () => openCircuitVoltage(chemistry, percent / 100),
    tolerance,
    basis,
  }))

const from = (least: number, points: readonly (readonly [number, number])[]) =>
  points.filter(([percent]) => percent >= least)

const curves: ReferenceCheck[] = [
  ...highNickel.flatMap((column, i) =>
    curve(
      'NMC open-circuit voltage of single cells, 20 to 100 %',
      nmc,
      `cell ${'ABCD'[i]}`,
      from(20, everyFive(column)),
      0.03,
      sunil,
      'published',
    ),
  ),
  ...curve(
    'NMC open-circuit voltage of an independent cell, 20 to 100 %',
    nmc,
    'cell',
    from(20, everyFive(chenCurve)),
    0.03,
    chen,
    'computed from published',
  ),
  ...(['18650', '26650, discharged', '26650, charged'] as const).flatMap((cell, i) =>
    curve(
      'LFP open-circuit voltage of single cells, 10 to 95 %',
      lfp,
      cell,
      lfpCells.filter(([percent]) => percent >= 10 && percent <= 95).map((row) => [row[0], row[i + 1]!] as const),
      0.035,
      i === 0 ? sunil : `${plett}, C/30`,
      'published',
    ),
  ),
  {
    quantity: 'NMC mean open-circuit voltage against an independent cell (19.181 Wh / 5.1532 Ah)',
    sample: '',
    source: chen,
    unit: 'V',
    expected: 19.181 / 5.1532,
    ours: () => openCircuitIntegral(nmc, 1),
    tolerance: 0.01,
    ...computed,
  },
]

/** Resistance of a pack of the default cells at a temperature, over that at another. */
function warmth(chemistry: 'nmc' | 'lfp', temperature: number, over: number): number {
  const spec = { ...tenSeries, chemistry, wiringResistance: 0 }
  return packAt(spec, temperature).cellsResistance / packAt(spec, over).cellsResistance
}

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
  ] as const
).map(([chemistry, temperature, over, expected, tolerance, source, basis]) => ({
  quantity: 'NMC resistance over that at another temperature',
  sample: `${temperature} °C over ${over} °C, ${source.slice(0, source.search(/[ ,]/))}`,
  source,
  unit: '1',
  expected,
  ours: () => warmth(chemistry, temperature, over),
  tolerance,
  basis,
}))

const lowCharge: ReferenceCheck[] = [
  {
    quantity: 'NMC resistance below 15 % of charge over that from 20 to 90 %',
    sample: '',
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
]

export const cellChecks: ReferenceCheck[] = [...curves, ...temperatures, ...lowCharge]
