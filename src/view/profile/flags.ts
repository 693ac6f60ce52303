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
 * Hangs flags so that none covers another, the left ones higher, so that their stems pass beside the lower flags. Texts are shortened
 * where there are too few rows; beyond the last row flags begin again in the first, partly covered.
 *
 * @param flags in any order, all with as many widths
 * @param right px that no flag passes
 * @param rows how many there are, at least 1
 * @returns in the order of `flags`
 */
export function hangFlags(flags: readonly Flag[], right: number, rows: number): HungFlag[] {
  const texts = flags[0]?.widths.length ?? 0
  for (let text = 0; ; text++) {
    const hung = hang(flags, right, text)
    if (text >= texts - 1 || hung.every(({ row }) => row < rows))
      return hung.map((flag) => ({ ...flag, row: flag.row % rows }))
  }
}

function hang(flags: readonly Flag[], right: number, text: number): HungFlag[] {
  const hung = flags.map(({ x, widths }) => ({ left: Math.max(Math.min(x, right - widths[text]!), 0), row: 0, text }))
  const order = flags.map((_, i) => i).sort((a, b) => flags[b]!.x - flags[a]!.x || b - a)
  order.forEach((i, k) => {
    const end = hung[i]!.left + flags[i]!.widths[text]! + gap
    for (const j of order.slice(0, k)) if (hung[j]!.left < end) hung[i]!.row = Math.max(hung[i]!.row, hung[j]!.row + 1)
  })
  return hung
}
