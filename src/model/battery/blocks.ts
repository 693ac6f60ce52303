import { blockDifference } from './build'
import { chargeAfterStorage, type CarriedSpec } from './carried'
import { chargeAtOpenCircuit, chemistries } from './chemistry'
import { chargesRestedAt, restedFull } from './rest'

/** A block before it is joined to others; null where it was not measured. */
export interface MeasuredBlock {
  /** At rest, V. */
  voltage: number | null
  /** Since it was made, s. */
  age: number | null
}

/** What is wrong with one block's voltage at rest, by its number from 0. Voltages in V, charges 0 to 1. */
export type RestFault =
  /** Cells so low must not be charged again, nor used. */
  | { code: 'tooLow'; block: number; voltage: number; least: number }
  | { code: 'tooHigh'; block: number; voltage: number; most: number }
  /** Above what a full one shows once it has rested. */
  | { code: 'notRested'; block: number; voltage: number; least: number; most: number }
  /** So flat is the curve there that the voltage does not tell the charge. */
  | { code: 'chargeUntold'; block: number; voltage: number }
  | { code: 'notAsStated'; block: number; voltage: number; charge: number; stated: number }

/** Why blocks must not be joined. */
export type BlockFault =
  | RestFault
  | { code: 'notMeasured'; count: number }
  | { code: 'voltagesDiffer'; blocks: [number, number]; difference: number; most: number }
  | { code: 'agesDiffer'; blocks: [number, number]; difference: number; most: number }

/** Half of what lies between resting voltages after a charge and after a discharge of an LFP cell: 38.6 mV in the middle of its curve (Plett's data, C/30, 25 °C), V. */
const hysteresis = 0.02
/** A cell that is further above the voltage of a full one at rest has not rested. Judgement. */
const mostAbove = 0.06
/** A voltage that leaves the charge open by more than this does not tell it; one that is further from what is stated than this is another charge. Judgement. */
const mostUntold = 0.3
const mostOff = 0.05
/** Ages further apart than a year count as unlike: judgement, by about 2 % of capacity lost a year on the shelf. */
export const mostAgeApart = 365.25 * 86_400

/**
 * What is wrong with a block's voltage at rest beside its chemistry and the charge that is stated; undefined where nothing is.
 *
 * @param block number of it, from 0
 * @param voltage at its terminals, an hour or more after charge or use, V
 */
export function checkRestVoltage(spec: CarriedSpec, block: number, voltage: number): RestFault | undefined {
  const chemistry = chemistries[spec.chemistry]
  const cell = voltage / spec.blockCells
  const [least, most] = [chemistry.hardLowVoltage, chemistry.chargeLimitVoltage].map((each) => each * spec.blockCells)
  if (voltage < least!) return { code: 'tooLow', block, voltage, least: least! }
  if (voltage > most!) return { code: 'tooHigh', block, voltage, most: most! }
  const full = restedFull[spec.chemistry]
  if (cell > full.most + mostAbove) {
    const [least, most] = [full.least * spec.blockCells, full.most * spec.blockCells]
    return { code: 'notRested', block, voltage, least, most }
  }
  const charges = chargesRestedAt(spec.chemistry, cell, hysteresis)
  if (charges.most - charges.least > mostUntold) return { code: 'chargeUntold', block, voltage }
  const stated = chargeAfterStorage(spec)
  if (stated >= charges.least - mostOff && stated <= charges.most + mostOff) return undefined
  return { code: 'notAsStated', block, voltage, charge: chargeAtOpenCircuit(chemistry, cell), stated }
}

/**
 * Why the blocks of a carried pack must not be joined: they are joined only at equal voltage, charge and age. None of a single block.
 *
 * @param measured in order; where there are fewer than blocks, the rest is not measured
 * @param temperature of the cells, °C
 */
export function checkBlocks(spec: CarriedSpec, measured: readonly MeasuredBlock[], temperature: number): BlockFault[] {
  const count = spec.blocksInSeries * spec.blocksInParallel
  if (count < 2) return []
  const blocks = Array.from({ length: count }, (_, k) => measured[k] ?? { voltage: null, age: null })
  const missing = blocks.filter(({ voltage, age }) => voltage === null || age === null).length
  const rest = blocks.flatMap(({ voltage }, k) => (voltage === null ? [] : (checkRestVoltage(spec, k, voltage) ?? [])))
  const most = blockDifference(spec, temperature)
  const voltages = furthest(blocks.map(({ voltage }) => voltage))
  const ages = furthest(blocks.map(({ age }) => age))
  return [
    ...rest,
    ...(voltages.difference > most ? [{ code: 'voltagesDiffer' as const, ...voltages, most }] : []),
    ...(ages.difference > mostAgeApart ? [{ code: 'agesDiffer' as const, ...ages, most: mostAgeApart }] : []),
    ...(missing > 0 ? [{ code: 'notMeasured' as const, count: missing }] : []),
  ]
}

/** The lowest and the highest of some values, null left out, by their places, and how far they are apart. */
function furthest(values: readonly (number | null)[]): { blocks: [number, number]; difference: number } {
  const known = values.flatMap((value, k) => (value === null ? [] : [{ value, k }]))
  const sorted = known.sort((a, b) => a.value - b.value)
  const [low, high] = [sorted[0], sorted.at(-1)]
  if (low === undefined || high === undefined) return { blocks: [0, 0], difference: 0 }
  return { blocks: [low.k, high.k], difference: high.value - low.value }
}
