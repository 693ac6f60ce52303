/** A symmetric matrix, row by row. */
export type Matrix = number[][]

/**
 * Inverse of a symmetric positive definite matrix, through its Cholesky factor.
 *
 * @throws RangeError if it is not positive definite
 * @see Golub and Van Loan, Matrix Computations, algorithm 4.2.1
 */
export function inverse(matrix: Matrix): Matrix {
  const factor = cholesky(matrix)
  return matrix.map((_, k) =>
    solved(
      factor,
      matrix.map((_, i) => (i === k ? 1 : 0)),
    ),
  )
}

/** Solution x of A x = b for a symmetric positive definite A. @throws RangeError if it is not positive definite */
export const solve = (matrix: Matrix, right: readonly number[]): number[] => solved(cholesky(matrix), right)

/**
 * The lower triangle L with A = L Lᵀ: normal numbers become ones with the covariance A.
 *
 * @throws RangeError if A is not positive definite
 */
export function cholesky(matrix: Matrix): Matrix {
  const n = matrix.length
  const factor: Matrix = matrix.map(() => Array<number>(n).fill(0))
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i]![j]!
      for (let k = 0; k < j; k++) sum -= factor[i]![k]! * factor[j]![k]!
      if (i === j && !(sum > 0)) throw new RangeError('The matrix is not positive definite.')
      factor[i]![j] = i === j ? Math.sqrt(sum) : sum / factor[j]![j]!
    }
  return factor
}

function solved(factor: Matrix, right: readonly number[]): number[] {
  const n = factor.length
  const x = right.slice()
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= factor[i]![k]! * x[k]!
    x[i]! /= factor[i]![i]!
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= factor[k]![i]! * x[k]!
    x[i]! /= factor[i]![i]!
  }
  return x
}
