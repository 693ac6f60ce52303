import { currentAt, openCircuit, packAt, resistance, type Pack, type PackSpec } from '../../src/model/battery/pack'
import { PackState } from '../../src/model/forecast/pack-state'
import { plainCell, tenSeries, twelveSeriesLfp } from './battery-packs'
import type { ReferenceCheck } from './check'

/** A pack that rests at a voltage at half charge and has a resistance, with no limit but the cut-off. */
function rint(voltage: number, ohm: number, cutOff: number): Pack {
  const cell = { ...plainCell([0, 100], [voltage - 0.5, voltage + 0.5], 1), lowVoltage: cutOff }
  const spec: PackSpec = {
    ...tenSeries,
    series: 1,
    cellResistance: ohm * 10,
    wiringResistance: 0,
    dischargeCurrent: 1e9,
  }
  return packAt(spec, 25, cell)
}

/** Heat in a pack at half charge that gives a power for a moment, W. */
function lossOf(pack: Pack, power: number): number {
  const state = new PackState(pack, 0.5, 0, Infinity)
  const time = 1e-3
  state.draw({ power, time, given: 0 })
  return state.loss / time
}

/** Open-circuit voltage, V; resistance, ohm; power, W; current, A; loss, W. */
const rintVectors: [number, number, number, number, number][] = [
  [36, 0.15, 250, 7.157927, 7.6854],
  [36, 0.15, 1000, 32.060627, 154.1826],
  [37.4, 0.16, 500, 14.235994, 32.4262],
  [41.94, 0.13, 250, 6.075303, 4.7982],
  [33.36, 0.13, 250, 7.726653, 7.7612],
  [36, 0.3, 250, 7.400887, 16.4319],
  [39.6, 0.2, 150, 3.863256, 2.9849],
]

const johnson = 'Rint model, Johnson 2002, J. Power Sources 110:321-329; quadratic formula'

const rintChecks = rintVectors.flatMap(([voltage, ohm, power, current, loss]): ReferenceCheck[] => {
  const common = {
    sample: `${voltage} V, ${ohm} Ω, ${power} W`,
    source: johnson,
    basis: 'computed from published',
  } as const
  return [
    {
      ...common,
      quantity: 'current of a pack that gives a power',
      unit: 'A',
      expected: current,
      ours: () => currentAt(voltage, ohm, power),
      tolerance: 1e-6,
    },
    {
      ...common,
      quantity: 'loss in a pack that gives a power',
      unit: 'W',
      expected: loss,
      ours: () => lossOf(rint(voltage, ohm, 0), power),
      tolerance: 1e-4,
    },
  ]
})

const most: ReferenceCheck[] = [
  {
    quantity: 'most power of a pack',
    sample: '36 V, 0.15 Ω: V²/4R',
    source: johnson,
    unit: 'W',
    expected: 2160,
    ours: () => new PackState(rint(36, 0.15, 0), 0.5, 0, Infinity).most,
    tolerance: 1e-6,
    basis: 'computed from published',
  },
  {
    quantity: 'current at the most power, 36 V, 0.15 Ω',
    sample: '',
    source: johnson,
    unit: 'A',
    expected: 120,
    ours: () => currentAt(36, 0.15, 2160),
    tolerance: 1e-4,
    basis: 'computed from published',
  },
  {
    quantity: 'most power of a pack',
    sample: '36 V, 0.15 Ω, cut-off 30 V',
    source: johnson,
    unit: 'W',
    expected: 1200,
    ours: () => new PackState(rint(36, 0.15, 30), 0.5, 0, Infinity).most,
    tolerance: 1e-6,
    basis: 'computed from published',
  },
]

/** Discharge by constant current from full to a terminal voltage: energy, J. */
function discharge(pack: Pack, current: number, endVoltage: number): { energy: number } {
  const time = pack.capacity / current / 2000
  const state = new PackState({ ...pack, cutOffVoltage: 0 }, 1, 0, Infinity)
  let energy = 0
  for (;;) {
    const terminal = openCircuit(pack, state.charge) - current * resistance(pack, state.charge)
    if (terminal <= endVoltage || state.charge <= 0) return { energy }
    const load = { power: terminal * current, time, given: 0 }
    state.draw(load)
    energy += load.given * time
  }
}

const oneCell = packAt({ ...tenSeries, series: 1, capacityAh: 3, wiringResistance: 0 }, 25)
const oneLfp = packAt({ ...twelveSeriesLfp, series: 1, capacityAh: 2, wiringResistance: 0 }, 25)

const discharges: ReferenceCheck[] = [
  {
    quantity: 'energy at 1 C over that at C/10, NMC',
    sample: '',
    source: 'open data of a high-nickel 3 Ah 18650: 10.433 of 10.828 Wh',
    unit: '1',
    expected: 10.433 / 10.828,
    ours: () => discharge(oneCell, 3, 2.5).energy / discharge(oneCell, 0.3, 2.5).energy,
    tolerance: 0.01,
    basis: 'published',
  },
  {
    quantity: 'energy at 2 C over that at C/10, NMC (the cell warms itself, ours does not)',
    sample: '',
    source: 'open data of a high-nickel 3 Ah 18650: 10.104 of 10.828 Wh',
    unit: '1',
    expected: 10.104 / 10.828,
    ours: () => discharge(oneCell, 6, 2.5).energy / discharge(oneCell, 0.3, 2.5).energy,
    tolerance: 0.03,
    basis: 'published',
  },
  {
    quantity: 'energy delivered at 1 C over rated energy, NMC',
    sample: '',
    source: 'open data of a new high-nickel 3 Ah 18650, rated 10.8 Wh',
    unit: '1',
    expected: 10.433 / 10.8,
    ours: () => discharge(oneCell, 3, 2.5).energy / 3600 / 10.8,
    tolerance: 0.03,
    basis: 'published',
  },
  {
    quantity: 'energy at 1 C over that at C/20, LFP (charge lost to rate is not modelled)',
    sample: '',
    source: 'open data of a 2 Ah LFP 18650: 6.024 of 6.750 Wh',
    unit: '1',
    expected: 6.024 / 6.75,
    ours: () => discharge(oneLfp, 2, 2).energy / discharge(oneLfp, 0.1, 2).energy,
    tolerance: 0.06,
    basis: 'published',
  },
]

/** P = I (V − R I) put back: the current that is found must give the power that was asked. */
const balance = [30, 33, 36, 39, 42].flatMap((voltage) =>
  [0.05, 0.1, 0.15, 0.3].flatMap((ohm) =>
    [20, 50, 100, 250, 450, 700].map((power): ReferenceCheck => ({
      quantity: 'power given back by the current of a pack, I (V − R I)',
      sample: `${voltage} V, ${ohm} Ω, ${power} W`,
      source: johnson,
      unit: 'W',
      expected: power,
      ours: () => {
        const current = currentAt(voltage, ohm, power)
        return current * (voltage - ohm * current)
      },
      tolerance: 1e-9 * power,
      basis: 'computed from published',
    })),
  ),
)

export const packChecks: ReferenceCheck[] = [...rintChecks, ...balance, ...most, ...discharges]
