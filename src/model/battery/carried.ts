import { chemistries, type ChemistryId } from './chemistry'
import { fullVoltage, nominalVoltage, packAt, ratedEnergyWh, type Pack, type PackSpec } from './pack'
import { chargeAfter, wentFlat, type Stored } from './storage'

/** A carried pack: like blocks of cells, all of one kind, some in series, such strings in parallel. */
export interface CarriedSpec {
  chemistry: ChemistryId
  /** Cells in series in one block. */
  blockCells: number
  /** Rated capacity of one block, new. */
  blockAh: number
  blocksInSeries: number
  blocksInParallel: number
  /** Present capacity over rated capacity, above 0, at most 1. */
  health: number
  /** Discharge resistance times capacity of one cell at 25 °C, ohm·Ah. */
  cellResistance: number
  /** Leads, protection board and connector of one block, ohm. */
  wiringResistance: number
  /** Greatest continuous discharge current of one block, A. */
  dischargeCurrent: number
  /** Voltage under load at which one cell counts as empty, V; that of the chemistry where it is not given. */
  lowestCellVoltage?: number | undefined
  /** Mass of one block, kg. */
  blockMass: number
  /** Charge when it was last looked at, 0 to 1. */
  charge: number
  /** Time in store since then, s. */
  storage: number
  /** What the protection board of one block draws in store, A. */
  boardCurrent: number
}

/**
 * A carried pack as one pack: blocks in series add cells, blocks in parallel add capacity and current. It is never charged on the way.
 */
export function carriedPackSpec(spec: CarriedSpec): PackSpec {
  const { blocksInSeries, blocksInParallel } = spec
  return {
    chemistry: spec.chemistry,
    series: spec.blockCells * blocksInSeries,
    capacityAh: spec.blockAh * blocksInParallel,
    health: spec.health,
    floor: 0,
    cellResistance: spec.cellResistance,
    wiringResistance: (spec.wiringResistance * blocksInSeries) / blocksInParallel,
    dischargeCurrent: spec.dischargeCurrent * blocksInParallel,
    chargeCurrent: 0,
  }
}

/**
 * A carried pack at one temperature, its cut-off at the lowest voltage of its cells.
 *
 * @param temperature of the cells, °C
 * @throws RangeError where `carriedFault` finds one, with its code
 */
export function carriedPack(spec: CarriedSpec, temperature: number): Pack {
  const fault = carriedFault(spec)
  if (fault !== undefined) throw new RangeError(`Such a pack cannot be used: ${fault.code}.`)
  return { ...packAt(carriedPackSpec(spec), temperature), cutOffVoltage: carriedFacts(spec).emptyVoltage }
}

/** What is printed beside a carried pack. */
export interface CarriedFacts {
  blocks: number
  /** V. */
  fullVoltage: number
  /** V. */
  nominalVoltage: number
  /** Voltage under load at which it counts as empty, V. */
  emptyVoltage: number
  /** Nominal voltage times rated capacity, of all blocks and of one. */
  ratedWh: number
  blockWh: number
  /** kg. */
  mass: number
}

/** Voltages, rated energy and mass of a carried pack. */
export function carriedFacts(spec: CarriedSpec): CarriedFacts {
  const pack = carriedPackSpec(spec)
  const blocks = spec.blocksInSeries * spec.blocksInParallel
  const ratedWh = ratedEnergyWh(pack)
  return {
    blocks,
    fullVoltage: fullVoltage(pack),
    nominalVoltage: nominalVoltage(pack),
    emptyVoltage: pack.series * (spec.lowestCellVoltage ?? chemistries[spec.chemistry].lowVoltage),
    ratedWh,
    blockWh: ratedWh / blocks,
    mass: spec.blockMass * blocks,
  }
}

/** Each block has a board of its own. */
const blockStored = (spec: CarriedSpec): Stored => ({ ...spec, capacityAh: spec.blockAh })

/** Charge left after the time in store, 0 to 1. */
export const chargeAfterStorage = (spec: CarriedSpec): number => chargeAfter(blockStored(spec))

/** Why a carried pack cannot be used. Voltages of a cell in V. */
export type CarriedFault =
  | { code: 'notWholeBlocks' }
  | { code: 'blockCapacity' }
  | { code: 'blockCurrent' }
  | { code: 'lowestVoltage'; chemistry: ChemistryId; least: number; below: number }
  | { code: 'flatInStore' }

/** Why a carried pack cannot be used; undefined where it can. One that went flat in store is refused. */
export function carriedFault(spec: CarriedSpec): CarriedFault | undefined {
  const { chemistry, lowestCellVoltage: lowest } = spec
  const { hardLowVoltage: least, nominalVoltage: below } = chemistries[chemistry]
  for (const count of [spec.blockCells, spec.blocksInSeries, spec.blocksInParallel])
    if (!(Number.isInteger(count) && count >= 1)) return { code: 'notWholeBlocks' }
  if (!(spec.blockAh > 0 && spec.health > 0 && spec.health <= 1)) return { code: 'blockCapacity' }
  if (!(spec.dischargeCurrent > 0)) return { code: 'blockCurrent' }
  if (lowest !== undefined && !(lowest >= least && lowest < below))
    return { code: 'lowestVoltage', chemistry, least, below }
  if (wentFlat(blockStored(spec))) return { code: 'flatInStore' }
  return undefined
}
