import { chemistries, openCircuitCurve, type Chemistry } from '../../src/model/battery/chemistry'
import type { PackSpec } from '../../src/model/battery/pack'

/** A 36 V, 10 Ah pack of the default NMC cells. */
export const tenSeries: PackSpec = {
  chemistry: 'nmc',
  series: 10,
  capacityAh: 10,
  health: 1,
  floor: 0,
  cellResistance: chemistries.nmc.dischargeResistance,
  wiringResistance: 0.03,
  dischargeCurrent: 20,
  chargeCurrent: 100,
}

/** The same of 12 LFP cells. */
export const twelveSeriesLfp: PackSpec = {
  ...tenSeries,
  chemistry: 'lfp',
  series: 12,
  cellResistance: chemistries.lfp.dischargeResistance,
}

/** A cell whose resistance and capacity do not depend on temperature or charge, and which gives back all it takes. */
export function plainCell(percent: readonly number[], voltage: readonly number[], chargeResistance: number): Chemistry {
  return {
    ...chemistries.nmc,
    openCircuit: openCircuitCurve(percent, voltage),
    chargeResistance,
    lowChargeFactor: 1,
    resistanceByTemperature: { temperature: Float64Array.of(25), factor: Float64Array.of(1) },
    capacityByTemperature: { temperature: Float64Array.of(25), factor: Float64Array.of(1) },
    coulombicEfficiency: 1,
  }
}
