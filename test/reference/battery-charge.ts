import { createRequire } from 'node:module'
import type { ChargeRun } from '../../src/model/battery/charge'
import type { MainsCharger } from '../../src/model/battery/charger'
import { chemistries, type Chemistry } from '../../src/model/battery/chemistry'
import { packAt, type Pack } from '../../src/model/battery/pack'
import { plainCell, tenSeries, twelveSeriesLfp } from './battery-packs'
import { chargePack } from './charging-parts'
import type { ReferenceCheck } from './check'

/** By its path, since tsx would follow the compiler's `paths` from the bare name to the declarations alone. */
const { Solver } = createRequire(import.meta.url)('odex/src/odex.js') as typeof import('odex')
/** Its `Outcome.Converged`. */
const converged = 0

const charger = (voltage: number, current: number): MainsCharger => ({ voltage, current, efficiency: 0.88 })

/** Time, s, and charge at which the constant voltage takes over. */
function takeover(pack: Pack, from: number, source: MainsCharger): ChargeRun {
  const whole = chargePack(pack, from, source, {})
  return chargePack(pack, from, source, { time: whole.phases[0]!.until })
}

/** Ω·Ah, 1/h, minutes and charge at the takeover, minutes in all, Wh into the pack. */
const vectors: [number, number, number, number, number, number][] = [
  [0.3, 0.15, 394.4, 0.986, 401.4, 375.1],
  [0.3, 0.2, 293.2, 0.9774, 303.2, 376.6],
  [0.3, 0.3, 190.4, 0.9517, 206.5, 379.5],
  [0.3, 0.5, 99.5, 0.8292, 134.7, 384.8],
  [0.3, 1, 40.3, 0.671, 88.5, 396.1],
  [0.4, 0.15, 391.0, 0.9775, 402.0, 375.9],
  [0.4, 0.2, 288.1, 0.9603, 305.0, 377.9],
  [0.4, 0.3, 177.1, 0.8853, 211.5, 381.6],
  [0.4, 0.5, 93.3, 0.7778, 145.2, 388.1],
  [0.4, 1, 34.1, 0.5678, 103.4, 401.6],
  [0.13, 0.5, 116.8, 0.9732, 123.7, 378.2],
  [0.13, 1, 51.4, 0.856, 67.2, 384.3],
]

const euler =
  'explicit Euler at 1 s, computed apart from this code on the mean curve of the cells of Sunil et al. 2025 (LFP: and of Plett 2015)'

/** A chemistry with another charge resistance, giving back all it takes. */
const lossless = (chemistry: Chemistry, chargeResistance: number, endRate = 0.05): Chemistry => ({
  ...chemistry,
  chargeResistance,
  endRate,
  coulombicEfficiency: 1,
})

const regression = vectors.flatMap(([k, rate, takeoverMinutes, share, minutes, wattHours]): ReferenceCheck[] => {
  const pack = packAt({ ...tenSeries, wiringResistance: 0 }, 25, lossless(chemistries.nmc, k))
  const source = charger(42, rate * 10)
  const common = {
    sample: `${k} Ω·Ah, ${rate} C`,
    source: euler,
    basis: 'computed from published',
  } as const
  return [
    {
      ...common,
      quantity: 'charge of 10S 10 Ah NMC: constant voltage from',
      unit: 'min',
      expected: takeoverMinutes,
      ours: () => takeover(pack, 0, source).time / 60,
      tolerance: 0.08,
    },
    {
      ...common,
      quantity: 'charge of 10S 10 Ah NMC: share where constant voltage begins',
      unit: '1',
      expected: share,
      ours: () => takeover(pack, 0, source).charge,
      tolerance: 0.0003,
    },
    {
      ...common,
      quantity: 'charge of 10S 10 Ah NMC: time in all',
      unit: 'min',
      expected: minutes,
      ours: () => chargePack(pack, 0, source, {}).time / 60,
      tolerance: 0.1,
    },
    {
      ...common,
      quantity: 'charge of 10S 10 Ah NMC: energy in',
      unit: 'Wh',
      expected: wattHours,
      ours: () => chargePack(pack, 0, source, {}).delivered / 3600,
      tolerance: 0.1,
    },
  ]
})

