/** One figure of ours held against one from outside. Gathered by topic, one file a topic; the gate and the printed table read them all. */
export interface ReferenceCheck {
  quantity: string
  /** Author, year, DOI or standard; for a figure computed from published ones, how. */
  source: string
  unit: string
  expected: number
  ours: () => number
  /** Greatest difference allowed, in the unit of the figure. */
  tolerance: number
  basis: 'published' | 'computed from published' | 'common practice, no source' | 'from memory'
  /** Why the tolerance is more than a quarter of the figure, where it is. */
  loose?: string
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
