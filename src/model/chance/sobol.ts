/**
 * Primitive polynomials, their coefficients as bits from the highest power down, and first direction numbers m₁, m₂, … of the second dimension and on;
 * the first has all numbers 1.
 *
 * @see Joe and Kuo 2008, SIAM J. Sci. Comput. 30:2635-2654, "Constructing Sobol sequences with better two-dimensional projections": their table
 * new-joe-kuo-6.21201, its first rows (© 2008 Frances Y. Kuo and Stephen Joe, BSD licence of three clauses)
 */
const published: readonly (readonly [polynomial: number, first: readonly number[]])[] = [
  [3, [1]],
  [7, [1, 3]],
  [11, [1, 3, 1]],
  [13, [1, 1, 1]],
  [19, [1, 1, 3, 3]],
  [25, [1, 3, 5, 13]],
  [37, [1, 1, 5, 5, 17]],
  [41, [1, 1, 5, 5, 5]],
  [47, [1, 1, 7, 11, 19]],
  [55, [1, 1, 5, 1, 1]],
  [59, [1, 1, 1, 3, 11]],
  [61, [1, 3, 5, 5, 31]],
  [67, [1, 3, 3, 9, 7, 49]],
  [91, [1, 1, 1, 15, 21, 21]],
  [97, [1, 3, 1, 13, 27, 49]],
  [103, [1, 1, 1, 15, 7, 5]],
  [109, [1, 3, 1, 15, 13, 25]],
  [115, [1, 1, 5, 5, 19, 61]],
  [131, [1, 3, 7, 11, 23, 15, 103]],
  [137, [1, 3, 7, 13, 13, 15, 69]],
  [143, [1, 1, 3, 13, 7, 35, 63]],
  [145, [1, 3, 5, 9, 1, 25, 53]],
  [157, [1, 3, 1, 13, 9, 35, 107]],
  [167, [1, 3, 1, 5, 27, 61, 31]],
  [171, [1, 1, 5, 11, 19, 41, 61]],
  [185, [1, 3, 5, 3, 3, 13, 69]],
  [191, [1, 1, 7, 13, 1, 19, 1]],
  [193, [1, 3, 7, 5, 13, 19, 59]],
  [203, [1, 1, 3, 9, 25, 29, 41]],
  [211, [1, 3, 5, 13, 23, 1, 55]],
  [213, [1, 3, 7, 3, 13, 59, 17]],
  [229, [1, 3, 1, 3, 5, 53, 69]],
  [239, [1, 1, 5, 5, 23, 33, 13]],
  [241, [1, 1, 7, 7, 1, 61, 123]],
  [247, [1, 1, 7, 9, 13, 61, 49]],
  [253, [1, 3, 3, 5, 3, 55, 33]],
  [285, [1, 3, 1, 15, 31, 13, 49, 245]],
  [299, [1, 3, 5, 15, 31, 59, 63, 97]],
  [301, [1, 3, 1, 11, 11, 11, 77, 249]],
]

const bits = 32
/** Greatest number of dimensions. */
export const mostDimensions = published.length + 1

/**
 * Direction numbers of a dimension, as fractions of 2³²: the first moves a point by a half.
 *
 * @param dimension from 0
 * @see Sobol 1967, USSR Comput. Maths. Math. Phys. 7:86; the recurrence as in Bratley and Fox 1988, ACM Trans. Math. Softw. 14:88-100
 */
function directionsOf(dimension: number): Uint32Array {
  const [polynomial, first] = dimension === 0 ? [1, []] : published[dimension - 1]!
  const degree = first.length
  const directions = new Uint32Array(bits)
  for (let k = 0; k < bits; k++) {
    if (dimension === 0) directions[k] = 1 << (bits - 1 - k)
    else if (k < degree) directions[k] = first[k]! << (bits - 1 - k)
    else {
      let number = directions[k - degree]! ^ (directions[k - degree]! >>> degree)
      for (let j = 1; j < degree; j++) if ((polynomial >> (degree - j)) & 1) number ^= directions[k - j]!
      directions[k] = number
    }
  }
  return directions
}

/** A number from 0 to 2³² − 1 that looks random, of another; a bijection. Finaliser of MurmurHash3, public domain (from memory). */
function mixed(value: number): number {
  let x = value
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b)
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35)
  return (x ^ (x >>> 16)) >>> 0
}

/** One number of two, as `mixed`. */
export const hashed = (one: number, other: number): number => mixed(mixed(one + 0x9e3779b9) ^ other)

/**
 * Points of Sobol's sequence in the unit cube, in Gray code's order, nested uniform scrambling by a seed: any of them at once, so that those of a range
 * of indices are the same whoever asks for them. Scrambled so, not by a digital shift: then of smooth functions the error of n points falls as
 * n^−3/2, and is never more than a little above that of plain random points; each point alone is uniform, so that means are without bias.
 *
 * Whether a digit is turned depends on all digits before it, by a hash of them in place of a tree of random bits.
 *
 * @see Owen 1995, in Monte Carlo and Quasi-Monte Carlo Methods in Scientific Computing, 299-317; Owen 1997, Ann. Statist. 25:1541-1562
 */
export class SobolPoints {
  private readonly directions: Uint32Array[]
  private readonly seeds: number[]

  /**
   * @param dimensions 1 to `mostDimensions`
   * @param seed of the scrambling, an integer; undefined for the plain sequence, whose first point is the origin
   * @throws RangeError for more dimensions
   */
  constructor(
    readonly dimensions: number,
    seed: number | undefined,
  ) {
    if (!(dimensions <= mostDimensions)) throw new RangeError(`Sobol points have up to ${mostDimensions} dimensions.`)
    this.directions = Array.from({ length: dimensions }, (_, k) => directionsOf(k))
    this.seeds = seed === undefined ? [] : this.directions.map((_, k) => hashed(seed, k))
  }

  /**
   * @param index from 0, below 2³²
   * @param into takes the coordinates, above 0 and below 1 where scrambled
   */
  at(index: number, into: Float64Array): void {
    const gray = index ^ (index >>> 1)
    this.directions.forEach((directions, k) => {
      let x = 0
      for (let left = gray, j = 0; left !== 0; left >>>= 1, j++) if (left & 1) x ^= directions[j]!
      const seed = this.seeds[k]
      into[k] = seed === undefined ? (x >>> 0) / 2 ** bits : (scrambled(x >>> 0, seed) + 0.5) / 2 ** bits
    })
  }
}

/** Digits of a number in base two, each turned or not as the seed and the digits before it say. */
function scrambled(x: number, seed: number): number {
  let y = x
  for (let j = 0; j < bits; j++) {
    // The digits before this one with a 1 ahead of them, so that 0 and 00 differ.
    const before = j === 0 ? 1 : ((x >>> (bits - j)) | (1 << j)) >>> 0
    if (hashed(seed, before) & 1) y ^= 1 << (bits - 1 - j)
  }
  return y >>> 0
}
