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
