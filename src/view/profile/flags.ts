/** A pin's flag: where its pin stands, px, and the widths its text may take, px, the longest text first. */
export interface Flag {
  x: number
  widths: readonly number[]
}

/** Where a flag hangs: its left edge, px, its row, 0 the nearest to the ribbon, and which of its widths it has. */
export interface HungFlag {
  left: number
  row: number
  text: number
}

const gap = 4

/**
 * Hangs flags so that none covers another, the left ones higher, so that their stems pass beside the lower flags. A flag for which there
 * are too few rows shortens its text; where that does not help, it hangs in a lower row again, partly covered.
 *
 * @param flags in any order
 * @param right px that no flag passes
 * @param rows how many there are, at least 1
 * @returns in the order of `flags`
 */
export function hangFlags(flags: readonly Flag[], right: number, rows: number): HungFlag[] {
  const hung: HungFlag[] = flags.map(() => ({ left: 0, row: 0, text: 0 }))
  const order = flags.map((_, i) => i).sort((a, b) => flags[b]!.x - flags[a]!.x || b - a)
  order.forEach((i, k) => {
    const { x, widths } = flags[i]!
    const others = order.slice(0, k).map((j) => hung[j]!)
    for (let text = 0; text < widths.length; text++) {
      const left = Math.max(Math.min(x, right - widths[text]!), 0)
      const end = left + widths[text]! + gap
      const level = others.reduce((level, other) => (other.left < end ? Math.max(level, other.row + 1) : level), 0)
      hung[i] = { left, row: level % rows, text }
      if (level < rows) break
    }
  })
  return hung
}
