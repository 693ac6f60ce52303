import { cellChecks } from './battery-cell'
import { chargeChecks } from './battery-charge'
import { packChecks } from './battery-pack'
import type { ReferenceCheck } from './check'
import { geodesyChecks } from './geodesy'
import { physicsTopics } from './physics'
import { smoothingChecks } from './smoothing-rows'

/** Every check, by topic. */
export const topics: Record<string, ReferenceCheck[]> = {
  Distances: geodesyChecks,
  Smoothing: smoothingChecks,
  ...physicsTopics,
  Cells: cellChecks,
  Packs: packChecks,
  Charging: chargeChecks,
}

/** A check with what came out. */
export interface Measured extends ReferenceCheck {
  topic: string
  figure: number
  difference: number
  /** Difference over tolerance, without sign; at most 1 where the check holds. NaN where ours is no number. */
  share: number
  holds: boolean
}

/** The one place where ours is compared: the gate and the printed table both read this. */
export function measure(topic: string, check: ReferenceCheck): Measured {
  const figure = check.ours()
  const difference = figure - check.expected
  const share = Math.abs(difference) / check.tolerance
  return { ...check, topic, figure, difference, share, holds: share <= 1 }
}

export const measureAll = (): Measured[] =>
  Object.entries(topics).flatMap(([topic, checks]) => checks.map((check) => measure(topic, check)))
