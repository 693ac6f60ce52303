/** Cell chemistries: what a pack of each is made of, per cell. Temperatures in °C, charge as a share of the full charge, 0 to 1. */

export type ChemistryId = 'nmc' | 'lfp'

/** Open-circuit voltage over charge, linear between knots, with what makes reading it cheap. Made by `openCircuitCurve`. */
export interface OpenCircuitCurve {
  /** Charge at the knots, ascending from 0 to 1. */
  charge: Float64Array
  /** Voltage at the knots, V, strictly ascending. */
  voltage: Float64Array
  /** Rise of the voltage from each knot to the next, V per unit of charge. */
  slope: Float64Array
  /** Integral of the voltage over charge from 0 to each knot, V. */
  area: Float64Array
  /** First knot at or below each whole percent, so that a look-up starts next to its answer. */
  start: Uint8Array
}

/** A factor by temperature: ascending temperatures, °C, and one factor each. */
export interface FactorByTemperature {
  temperature: Float64Array
  factor: Float64Array
}

export interface Chemistry {
  openCircuit: OpenCircuitCurve
  /** Greatest voltage while charging, V. */
  chargeLimitVoltage: number
  /** Voltage on which a pack is rated, V. */
  nominalVoltage: number
  /** Voltage under load at which the electronics of a bike cut off, V. */
  lowVoltage: number
  /** Voltage at which the protection board opens, V. A cell found below it must not be charged. */
  hardLowVoltage: number
  /** Usual discharge resistance times capacity at 25 °C, ohm·Ah. */
  dischargeResistance: number
  /** Resistance times capacity at 25 °C that reproduces charging and its constant-voltage taper, ohm·Ah. */
  chargeResistance: number
  /** Discharge resistance over its value at 25 °C, interpolated in its logarithm, held beyond the ends. */
  resistanceByTemperature: FactorByTemperature
  /** Factor on the discharge resistance at a charge of `lowChargeBelow` and less, falling to 1 at `lowChargeAbove`. */
  lowChargeFactor: number
  lowChargeBelow: number
  lowChargeAbove: number
  /** Charge that can be drawn at a low rate over that at 25 °C. What resistance takes in the cold is not in it. */
  capacityByTemperature: FactorByTemperature
  /** Charge that comes out over charge that went in. */
  coulombicEfficiency: number
  /** Greatest charging current over rated Ah, 1/h, where a pack's maker states none. */
  chargeRate: number
  /** Charging ends when the current at constant voltage has fallen to this share of the rated Ah, 1/h. */
  endRate: number
  /** Greatest charging current over rated Ah, 1/h, below each temperature, coldest first. */
  coldRates: readonly { below: number; rate: number }[]
  /** Charging is refused below this temperature, °C: lithium plates on the anode. */
  leastChargeTemperature: number
  /** Charging is refused above this temperature, °C. */
  mostChargeTemperature: number
}

/**
 * Open-circuit curve from a table.
 *
 * @param percent charge at each entry, percent, ascending from 0 to 100
 * @param voltage open-circuit voltage of one cell at each entry, V, strictly ascending; at most 256 entries
 * @throws RangeError where the table does not run from 0 to 100 or does not ascend
 */
export function openCircuitCurve(percent: readonly number[], voltage: readonly number[]): OpenCircuitCurve {
  const n = percent.length
  if (n < 2 || n > 256 || voltage.length !== n || percent[0] !== 0 || percent[n - 1] !== 100) {
    throw new RangeError('An open-circuit table needs 2 to 256 pairs, from 0 to 100 percent.')
  }
  const charge = Float64Array.from(percent, (p) => p / 100)
  const slope = new Float64Array(n - 1)
  const area = new Float64Array(n)
  for (let k = 0; k < n - 1; k++) {
    const width = charge[k + 1]! - charge[k]!
    const rise = voltage[k + 1]! - voltage[k]!
    if (!(width > 0 && rise > 0)) throw new RangeError(`An open-circuit table must ascend; entry ${k + 1} does not.`)
    slope[k] = rise / width
    area[k + 1] = area[k]! + (width * (voltage[k]! + voltage[k + 1]!)) / 2
  }
  const start = new Uint8Array(101)
  for (let whole = 0, k = 0; whole <= 100; whole++) {
    while (k < n - 2 && percent[k + 1]! <= whole) k++
    start[whole] = k
  }
  return { charge, voltage: Float64Array.from(voltage), slope, area, start }
}

