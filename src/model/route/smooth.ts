import { placed } from '../columns'

/**
 * Penalised least squares smoothing (Whittaker 1923, Proc. Edinburgh Math. Soc. 41:63-75; Eilers 2003, "A perfect smoother", Analytical
 * Chemistry 75:3631-3636), banded, in a time that grows with the number of entries.
 */

/** Values observed at places that need not lie on the grid. */
export interface Observations {
  /** Places, m from the first node, ascending. */
  at: Float64Array
  value: Float64Array
  /** Not negative; their sum over a grid step is about 1. */
  weight: Float64Array
}

/** An even grid. */
export interface Grid {
  nodes: number
  /** m. */
  spacing: number
}

/**
 * A line over an even grid, straight between its nodes, that minimises Σ w (value − line)² + Σ λ (second difference)²: Whittaker's
 * smoother for observations between the nodes (penalised splines of degree 1; Eilers and Marx 1996, Statistical Science 11:89-121).
 *
 * @param observations at least two, at different places
 * @param lambda λ of each second difference, by its first node, as penalties gives it
 * @returns the line's value at each node
 */
export function smoothOver(observations: Observations, grid: Grid, lambda: Float64Array): Float64Array {
  return sumsOf(observations, grid).solve(lambda)
}

/**
 * The normal sums of observations over a grid, of which lines of any smoothness can be made.
 *
 * @param observations as for smoothOver
 * @param grid the same
 * @param base what is taken off each value first: far from 0 small differences are lost in rounding
 */
export function sumsOf({ at, value, weight }: Observations, { nodes, spacing }: Grid, base = 0): NormalSums {
  const sums = new NormalSums(nodes)
  for (let i = 0; i < at.length; i++) {
    const place = at[i]! / spacing
    const node = Math.min(Math.floor(place), nodes - 2)
    sums.add(node, place - node, value[i]! - base, weight[i]!)
  }
  return sums
}

/**
 * λ for each second difference at which a wave keeps half its amplitude: the gain is 1 / (1 + λ (2 sin(π spacing / wavelength))⁴).
 *
 * @param wavelength half-gain wavelength, m; one for all, or by the place in m from the first node
 */
export function penalties({ nodes, spacing }: Grid, wavelength: number | ((place: number) => number)): Float64Array {
  const lambda = new Float64Array(nodes)
  if (typeof wavelength === 'number') return lambda.fill(strength(wavelength / spacing))
  for (let i = 0; i < nodes; i++) lambda[i] = strength(wavelength((i + 1) * spacing) / spacing)
  return lambda
}

function strength(steps: number): number {
  const chord = steps <= 2 ? 2 : 2 * Math.sin(Math.PI / steps)
  return 1 / (chord * chord * chord * chord)
}

/** Weights that let every metre of the way count the same, however densely it is observed. */
export function weightsByLength(at: Float64Array, spacing: number): Float64Array {
  const n = at.length
  const weight = new Float64Array(n)
  for (let i = 0; i < n; i++) weight[i] = (at[Math.min(i + 1, n - 1)]! - at[Math.max(i - 1, 0)]!) / 2 / spacing
  return weight
}

/** Below this, m, a residual is never taken for an error: roads have crests. */
const LEAST_SCALE = 1
/** Tukey's constant for 95 % efficiency under normal noise (Beaton and Tukey 1974, Technometrics 16:147-185). */
const TUKEY = 4.685
const ROUNDS = 3

/**
 * The same, with observations far from the line counted less and less in a few rounds (iteratively reweighted with Tukey's biweight), so
 * that spikes don't bend it.
 */
export function smoothRobustly(observations: Observations, grid: Grid, lambda: Float64Array): Float64Array {
  const weight = observations.weight.slice()
  let line = smoothOver(observations, grid, lambda)
  for (let round = 0; round < ROUNDS; round++) {
    const residual = residuals(observations, line, grid.spacing)
    const limit = TUKEY * Math.max(LEAST_SCALE, medianAbsolute(residual) / 0.6745)
    if (residual.every((r) => Math.abs(r) < 0.25 * limit)) break
    for (let i = 0; i < weight.length; i++) {
      const r = residual[i]! / limit
      // Never quite nought, so that the system stays regular.
      weight[i] = observations.weight[i]! * Math.max(1e-6, Math.abs(r) < 1 ? (1 - r * r) ** 2 : 0)
    }
    line = smoothOver({ ...observations, weight }, grid, lambda)
  }
  return line
}

