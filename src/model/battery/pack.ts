import { interpolate } from '../columns'
import type { Stored } from './storage'
import {
  chargeAtOpenCircuit,
  chemistries,
  openCircuitIntegral,
  openCircuitVoltage,
  type Chemistry,
  type ChemistryId,
  type FactorByTemperature,
} from './chemistry'

/** One battery as its label and its rider describe it. */
export interface PackSpec extends Partial<Pick<Stored, 'charge' | 'storage' | 'boardCurrent'>> {
  chemistry: ChemistryId
  /** Cells in series. */
  series: number
  /** Rated, new. */
  capacityAh: number
  /** Present capacity over rated capacity, above 0, at most 1. */
  health: number
  /** Share of charge at which the motor stops, 0 to 1. */
  floor: number
  /** Discharge resistance times capacity of one cell at 25 °C, ohm·Ah. */
  cellResistance: number
  /** Wiring, protection board and connector, ohm. */
  wiringResistance: number
  /** Greatest continuous discharge current, A. */
  dischargeCurrent: number
  /** Greatest charging current, A. */
  chargeCurrent: number
}

/** A pack at one temperature, everything that does not depend on its charge worked out. Never changed after it is made. */
export interface Pack {
  readonly spec: PackSpec
  readonly chemistry: Chemistry
  /** °C. */
  readonly temperature: number
  readonly series: number
  /** Charge between empty and full after health and cold, coulomb. */
  readonly capacity: number
  /** Discharge resistance of the cells above the low-charge region, ohm. */
  readonly cellsResistance: number
  /** Ohm. */
  readonly wiringResistance: number
  /** Resistance of the whole pack while charging, ohm. */
  readonly chargeResistance: number
  /** Voltage under load below which the pack gives nothing, V. */
  readonly cutOffVoltage: number
  /** Greatest discharge current, A. */
  readonly dischargeCurrent: number
  /** Charge at which the motor stops: the set one, or where even at rest the voltage is at its cut-off. */
  readonly floor: number
}

/** Voltage of a full pack, V: cells in series times the charge limit of one. */
export function fullVoltage(spec: PackSpec): number {
  return spec.series * chemistries[spec.chemistry].chargeLimitVoltage
}

/** Voltage on which a pack is rated, V. */
export function nominalVoltage(spec: PackSpec): number {
  return spec.series * chemistries[spec.chemistry].nominalVoltage
}

/** Rated energy, Wh: nominal voltage times rated capacity (IEC 61960). */
export function ratedEnergyWh(spec: PackSpec): number {
  return nominalVoltage(spec) * spec.capacityAh
}

/** Factor at a temperature, interpolated in its logarithm, since resistance follows nearly an Arrhenius law. */
function logInterpolate(table: FactorByTemperature, temperature: number): number {
  return Math.exp(interpolate(table.temperature, table.factor.map(Math.log), temperature))
}

/**
 * A pack at one temperature.
 *
 * The resistance of the cells is k over present Ah: a worn pack has less working cell and so more resistance (R over 1/health), no more
 * than that is assumed about ageing.
 *
 * @param spec the pack; all values finite, `series`, `capacityAh` and `health` above 0, the rest not negative
 * @param temperature of the cells, °C
 * @param chemistry the cells; by default those of the spec's chemistry
 * @throws RangeError where a value is out of its range
 */
