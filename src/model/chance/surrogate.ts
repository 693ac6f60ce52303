/**
 * A polynomial of independent standard normal deviates that stands in for a ride where many answers are wanted: in orthonormal Hermite polynomials of
 * up to the third degree of each, and products of two. What it explains of the variance follows from its coefficients.
 *
 * @see Sudret 2008, "Global sensitivity analysis using polynomial chaos expansions", Reliab. Eng. Syst. Saf. 93:964-979
 */
export interface Surrogate {
  deviates: number
  coefficients: Float64Array
}

const degrees = 3
/** Products of two are left out where there are fewer cases than this for each term. */
const casesPerTerm = 3

const sizeOf = (deviates: number, products: boolean): number =>
  1 + degrees * deviates + (products ? (deviates * (deviates - 1)) / 2 : 0)

/** Values of all terms at a point: 1, then three degrees of each deviate, then as far as there is room products of two. */
function terms(deviates: ArrayLike<number>, size: number): Float64Array {
  const count = deviates.length
  const values = new Float64Array(size)
  values[0] = 1
  let at = 1
  for (let i = 0; i < count; i++) {
    const z = deviates[i]!
    values[at++] = z
    values[at++] = (z * z - 1) / Math.SQRT2
    values[at++] = (z * z * z - 3 * z) / Math.sqrt(6)
  }
  if (at === size) return values
  for (let i = 0; i < count; i++) for (let j = i + 1; j < count; j++) values[at++] = deviates[i]! * deviates[j]!
  return values
}

/**
 * Fits a surrogate by least squares.
 *
 * @param points deviates of each case, all of one length
 * @param answers one a case
 */
export function fitted(points: readonly ArrayLike<number>[], answers: ArrayLike<number>): Surrogate {
  const deviates = points[0]!.length
  const size = sizeOf(deviates, points.length >= casesPerTerm * sizeOf(deviates, true))
  const rows = points.map((point) => terms(point, size))
  const normal = Array.from({ length: size }, () => new Float64Array(size))
  const right = new Float64Array(size)
  rows.forEach((row, n) => {
    for (let i = 0; i < size; i++) {
      const value = row[i]!
      const into = normal[i]!
      right[i]! += value * answers[n]!
      for (let j = 0; j <= i; j++) into[j]! += value * row[j]!
    }
  })
  // What can't be told apart stays small.
  for (let i = 0; i < size; i++) normal[i]![i]! += 1e-6 * rows.length
  return { deviates, coefficients: solved(normal, right) }
}

/** Solves a symmetric positive definite system by Cholesky's method. @param lower its lower half, which is used up */
function solved(lower: Float64Array[], right: Float64Array): Float64Array {
  const size = right.length
  for (let i = 0; i < size; i++) {
    const row = lower[i]!
    for (let j = 0; j <= i; j++) {
      const other = lower[j]!
      let sum = row[j]!
      for (let k = 0; k < j; k++) sum -= row[k]! * other[k]!
      row[j] = i === j ? Math.sqrt(sum) : sum / other[j]!
    }
  }
  const x = right.slice()
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < i; k++) x[i]! -= lower[i]![k]! * x[k]!
    x[i]! /= lower[i]![i]!
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = i + 1; k < size; k++) x[i]! -= lower[k]![i]! * x[k]!
    x[i]! /= lower[i]![i]!
  }
  return x
}

/** The answer at some deviates. */
export function valueAt({ coefficients }: Surrogate, deviates: ArrayLike<number>): number {
  return terms(deviates, coefficients.length).reduce((sum, term, k) => sum + term * coefficients[k]!, 0)
}

/**
 * Shapley parts of the surrogate's variance: of each term its share goes in equal parts to the inputs in it.
 *
 * @param groups how many deviates each input has, one behind the other
 * @returns one entry an input
 */
export function partsOf({ deviates, coefficients }: Surrogate, groups: readonly number[]): number[] {
  const inputOf = groups.flatMap((size, input) => new Array<number>(size).fill(input))
  const parts = groups.map(() => 0)
  for (let i = 0; i < deviates; i++)
    for (let k = 0; k < degrees; k++) parts[inputOf[i]!]! += coefficients[1 + degrees * i + k]! ** 2
  let at = sizeOf(deviates, false)
  if (at === coefficients.length) return parts
  for (let i = 0; i < deviates; i++)
    for (let j = i + 1; j < deviates; j++) {
      const half = 0.5 * coefficients[at++]! ** 2
      parts[inputOf[i]!]! += half
      parts[inputOf[j]!]! += half
    }
  return parts
}