const lfpRegression = (
  [
    [0.5, 0.9946, 120.4],
    [1, 0.925, 61.1],
  ] as const
).flatMap(([rate, share, minutes]): ReferenceCheck[] => {
  const pack = packAt({ ...twelveSeriesLfp, wiringResistance: 0 }, 25, lossless(chemistries.lfp, 0.3))
  const source = charger(43.8, rate * 10)
  const common = { source: euler, basis: 'computed from published' } as const
  return [
    {
      ...common,
      quantity: 'charge of 12S 10 Ah LFP: share where constant voltage begins',
      sample: `0.3 Ω·Ah, ${rate} C`,
      unit: '1',
      expected: share,
      ours: () => takeover(pack, 0, source).charge,
      tolerance: 0.0003,
    },
    {
      ...common,
      quantity: 'charge of 12S 10 Ah LFP: time in all',
      sample: `0.3 Ω·Ah, ${rate} C`,
      unit: 'min',
      expected: minutes,
      ours: () => chargePack(pack, 0, source, {}).time / 60,
      tolerance: 0.1,
    },
  ]
})

const sheets: ReferenceCheck[] = (
  [
    [0.5, 0.05, 150, 8],
    [1.2, 0.02, 100, 8],
  ] as const
).map(([rate, endRate, expected, tolerance]) => ({
  quantity: 'charge from empty of an NMC energy cell',
  sample: `${rate} C to an end current of ${endRate} C`,
  source: 'data sheet of a 5 Ah 21700 energy cell',
  unit: 'min',
  expected,
  ours: () => {
    const pack = packAt({ ...tenSeries, wiringResistance: 0 }, 25, { ...chemistries.nmc, endRate })
    return chargePack(pack, 0, charger(42, rate * 10), {}).time / 60
  },
  tolerance,
  basis: 'published',
}))

/**
 * Three measured charges of one 30 Ah laminate cell at 10 A to 4.20 V, then to 0.5 A. The resistance is that of a 30 s pulse at the top of charge at the
 * temperature, the open-circuit voltage the cell's own, extended in a straight line at both ends.
 */
const laminateDepthAh = [-1, 0, 3.19, 6.37, 9.55, 12.73, 15.91, 19.09, 22.27, 25.45, 28.63, 31.5]
const laminateVolts = [4.212, 4.182, 4.086, 4.048, 3.984, 3.949, 3.909, 3.869, 3.802, 3.723, 3.531, 3]
const laminateAh = 32.5

/** °C, mΩ, then s at the takeover, s at 1.5 A, s at 0.5 A, Ah in all, as measured. */
const measured: [number, number, number, number, number, number][] = [
  [10, 4.87, 10379, 11819, 12910, 30.65],
  [25, 3.33, 10559, 11279, 11844, 30.18],
  [40, 2.83, 11039, 11459, 11705, 31.17],
]

function laminate(milliohm: number, endCurrent: number): Pack {
  const percent = laminateDepthAh.map((depth) => (100 * (31.5 - depth)) / laminateAh).reverse()
  const cell = plainCell(percent, [...laminateVolts].reverse(), (milliohm / 1000) * laminateAh)
  const spec = { ...tenSeries, series: 1, capacityAh: laminateAh, wiringResistance: 0 }
  return packAt(spec, 25, { ...cell, endRate: endCurrent / laminateAh })
}

const measuredCharges = measured.flatMap(
  ([celsius, milliohm, takeoverTime, tail, end, ampereHours]): ReferenceCheck[] => {
    const from = (31.5 - ampereHours) / laminateAh
    const source = charger(4.2, 10)
    const common = {
      sample: `${celsius} °C`,
      source: 'Wiggins, Allu and Wang 2019, doi:10.5281/zenodo.2580327',
      basis: 'published',
    } as const
    return [
      {
        ...common,
        quantity: 'measured charge of a 30 Ah laminate cell: constant voltage from',
        unit: 's',
        expected: takeoverTime,
        ours: () => takeover(laminate(milliohm, 0.5), from, source).time,
        tolerance: 0.05 * takeoverTime,
      },
      {
        ...common,
        quantity: 'measured charge of a 30 Ah laminate cell: down to 1.5 A',
        unit: 's',
        expected: tail,
        ours: () => chargePack(laminate(milliohm, 1.5), from, source, {}).time,
        tolerance: 0.05 * tail,
      },
      {
        ...common,
        quantity: 'measured charge of a 30 Ah laminate cell: down to 0.5 A',
        unit: 's',
        expected: end,
        ours: () => chargePack(laminate(milliohm, 0.5), from, source, {}).time,
        tolerance: 0.05 * end,
      },
      {
        ...common,
        quantity: 'measured charge of a 30 Ah laminate cell: charge in all',
        unit: 'Ah',
        expected: ampereHours,
        ours: () => (chargePack(laminate(milliohm, 0.5), from, source, {}).charge - from) * laminateAh,
        tolerance: 0.03 * ampereHours,
      },
    ]
  },
)

