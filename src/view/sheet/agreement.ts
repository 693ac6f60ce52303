import { carriedFault, type CarriedFault, type CarriedSpec } from '../../model/battery/carried'
import { converterFault, type ConverterFault } from '../../model/battery/converter'
import { plannedConverter } from '../../model/forecast/sources'
import type { CarriedSource } from '../../model/plan/schema'

/** Why stated figures contradict one another, so that they can't count together: a change of them waits until another one makes it right. */
export type Disagreement = Extract<
  ConverterFault | CarriedFault,
  { code: 'inputRange' | 'outputRange' | 'noOutput' | 'setOutside' | 'lowestVoltage' }
>

const codes: readonly string[] = ['inputRange', 'outputRange', 'noOutput', 'setOutside', 'lowestVoltage']
const isDisagreement = (fault: ConverterFault | CarriedFault): fault is Disagreement => codes.includes(fault.code)
const ofThese = (fault: ConverterFault | CarriedFault | undefined): Disagreement | undefined =>
  fault !== undefined && isDisagreement(fault) ? fault : undefined

/** Where figures of a carried source contradict one another; undefined where they don't. */
export const disagreement = {
  carried: (carried: CarriedSpec) => ofThese(carriedFault(carried)),
  converter: (stated: CarriedSource['converter']) => ofThese(converterFault(plannedConverter(stated))),
}

/**
 * Figures after a change of some: together with those that wait, where they agree then; else without these.
 *
 * @param waiting changes that did not agree when they were made
 */
export function changed<T extends object>(
  stands: T,
  waiting: Partial<T>,
  change: Partial<T>,
  disagree: (figures: T) => Disagreement | undefined,
): T {
  const together = { ...stands, ...waiting, ...change }
  return disagree(together) === undefined ? together : { ...stands, ...change }
}

/** Why a change can't count yet; undefined where it can, and where what stands is no better. */
export function whyWaits<T extends object>(
  ...[stands, waiting, change, disagree]: Parameters<typeof changed<T>>
): Disagreement | undefined {
  if (disagree(stands) !== undefined) return undefined
  return disagree(changed(stands, waiting, change, disagree))
}
