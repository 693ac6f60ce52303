/** A source of numbers evenly spread over 0 to 1, without 1. */
export type Random = () => number

/**
 * A seeded random source. Each purpose draws from its own stream, so a change in one part of the script leaves the
 * others as they were.
 *
 * @param seed whole number
 * @param purpose what the numbers are for
 * @see Mulberry32, a public-domain generator by T. Ettinger; the stream is picked by the FNV-1a hash
 */
export function makeRandom(seed: number, purpose: string): Random {
  let state = 0x811c9dc5 ^ seed
  for (const character of purpose) state = Math.imul(state ^ character.codePointAt(0)!, 0x01000193)
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

/** A number evenly spread between two bounds. */
export function between(random: Random, low: number, high: number): number {
  return low + (high - low) * random()
}

/** A number of the normal distribution with mean 0 and standard deviation 1 (Box and Muller 1958). */
export function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
}

/**
 * A smooth random curve of mean 0: normal values at even knots, joined by a cubic.
 *
 * @param deviation standard deviation at the knots
 * @param spacing distance between the knots; the curve hardly bends within it
 * @returns the curve, for any place from 0 to `length`, in the unit of `spacing`
 */
export function smoothNoise(
  random: Random,
  deviation: number,
  spacing: number,
  length: number,
): (place: number) => number {
  const knots = Array.from({ length: Math.ceil(length / spacing) + 4 }, () => deviation * normal(random))
  return (place) => {
    const i = Math.floor(place / spacing)
    const t = place / spacing - i
    const [a, b, c, d] = [knots[i]!, knots[i + 1]!, knots[i + 2]!, knots[i + 3]!]
    return b + (t / 2) * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)))
  }
}