/** One charge by our closed form and by a general-purpose extrapolation integrator on the differential equation, its own table look-up. */
const odeCharges = (
  [
    ['10S 14 Ah NMC, 3 A, from 10 %', { ...tenSeries, capacityAh: 14, health: 0.9 }, 0.1, 42, 3],
    ['10S 14 Ah NMC, 8 A, from 40 %', { ...tenSeries, capacityAh: 14 }, 0.4, 42, 8],
    ['12S 10 Ah LFP, 5 A, from 0 %', twelveSeriesLfp, 0, 43.8, 5],
  ] as const
).flatMap(([name, spec, from, volts, amperes]): ReferenceCheck[] => {
  const { chemistry } = spec
  const pack = packAt(spec, 20)
  const run = chargePack(pack, from, charger(volts, amperes), {})
  const [energy, loss, charge] = integrate(pack, chemistries[chemistry], from, volts, amperes, run.time)
  const common = {
    source: 'dz/dt = η min(I, (V − V_oc)/R)/Q by ODEX (Hairer, Nørsett and Wanner 1993), tolerance 1e-9',
    basis: 'computed from published',
  } as const
  return [
    {
      ...common,
      quantity: 'charge from the mains: charge after the same time',
      sample: name,
      unit: '1',
      expected: charge,
      ours: () => run.charge,
      tolerance: 1e-6,
    },
    {
      ...common,
      quantity: 'charge from the mains: energy in, ∫ V I dt',
      sample: name,
      unit: 'Wh',
      expected: energy / 3600,
      ours: () => run.delivered / 3600,
      tolerance: 1e-3,
    },
    {
      ...common,
      quantity: 'charge from the mains: resistive loss, ∫ R I² dt',
      sample: name,
      unit: 'Wh',
      expected: loss / 3600,
      ours: () => run.resistiveLoss / 3600,
      tolerance: 1e-3,
    },
  ]
})

/** Energy in, J, resistive loss, J, and charge after a time, by odex. */
function integrate(
  pack: Pack,
  chemistry: Chemistry,
  from: number,
  volts: number,
  amperes: number,
  time: number,
): [number, number, number] {
  const { charge: at, voltage } = chemistry.openCircuit
  const openCircuit = (z: number) => {
    let k = 0
    while (k < at.length - 2 && z > at[k + 1]!) k++
    return pack.series * (voltage[k]! + ((z - at[k]!) * (voltage[k + 1]! - voltage[k]!)) / (at[k + 1]! - at[k]!))
  }
  const solver = new Solver(3)
  solver.relativeTolerance = 1e-9
  solver.absoluteTolerance = 1e-9
  solver.maxSteps = 100000
  const derivative = (_time: number, [, , z]: number[]) => {
    const rest = openCircuit(z!)
    const current = Math.min(amperes, (volts - rest) / pack.chargeResistance)
    return [
      (rest + current * pack.chargeResistance) * current,
      current * current * pack.chargeResistance,
      (chemistry.coulombicEfficiency * current) / pack.capacity,
    ]
  }
  const solution = solver.solve(derivative, 0, [0, 0, from], time)
  if (solution.outcome !== converged) throw new Error('odex did not converge.')
  return solution.y as [number, number, number]
}

export const chargeChecks: ReferenceCheck[] = [
  ...regression,
  ...lfpRegression,
  ...sheets,
  ...measuredCharges,
  ...odeCharges,
]
