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
 * Hangs flags so that none covers another, the left ones higher where there are rows for it, so that their stems pass beside the lower flags. A flag
 * that finds no room shortens its text, and where that does not help all do; only where none can be shorter one is partly covered.
 *
 * @param flags in any order
 * @param right px that no flag passes
 * @param rows how many there are, at least 1
 * @returns in the order of `flags`
 */
export function hangFlags(flags: readonly Flag[], right: number, rows: number): HungFlag[] {
  const most = Math.max(0, ...flags.map(({ widths }) => widths.length))
  for (let longest = 0; ; longest++) {
    const { hung, isFree } = hangFrom(longest, flags, right, rows)
    if (isFree || longest >= most - 1) return hung
  }
}

/** @param longest text that any may have */
function hangFrom(longest: number, flags: readonly Flag[], right: number, rows: number) {
  const hung: HungFlag[] = flags.map(() => ({ left: 0, row: 0, text: 0 }))
  const order = flags.map((_, i) => i).sort((a, b) => flags[b]!.x - flags[a]!.x || b - a)
  const all = Array.from({ length: rows }, (_, row) => row)
  let isFree = true
  order.forEach((i, k) => {
    const { x, widths } = flags[i]!
    const others = order.slice(0, k).map((j) => hung[j]!)
    for (let text = Math.min(longest, widths.length - 1); text < widths.length; text++) {
      const left = Math.max(Math.min(x, right - widths[text]!), 0)
      const end = left + widths[text]! + gap
      const taken = others.filter((other) => other.left < end).map(({ row }) => row)
      const level = Math.max(-1, ...taken) + 1
      const row = level < rows ? level : all.find((row) => !taken.includes(row))
      hung[i] = { left, row: row ?? level % rows, text }
      if (row !== undefined) return
    }
    isFree = false
  })
  return { hung, isFree }
}
