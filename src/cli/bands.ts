import type { Band } from '../model/chance/spread'

/** A band in another unit. */
export const each = ({ low, middle, high }: Band, of: (value: number) => number): Band => ({
  low: of(low),
  middle: of(middle),
  high: of(high),
})

export const pct = (share: number): number => 100 * share
