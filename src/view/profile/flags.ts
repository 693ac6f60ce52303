/** A pin's flag: where its pin stands and how wide it is, px. */
export interface Flag {
  x: number
  width: number
}

/** Where a flag hangs: its left edge, px, and its row, 0 the nearest to the ribbon. */
export interface HungFlag {
  left: number
  row: number
}

const gap = 4

/**
 * Hangs flags so that none covers another, the left ones higher, so that their stems pass beside the lower flags.
 * Beyond the last row they begin again in the first, partly covered.
 *
 * @param flags in any order
 * @param right px that no flag passes
 * @param rows how many there are, at least 1
 * @returns in the order of `flags`
 */
export function hangFlags(flags: readonly Flag[], right: number, rows: number): HungFlag[] {
  const hung = flags.map(({ x, width }) => ({ left: Math.max(Math.min(x, right - width), 0), row: 0 }))
  const order = flags.map((_, i) => i).sort((a, b) => flags[b]!.x - flags[a]!.x || b - a)
  const level = new Array<number>(flags.length).fill(0)
  order.forEach((i, k) => {
    const end = hung[i]!.left + flags[i]!.width + gap
    for (const j of order.slice(0, k)) if (hung[j]!.left < end) level[i] = Math.max(level[i]!, level[j]! + 1)
    hung[i]!.row = level[i]! % rows
  })
  return hung
}