/** How far each observation lies above the line over the grid. */
function residuals({ at, value }: Observations, line: Float64Array, spacing: number): Float64Array {
  const residual = new Float64Array(at.length)
  for (let i = 0; i < at.length; i++) {
    const place = at[i]! / spacing
    const node = Math.min(Math.floor(place), line.length - 2)
    residual[i] = value[i]! - line[node]! - (line[node + 1]! - line[node]!) * (place - node)
  }
  return residual
}

/** Median of the sizes; of more than 20,000 values, of an even sample. */
export function medianAbsolute(values: Float64Array): number {
  const stride = Math.ceil(values.length / 20_000) || 1
  const sizes = new Float64Array(Math.ceil(values.length / stride))
  for (let i = 0; i < sizes.length; i++) sizes[i] = Math.abs(values[i * stride]!)
  return placed(sizes, sizes.length >> 1) ?? 0
}

/** The symmetric system of three bands, and its right side, that observations on lines between nodes give: B'WB and B'Wy. */
export class NormalSums {
  private readonly main: Float64Array
  private readonly next: Float64Array
  private readonly right: Float64Array
  /** Factors of the last solution, whose room the next one takes. */
  private readonly l1: Float64Array
  private readonly l2: Float64Array
  private squares = 0

  constructor(private readonly nodes: number) {
    this.main = new Float64Array(nodes)
    this.next = new Float64Array(nodes)
    this.right = new Float64Array(nodes)
    this.l1 = new Float64Array(nodes)
    this.l2 = new Float64Array(nodes)
  }

  /** Adds a value at a share of the way from a node to the next. */
  add(node: number, share: number, value: number, weight: number): void {
    const rest = 1 - share
    this.main[node]! += weight * rest * rest
    this.right[node]! += weight * rest * value
    this.squares += weight * value * value
    if (share === 0) return
    this.main[node + 1]! += weight * share * share
    this.next[node]! += weight * rest * share
    this.right[node + 1]! += weight * share * value
  }

  /** Adds all that another has summed over the same nodes. */
  addAll(other: NormalSums): void {
    this.squares += other.squares
    for (let i = 0; i < this.nodes; i++) {
      this.main[i]! += other.main[i]!
      this.next[i]! += other.next[i]!
      this.right[i]! += other.right[i]!
    }
  }

  /** Σ w (value − line)² of a line over the same nodes, from the sums alone. */
  squaredError(line: Float64Array): number {
    let error = this.squares
    for (let i = 0; i < this.nodes; i++) {
      const z = line[i]!
      error += z * (this.main[i]! * z - 2 * this.right[i]!)
      if (i + 1 < this.nodes) error += 2 * this.next[i]! * z * line[i + 1]!
    }
    return Math.max(0, error)
  }

  /**
   * z of (B'WB + D'ΛD) z = B'Wy, by LDL' without pivoting: the matrix is positive definite.
   *
   * @param lambda one per second difference, by its first node
   */
  solve(lambda: Float64Array): Float64Array {
    const { nodes: n, main, next, right, l1, l2 } = this
    const z = new Float64Array(n)
    // λ, pivots, factors and right side of the row before and of the one before that.
    let lambda1 = 0
    let lambda2 = 0
    let d1 = 1
    let d2 = 1
    let a1 = 0
    let b1 = 0
    let b2 = 0
    let z1 = 0
    let z2 = 0
    for (let i = 0; i < n; i++) {
      const here = i + 2 < n ? lambda[i]! : 0
      // Row of D'ΛD: differences 1 -2 1.
      const diagonal = here + 4 * lambda1 + lambda2
      const beside = -2 * (here + lambda1)
      const d = main[i]! + diagonal - a1 * a1 * d1 - b2 * b2 * d2
      const a = (next[i]! + beside - a1 * d1 * b1) / d
      const b = here / d
      const forward = right[i]! - a1 * z1 - b2 * z2
      l1[i] = a
      l2[i] = b
      z[i] = forward / d
      lambda2 = lambda1
      lambda1 = here
      d2 = d1
      d1 = d
      a1 = a
      b2 = b1
      b1 = b
      z2 = z1
      z1 = forward
    }
    let after = 0
    let afterThat = 0
    for (let i = n - 1; i >= 0; i--) {
      const here = z[i]! - l1[i]! * after - l2[i]! * afterThat
      z[i] = here
      afterThat = after
      after = here
    }
    return z
  }
}
