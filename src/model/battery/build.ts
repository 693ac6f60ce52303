import { cableRating, type Cable } from './cable'
import { carriedFacts, carriedPackSpec, chargeAfterStorage, type CarriedSpec } from './carried'
import { proposeFuse, type FuseProposal } from './fuse'
import { fullVoltage, packAt, type PackSpec } from './pack'
import { restedVoltage, type VoltageRange } from './rest'

/** What the one who builds a lead must have answered beside polarity and full voltage; absent where it is not. */
export interface BuildAnswers {
  /** The charge limit of the bike's pack was read from its label or charger, not guessed. */
  chargeLimitKnown?: boolean | undefined
  /** It was tried what flows back into the converter while it is off. */
  backFeedTried?: boolean | undefined
  /** All blocks are of one make and kind, and each was charged full before it was measured. */
  blocksAlike?: boolean | undefined
  /** Each block's protection board is rated for the whole string: once open it sees all of its voltage. */
  seriesRated?: boolean | undefined
}

/** Questions that are open of a build; nothing is ready while there is one. Of a single block none of the others are asked. */
export function buildQuestions(
  answers: BuildAnswers,
  { blocksInSeries, blocksInParallel }: Pick<CarriedSpec, 'blocksInSeries' | 'blocksInParallel'>,
): (keyof BuildAnswers)[] {
  const asked: (keyof BuildAnswers)[] = ['chargeLimitKnown', 'backFeedTried']
  if (blocksInSeries * blocksInParallel > 1) asked.push('blocksAlike')
  if (blocksInSeries > 1) asked.push('seriesRated')
  return asked.filter((question) => answers[question] !== true)
}

/** Share of its greatest discharge current that may flow from one block into another when they are joined: a judgement, no source. */
const joiningShare = 0.1

/** What a meter must show before anything is connected, V. */
export interface BuildVoltages {
  /** Of one block that has rested for an hour, at the charge that is stated. */
  block: VoltageRange
  /** Greatest difference between two blocks that are joined: by it no more than a tenth of a block's current flows from one into the other. */
  difference: number
  /** Of the whole carried pack at rest, and at most. */
  source: VoltageRange
  sourceFull: number
  /** Of the bike's pack at rest, and at most. */
  pack: VoltageRange
  packFull: number
}

const oneBlock = (carried: CarriedSpec, temperature: number) =>
  packAt(carriedPackSpec({ ...carried, blocksInSeries: 1, blocksInParallel: 1 }), temperature)

/**
 * Greatest difference of voltage between two blocks that are joined, V: by it no more than a tenth of a block's current flows from one into the other.
 *
 * @param temperature of the cells, °C
 */
export function blockDifference(carried: CarriedSpec, temperature: number): number {
  const block = oneBlock(carried, temperature)
  return 2 * (block.cellsResistance + block.wiringResistance) * joiningShare * carried.dischargeCurrent
}

const inSeries = ({ least, most }: VoltageRange, cells: number): VoltageRange => ({
  least: cells * least,
  most: cells * most,
})

/**
 * What a meter must show before anything is connected.
 *
 * @param charge of the bike's pack, 0 to 1
 * @param temperature of all cells, °C
 * @throws RangeError where a pack's figures are out of range
 */
export function buildVoltages(
  carried: CarriedSpec,
  pack: PackSpec,
  charge: number,
  temperature: number,
): BuildVoltages {
  const cell = restedVoltage(carried.chemistry, chargeAfterStorage(carried))
  return {
    block: inSeries(cell, carried.blockCells),
    difference: blockDifference(carried, temperature),
    source: inSeries(cell, carried.blockCells * carried.blocksInSeries),
    sourceFull: carriedFacts(carried).fullVoltage,
    pack: inSeries(restedVoltage(pack.chemistry, charge), pack.series),
    packFull: fullVoltage(pack),
  }
}

/** Fuses of a build: both packs are sources, so there is one at each end, and one for each string of blocks that stand in parallel. */
export interface BuildFuses {
  source: FuseProposal
  pack: FuseProposal
  /** Undefined where there is one string alone, which the source's fuse protects. */
  string: FuseProposal | undefined
}

/**
 * Fuses for the greatest steady currents of a charge, each at its source's terminal.
 *
 * @param drawn from the carried pack, A
 * @param given to the bike's pack, A
 */
export function buildFuses(
  carried: CarriedSpec,
  pack: PackSpec,
  cables: { sourceCable: Cable; outputCable: Cable },
  drawn: number,
  given: number,
): BuildFuses {
  const { blocksInParallel: strings } = carried
  const full = carriedFacts(carried).fullVoltage
  const rating = cableRating(cables.sourceCable)
  return {
    source: proposeFuse(drawn, rating, full),
    pack: proposeFuse(given, cableRating(cables.outputCable), fullVoltage(pack)),
    string: strings > 1 ? proposeFuse(drawn / strings, rating, full) : undefined,
  }
}
