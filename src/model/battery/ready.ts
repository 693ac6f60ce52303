import { checkBlocks, type BlockFault, type MeasuredBlock } from './blocks'
import { buildQuestions, type BuildAnswers, type BuildFuses } from './build'
import type { CarriedSpec } from './carried'
import { openQuestions, type Confirmed } from './confirmed'
import type { PrintedCurrents } from './converter'
import type { FuseProposal } from './fuse'

/** What is open before a lead is built; it is ready when nothing is. */
export interface Readiness {
  confirmed: (keyof Confirmed)[]
  answers: (keyof BuildAnswers)[]
  blocks: BlockFault[]
  /** What the converter bears for hours is not stated, of its input or its output. */
  isPeakOnly: boolean
  /** Where no fuse fits. */
  unfused: Extract<FuseProposal, { code: 'noFuse' }>[]
  /** How many questions there are, and how many have their answer: the blocks are one, where there are several; currents and fuses each are one where they are open. */
  asked: number
  answered: number
}

/** A carried source with what was answered of it. */
type Stated = Confirmed &
  BuildAnswers & { carried: CarriedSpec; converter: PrintedCurrents; blocks: readonly MeasuredBlock[] }

/**
 * What is open before a lead is built.
 *
 * @param fuses that were proposed
 * @param temperature of the cells, °C
 */
export function readinessOf(source: Stated, fuses: BuildFuses, temperature: number): Readiness {
  const { carried, converter } = source
  const confirmed = openQuestions(source)
  const answers = buildQuestions(source, carried)
  const blocks = checkBlocks(carried, source.blocks, temperature)
  const isPeakOnly = converter.inputCurrent === null || converter.outputCurrent === null
  const unfused = Object.values(fuses).filter((fuse) => fuse?.code === 'noFuse')
  const none: Confirmed = { polarityMeasured: false, fullVoltageKnown: false }
  const areSeveral = carried.blocksInSeries * carried.blocksInParallel > 1
  const now = Number(isPeakOnly) + Number(unfused.length > 0)
  const asked = openQuestions(none).length + buildQuestions({}, carried).length + Number(areSeveral) + now
  const open = confirmed.length + answers.length + Number(blocks.length > 0) + now
  return { confirmed, answers, blocks, isPeakOnly, unfused, asked, answered: asked - open }
}
