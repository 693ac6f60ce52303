import { checkBlocks, type MeasuredBlock } from './blocks'
import { buildQuestions, type BuildAnswers } from './build'
import type { CarriedSpec } from './carried'
import { openQuestions, type Confirmed } from './confirmed'

/**
 * How many questions there are before a lead is built, and how many of them have their answer. Whether the blocks are measured and alike is one of them, where
 * there are several.
 *
 * @param source what was answered, and the carried pack with its measured blocks
 * @param temperature of the cells, °C
 */
export function answeredOf(
  source: Confirmed & BuildAnswers & { carried: CarriedSpec; blocks: readonly MeasuredBlock[] },
  temperature: number,
): { asked: number; answered: number } {
  const { carried, blocks } = source
  const none: Confirmed = { polarityMeasured: false, fullVoltageKnown: false }
  const ofBlocks = carried.blocksInSeries * carried.blocksInParallel > 1 ? 1 : 0
  const asked = openQuestions(none).length + buildQuestions({}, carried).length + ofBlocks
  const faults = checkBlocks(carried, blocks, temperature).length
  const open = openQuestions(source).length + buildQuestions(source, carried).length + Math.min(faults, ofBlocks)
  return { asked, answered: asked - open }
}
