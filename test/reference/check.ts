/** One figure of ours held against one from outside. Gathered by topic, one file a topic; the gate and the printed table read them all. */
export interface ReferenceCheck {
  /** What is held; its samples share the name, and the unit. */
  quantity: string
  /** Which of its samples; empty where there is one alone. */
  sample: string
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

/** All samples of one quantity, and how far they are off. */
export interface Quantity {
  topic: string
  quantity: string
  samples: readonly Measured[]
  /** Unit of the differences: that of the figures, or `%` of them where they differ in size and so in what is allowed. */
  unit: string
  /** Mean of the differences without their signs. */
  mean: number
  /** The greatest difference, with its sign, and the sample that comes closest to its tolerance. */
  most: number
  closest: Measured
  holds: boolean
}

/** The samples of each quantity, by its name with the topic, in the order of the first. */
export function byQuantity<Row extends { topic: string; quantity: string }>(rows: readonly Row[]): Map<string, Row[]> {
  const groups = new Map<string, Row[]>()
  for (const row of rows) {
    const name = `${row.topic}: ${row.quantity}`
    const group = groups.get(name)
    if (group === undefined) groups.set(name, [row])
    else group.push(row)
  }
  return groups
}

/** How far each quantity is off. */
export function quantities(rows: readonly Measured[]): Quantity[] {
  return [...byQuantity(rows).values()].map((samples) => {
    const [first] = samples as [Measured]
    const alike = samples.every(({ tolerance }) => tolerance === first.tolerance)
    const inShares = samples.length > 1 && !alike && samples.every(({ expected }) => expected !== 0)
    const off = samples.map(({ difference, expected }) => (inShares ? (100 * difference) / expected : difference))
    return {
      topic: first.topic,
      quantity: first.quantity,
      samples,
      unit: inShares ? '%' : first.unit,
      mean: off.reduce((sum, one) => sum + Math.abs(one), 0) / off.length,
      most: off.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a)),
      closest: samples.reduce((a, b) => (b.share > a.share ? b : a)),
      holds: samples.every(({ holds }) => holds),
    }
  })
}