/** Knot at or below a charge, never the last. */
function knotBelow(curve: OpenCircuitCurve, charge: number): number {
  const last = curve.slope.length - 1
  let k = curve.start[(charge * 100) | 0]!
  while (k < last && charge > curve.charge[k + 1]!) k++
  return k
}

/** A charge held within 0 and 1. */
function bounded(charge: number): number {
  return charge <= 0 ? 0 : charge >= 1 ? 1 : charge
}

/** A cell at rest: its open-circuit voltage, V, and the integral of that over charge from 0, V. */
export interface RestingCell {
  voltage: number
  integral: number
}

/**
 * A cell at rest. The voltage is linear in the chemistry's table, the integral exact for it. Allocates nothing.
 *
 * @param chemistry the cell
 * @param charge 0 to 1; held at the ends beyond
 */
export function restAt(chemistry: Chemistry, charge: number, into: RestingCell): void {
  const curve = chemistry.openCircuit
  const z = bounded(charge)
  const k = knotBelow(curve, z)
  const above = z - curve.charge[k]!
  const rise = curve.slope[k]! * above
  const foot = curve.voltage[k]!
  into.voltage = foot + rise
  into.integral = curve.area[k]! + above * (foot + rise / 2)
}

const resting: RestingCell = { voltage: 0, integral: 0 }

/**
 * Open-circuit voltage of one cell, V.
 *
 * @param chemistry the cell
 * @param charge 0 to 1; held at the ends beyond
 */
export function openCircuitVoltage(chemistry: Chemistry, charge: number): number {
  restAt(chemistry, charge, resting)
  return resting.voltage
}

/**
 * Integral of the open-circuit voltage over charge from 0, V: energy of a cell over its charge in coulomb.
 *
 * @param chemistry the cell
 * @param charge 0 to 1; held at the ends beyond
 */
export function openCircuitIntegral(chemistry: Chemistry, charge: number): number {
  restAt(chemistry, charge, resting)
  return resting.integral
}

/**
 * Charge at which a cell rests at a voltage, 0 to 1: 0 below the table and 1 above it. On the flat part of an LFP curve a few
 * millivolts move it by tens of percent, so it is no way to measure the charge of such a pack.
 *
 * @param chemistry the cell
 * @param voltage open-circuit voltage of one cell, V
 */
export function chargeAtOpenCircuit(chemistry: Chemistry, voltage: number): number {
  const curve = chemistry.openCircuit
  const last = curve.slope.length
  if (voltage <= curve.voltage[0]!) return 0
  if (voltage >= curve.voltage[last]!) return 1
  let k = 0
  while (voltage > curve.voltage[k + 1]!) k++
  return curve.charge[k]! + (voltage - curve.voltage[k]!) / curve.slope[k]!
}

function byTemperature(pairs: readonly (readonly [number, number])[]): FactorByTemperature {
  return {
    temperature: Float64Array.from(pairs, (pair) => pair[0]),
    factor: Float64Array.from(pairs, (pair) => pair[1]),
  }
}

const tablePercent = [0, 1, 2, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 98, 99, 100]

/**
 * Factor at low rate. 25 and 10 °C: Wiggins, Allu and Wang 2019, doi:10.5281/zenodo.2580327. 5 °C: data to Plett, Battery Management
 * Systems I, 2015, a 26650-class LFP cell at C/30. 0 °C and below: judgement, since published low-rate losses are a few percent and
 * the rest of a cold pack's loss is its resistance, which is counted apart.
 */
const capacityByTemperature = byTemperature([
  [-20, 0.85],
  [-10, 0.93],
  [0, 0.97],
  [5, 0.99],
  [10, 0.993],
  [25, 1],
])

