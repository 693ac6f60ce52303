/**
 * Quantile of equally likely values, straight between them.
 *
 * @param ascending at least one
 * @param share 0 to 1
 * @see Hyndman and Fan 1996, Am. Stat. 50:361-365, definition 7
 */
export function quantile(ascending: ArrayLike<number>, share: number): number {
  const place = share * (ascending.length - 1)
  const below = Math.floor(place)
  const low = ascending[below]!
  return low + (place - below) * ((ascending[Math.min(below + 1, ascending.length - 1)] ?? low) - low)
}

/** The values that one case in ten, half, and nine in ten lie below. */
export interface Band {
  low: number
  middle: number
  high: number
}

/** @param values equally likely, in any order, at least one; left as they are */
export function bandOf(values: Float64Array): Band {
  const ascending = values.slice().sort()
  return { low: quantile(ascending, 0.1), middle: quantile(ascending, 0.5), high: quantile(ascending, 0.9) }
}

/** A mean of days with its standard error. */
export interface Estimate {
  value: number
  error: number
}

/**
 * Mean over days, and its standard error from the means of the replicates, each scrambled on its own.
 *
 * @param days how many
 * @param replicates at least two, of `days / replicates` days each, one behind the other
 * @param of value of a day
 * @see the standard error of randomised quasi-Monte Carlo by independent replicates, Owen 1997, Ann. Statist. 25:1541-1562 (scrambling); from memory
 */
export function meanOf(days: number, replicates: number, of: (day: number) => number): Estimate {
  const each = days / replicates
  const means = Array.from({ length: replicates }, (_, r) => {
    let sum = 0
    for (let k = r * each; k < (r + 1) * each; k++) sum += of(k)
    return sum / each
  })
  const value = means.reduce((sum, mean) => sum + mean, 0) / replicates
  const squares = means.reduce((sum, mean) => sum + (mean - value) ** 2, 0)
  return { value, error: Math.sqrt(squares / (replicates - 1) / replicates) }
}
