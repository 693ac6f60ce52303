/**
 * Scores of forecasts that say how sure they are.
 *
 * @see Gneiting and Raftery 2007, "Strictly proper scoring rules, prediction, and estimation", J. Am. Stat. Assoc. 102:359-378
 */

/**
 * Continuous ranked probability score of equally likely values, in their unit: the less the better; of one value it is how far that is off.
 *
 * @param ascending at least one
 * @see Gneiting and Raftery 2007, eq. 21: E|X − x| − E|X − X′| / 2
 */
export function crpsOf(ascending: ArrayLike<number>, came: number): number {
  const count = ascending.length
  let [off, apart] = [0, 0]
  for (let k = 0; k < count; k++) {
    off += Math.abs(ascending[k]! - came)
    // Of all pairs the sum of the distances, by how many are below and above each.
    apart += (2 * k + 1 - count) * ascending[k]!
  }
  return off / count - apart / (count * count)
}

/** The same of a normal law, in closed form. @see Gneiting and Raftery 2007, eq. 5, whose score is minus this */
export function crpsOfNormal(mean: number, deviation: number, came: number): number {
  const z = (came - mean) / deviation
  const density = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)
  return deviation * (z * (2 * normalBelow(z) - 1) + 2 * density - 1 / Math.sqrt(Math.PI))
}

/** Share of the standard normal law below a value, to 1.5e-7. @see Abramowitz and Stegun 1964, 7.1.26 */
export function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2
  const t = 1 / (1 + 0.3275911 * x)
  const series = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))))
  const half = 0.5 * series * Math.exp(-x * x)
  return z < 0 ? half : 1 - half
}

/** Where what came lies among equally likely values, 0 to 1: even over many forecasts whose spread is right (probability integral transform). */
export function placeAmong(ascending: ArrayLike<number>, came: number): number {
  let below = 0
  while (below < ascending.length && ascending[below]! < came) below++
  return (below + 0.5) / (ascending.length + 1)
}

/** The interval that holds the share behind k of n with 95 %. @see Wilson 1927, J. Am. Stat. Assoc. 22:209-212 */
export function wilson(k: number, n: number): [low: number, high: number] {
  const z = 1.959964
  const middle = (k + (z * z) / 2) / (n + z * z)
  const half = (z / (n + z * z)) * Math.sqrt((k * (n - k)) / n + (z * z) / 4)
  return [middle - half, middle + half]
}