/** What both chemistries share. */
const common = {
  // 10 s pulses of a high-nickel 18650 cell at 20 °C (open data set of three cells): 41 mΩ from 20 to 90 % of charge, 58 mΩ below 15 %.
  // Taken over for LFP by judgement.
  lowChargeFactor: 1.5,
  lowChargeBelow: 0.15,
  lowChargeAbove: 0.2,
  capacityByTemperature,
  // Wiggins, Allu and Wang 2019 (29.99 of 30.04 Ah) and data to Plett 2015 (0.9962 to 0.9987); range 0.995 to 1.
  coulombicEfficiency: 0.998,
  // Usual advice of cell data sheets where the maker does not allow more.
  chargeRate: 0.5,
  // Cell data sheets; 0.02 to 0.05 occur.
  endRate: 0.05,
  // Data sheets of cells and packs: 0.1 C below 5 °C, 0.2 C from there. Reason: plating, Petzl and Danzer 2014, J. Power Sources 254:80-87.
  coldRates: [
    { below: 5, rate: 0.1 },
    { below: 10, rate: 0.2 },
  ],
  leastChargeTemperature: 0,
  mostChargeTemperature: 45,
} as const

export const chemistries: Readonly<Record<ChemistryId, Chemistry>> = {
  nmc: {
    ...common,
    // Mean of four high-nickel cylindrical cells at about C/32, room temperature: data to Sunil, Pattipati and Balasingam 2025, IEEE
    // Trans. Instrum. Meas. Their spread is 26 mV from 20 to 100 %, 51 mV at 10 %.
    openCircuit: openCircuitCurve(
      tablePercent,
      [
        2.557, 2.855, 2.983, 3.179, 3.336, 3.423, 3.479, 3.533, 3.583, 3.62, 3.652, 3.689, 3.733, 3.781, 3.835, 3.884,
        3.922, 3.969, 4.025, 4.068, 4.085, 4.108, 4.143, 4.163, 4.194,
      ],
    ),
    // Cell data sheets.
    chargeLimitVoltage: 4.2,
    nominalVoltage: 3.6,
    lowVoltage: 3,
    hardLowVoltage: 2.5,
    // Mean-voltage resistance of a whole 1 C discharge: 0.124 (12.5 Ah pouch), 0.131 (3 Ah 18650), from open discharge data. Large laminate
    // cells have about 0.08.
    dischargeResistance: 0.13,
    // Fits the charge times on data sheets of 21700 energy cells; power cells 0.2, laminate 0.09 to 0.15. Larger than the discharge value
    // because slow diffusion is imitated by a resistance.
    chargeResistance: 0.4,
    // 10 to 40 °C: Wiggins, Allu and Wang 2019, and 10 s pulses of a high-nickel 18650. 0 °C between the LFP value and 2.84 (6 Ah Li-ion tables
    // used by Johnson 2002, J. Power Sources 110:321-329). Below 0 °C by analogy with LFP.
    resistanceByTemperature: byTemperature([
      [-20, 6],
      [-10, 3.7],
      [0, 2.4],
      [5, 1.8],
      [10, 1.5],
      [15, 1.27],
      [20, 1.08],
      [25, 1],
      [30, 0.93],
      [40, 0.87],
    ]),
  },
  lfp: {
    ...common,
    // Mean of an 18650 power cell (data to Sunil, Pattipati and Balasingam 2025) and the charge-discharge mean of a 26650-class cell at C/30
    // (data to Plett 2015). The charge and discharge curves lie 39 mV apart, which is not modelled.
    openCircuit: openCircuitCurve(
      tablePercent,
      [
        2.085, 2.714, 2.859, 3.055, 3.193, 3.217, 3.243, 3.263, 3.279, 3.29, 3.298, 3.302, 3.304, 3.306, 3.31, 3.315,
        3.323, 3.337, 3.341, 3.344, 3.346, 3.354, 3.383, 3.421, 3.594,
      ],
    ),
    // Cell data sheets.
    chargeLimitVoltage: 3.65,
    nominalVoltage: 3.2,
    lowVoltage: 2.5,
    hardLowVoltage: 2,
    // Mean-voltage resistance of a 2 Ah 18650 at 1 C, open discharge data (0.20 at C/2, 0.13 at 2 C). Power cells 0.02 to 0.03; large prismatic
    // cells about 0.06 by judgement.
    dischargeResistance: 0.16,
    // Judgement: no measured LFP charge with times was found.
    chargeResistance: 0.3,
    // 1 s steps of a 26650-class cell: data to Plett 2015.
    resistanceByTemperature: byTemperature([
      [-25, 12.4],
      [-15, 5.96],
      [-5, 2.95],
      [5, 1.77],
      [15, 1.25],
      [25, 1],
      [35, 0.86],
      [45, 0.77],
    ]),
  },
}