export function packAt(spec: PackSpec, temperature: number, chemistry = chemistries[spec.chemistry]): Pack {
  for (const key of ['series', 'capacityAh', 'health'] as const) {
    if (!(spec[key] > 0 && Number.isFinite(spec[key]))) throw new RangeError(`A pack's ${key} must be above 0.`)
  }
  for (const key of ['floor', 'cellResistance', 'wiringResistance', 'dischargeCurrent', 'chargeCurrent'] as const) {
    if (!(spec[key] >= 0 && Number.isFinite(spec[key]))) throw new RangeError(`A pack's ${key} must not be negative.`)
  }
  if (spec.health > 1 || spec.floor > 1) throw new RangeError("A pack's health and floor must be at most 1.")
  if (!Number.isFinite(temperature)) throw new RangeError('The temperature of a pack must be a number.')

  const presentAh = spec.capacityAh * spec.health
  const warmth = logInterpolate(chemistry.resistanceByTemperature, temperature)
  const { temperature: at, factor } = chemistry.capacityByTemperature
  return {
    spec,
    chemistry,
    temperature,
    series: spec.series,
    capacity: 3600 * presentAh * interpolate(at, factor, temperature),
    cellsResistance: ((spec.series * spec.cellResistance) / presentAh) * warmth,
    wiringResistance: spec.wiringResistance,
    chargeResistance: ((spec.series * chemistry.chargeResistance) / presentAh) * warmth + spec.wiringResistance,
    cutOffVoltage: spec.series * chemistry.lowVoltage,
    dischargeCurrent: spec.dischargeCurrent,
    floor: Math.max(spec.floor, chargeAtOpenCircuit(chemistry, chemistry.lowVoltage)),
  }
}

/**
 * Open-circuit voltage of a pack, V.
 *
 * @param charge 0 to 1; held at the ends beyond
 */
export function openCircuit(pack: Pack, charge: number): number {
  return pack.series * openCircuitVoltage(pack.chemistry, charge)
}

/**
 * Resistance of a pack while it is discharged, ohm, wiring included; higher near empty.
 *
 * @param charge 0 to 1
 */
export function resistance(pack: Pack, charge: number): number {
  const { lowChargeFactor, lowChargeBelow, lowChargeAbove } = pack.chemistry
  let factor = 1
  if (charge < lowChargeAbove) {
    const share = charge <= lowChargeBelow ? 1 : (lowChargeAbove - charge) / (lowChargeAbove - lowChargeBelow)
    factor = 1 + (lowChargeFactor - 1) * share
  }
  return pack.cellsResistance * factor + pack.wiringResistance
}

/**
 * Open-circuit energy between two charges, J; negative where `to` is below `from`. Exact for the chemistry's table. What resistance
 * takes on the way out is not taken off.
 *
 * @param from charge, 0 to 1
 * @param to charge, 0 to 1
 */
export function energyBetween(pack: Pack, from: number, to: number): number {
  const { chemistry } = pack
  return pack.series * pack.capacity * (openCircuitIntegral(chemistry, to) - openCircuitIntegral(chemistry, from))
}

/** Open-circuit energy of a pack from its floor to full, J. */
export function usableEnergy(pack: Pack): number {
  return energyBetween(pack, pack.floor, 1)
}

/**
 * Open-circuit energy left above a pack's floor, J; 0 at and below it.
 *
 * @param charge 0 to 1
 */
export function usableLeft(pack: Pack, charge: number): number {
  return charge <= pack.floor ? 0 : energyBetween(pack, pack.floor, charge)
}

/**
 * Greatest current, A, by the current limit, the cut-off voltage under load and V_oc/2 (beyond which more current is less power).
 *
 * @param voltage open-circuit voltage, V
 * @param ohm resistance, ohm
 */
export function mostCurrent(pack: Pack, voltage: number, ohm: number): number {
  const spare = voltage - Math.max(pack.cutOffVoltage, voltage / 2)
  if (!(spare > 0)) return 0
  const limit = pack.dischargeCurrent
  return spare < limit * ohm ? spare / ohm : limit
}

/**
 * Current that gives a power behind a resistance, A: I = 2P / (V_oc + √(V_oc² − 4RP)), the smaller root, without 0/0 at R = 0; beyond V_oc²/4R that of the
 * greatest power.
 *
 * @param voltage open-circuit voltage, V
 * @param ohm resistance, ohm
 * @param power W
 * @see Johnson 2002, J. Power Sources 110:321-329, the Rint model
 */
export function currentAt(voltage: number, ohm: number, power: number): number {
  const root = voltage * voltage - 4 * ohm * power
  return (2 * power) / (voltage + Math.sqrt(root > 0 ? root : 0))
}
