/** A pin's flag: where its pin stands, px, and the widths its text may take, px, the longest text first. */
export interface Flag {
  x: number
  widths: readonly number[]
  /** Of flags in each other's way the lower rank hangs. */
  rank: number
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
 * that finds no room shortens its text, and where that does not help all do. Where none can be shorter the flags of lower rank hang as far as there is
 * room, without their longest text, and the others are left out.
 *
 * @param flags in any order
 * @param right px that no flag passes
 * @param rows how many there are, at least 1
 * @returns in the order of `flags`; undefined for one that is left out
 */
export function hangFlags(flags: readonly Flag[], right: number, rows: number): (HungFlag | undefined)[] {
  const most = Math.max(0, ...flags.map(({ widths }) => widths.length))
  for (let longest = 0; longest < most; longest++) {
    const hung = hangAll(longest, flags, right, rows)
    if (hung !== undefined) return hung
  }
  return hangByRank(flags, right, rows)
}

/**
 * @param longest text that any may have
 * @returns undefined where one finds no room
 */
function hangAll(longest: number, flags: readonly Flag[], right: number, rows: number): HungFlag[] | undefined {
  const hung: HungFlag[] = []
  const order = flags.map((_, i) => i).sort((a, b) => flags[b]!.x - flags[a]!.x || b - a)
  const all = Array.from({ length: rows }, (_, row) => row)
  for (const [k, i] of order.entries()) {
    const { x, widths } = flags[i]!
    const others = order.slice(0, k).map((j) => hung[j]!)
    for (let text = Math.min(longest, widths.length - 1); text < widths.length && hung[i] === undefined; text++) {
      const left = leftOf(x, widths[text]!, right)
      const end = left + widths[text]! + gap
      const taken = others.filter((other) => other.left < end).map(({ row }) => row)
      const level = Math.max(-1, ...taken) + 1
      const row = level < rows ? level : all.find((row) => !taken.includes(row))
      if (row !== undefined) hung[i] = { left, row, text }
    }
    if (hung[i] === undefined) return undefined
  }
  return hung
}

/** No flag covers another, nor does a stem cross one. */
function hangByRank(flags: readonly Flag[], right: number, rows: number): (HungFlag | undefined)[] {
  const hung: (HungFlag | undefined)[] = flags.map(() => undefined)
  const taken: { left: number; end: number; row: number; x: number }[] = []
  const order = flags.map((_, i) => i).sort((a, b) => flags[a]!.rank - flags[b]!.rank || a - b)
  for (const i of order) {
    const { x, widths } = flags[i]!
    for (let text = Math.min(1, widths.length - 1); text < widths.length && hung[i] === undefined; text++) {
      const left = leftOf(x, widths[text]!, right)
      const end = left + widths[text]! + gap
      for (let row = 0; row < rows && hung[i] === undefined; row++) {
        const isFree = taken.every(
          (other) =>
            (other.row !== row || other.end <= left || end <= other.left) &&
            (other.row >= row || x < other.left || x >= other.end) &&
            (other.row <= row || other.x < left || other.x >= end),
        )
        if (!isFree) continue
        hung[i] = { left, row, text }
        taken.push({ left, end, row, x })
      }
    }
  }
  return hung
}

/** Left edge, px, of a flag of some width whose pin stands at `x`: at the pin, or as far left as the right edge asks. */
export const leftOf = (x: number, width: number, right: number) => Math.max(Math.min(x, right - width), 0)
