/**
 * Penalised least squares smoothing (Whittaker 1923, Proc. Edinburgh Math. Soc. 41:63-75; Eilers 2003, "A perfect smoother", Analytical
 * Chemistry 75:3631-3636), banded, in a time that grows with the number of entries.
 */

/**
 * Values z that minimise Σ w (y − z)² + λ Σ (d-th difference of z)².
 *
 * @param y values on an even grid
 * @param lambda λ, not negative
 * @param order d, 1 or 2
 * @param weights w, one per value, not negative; 1 where absent. At least d of them are positive
 */
export function whittaker(y: Float64Array, lambda: number, order: 1 | 2, weights?: Float64Array): Float64Array {
  const system = new Bands(y.length)
  for (let i = 0; i < y.length; i++) system.observe(i, 0, y[i]!, weights?.[i] ?? 1)
  system.penalise(() => lambda, order)
  return system.solve()
}

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

/** Half-gain wavelength, m: the same everywhere, or by the place, m from the first node. */
export type Wavelength = number | ((place: number) => number)

/**
 * A line over an even grid, straight between its nodes, that minimises Σ w (value − line)² + λ Σ (second difference)²: Whittaker's smoother
 * for observations between the nodes (penalised splines of degree 1; Eilers and Marx 1996, Statistical Science 11:89-121).
 *
 * @param observations at least two, at different places
 * @param wavelength m, of which half the amplitude is kept; longer waves pass, shorter are flattened
 */
export function smoothOver(
  { at, value, weight }: Observations,
  { nodes, spacing }: Grid,
  wavelength: Wavelength,
): Float64Array {
  const system = new Bands(nodes)
  for (let i = 0; i < at.length; i++) {
    const place = at[i]! / spacing
    const node = Math.min(Math.floor(place), nodes - 2)
    system.observe(node, place - node, value[i]!, weight[i]!)
  }
  if (typeof wavelength === 'number') {
    const lambda = strength(wavelength / spacing)
    system.penalise(() => lambda, 2)
  } else {
    system.penalise((node) => strength(wavelength((node + 1) * spacing) / spacing), 2)
  }
  return system.solve()
}

/** λ at which a wave of this many grid steps keeps half its amplitude: gain is 1 / (1 + λ (2 sin(π / steps))⁴). */
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

/** How far each observation lies above the line over the grid. */
function residuals({ at, value }: Observations, line: Float64Array, spacing: number): Float64Array {
  const residual = new Float64Array(at.length)
  for (let i = 0; i < at.length; i++) residual[i] = value[i]! - valueAt(line, at[i]! / spacing)
  return residual
}

/** The line at a place given in grid steps. */
export function valueAt(line: Float64Array, place: number): number {
  const node = Math.min(Math.floor(place), line.length - 2)
  const share = place - node
  return line[node]! * (1 - share) + line[node + 1]! * share
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
export function smoothRobustly(observations: Observations, grid: Grid, wavelength: Wavelength): Float64Array {
  const weight = observations.weight.slice()
  let line = smoothOver(observations, grid, wavelength)
  for (let round = 0; round < ROUNDS; round++) {
    const residual = residuals(observations, line, grid.spacing)
    const limit = TUKEY * Math.max(LEAST_SCALE, medianAbsolute(residual) / 0.6745)
    if (residual.every((r) => Math.abs(r) < 0.25 * limit)) break
    for (let i = 0; i < weight.length; i++) {
      const r = residual[i]! / limit
      // Never quite nought, so that the system stays regular.
      weight[i] = observations.weight[i]! * Math.max(1e-6, Math.abs(r) < 1 ? (1 - r * r) ** 2 : 0)
    }
    line = smoothOver({ ...observations, weight }, grid, wavelength)
  }
  return line
}

/** Median of the sizes; of more than 20,000 values, of an even sample. */
export function medianAbsolute(values: Float64Array): number {
  const stride = Math.ceil(values.length / 20_000) || 1
  const sizes = new Float64Array(Math.ceil(values.length / stride))
  for (let i = 0; i < sizes.length; i++) sizes[i] = Math.abs(values[i * stride]!)
  sizes.sort()
  return sizes[sizes.length >> 1] ?? 0
}

/** A symmetric system of five bands and its right side. */
class Bands {
  private readonly main: Float64Array
  private readonly next: Float64Array
  private readonly far: Float64Array
  private readonly right: Float64Array

  constructor(private readonly n: number) {
    this.main = new Float64Array(n)
    this.next = new Float64Array(n)
    this.far = new Float64Array(n)
    this.right = new Float64Array(n)
  }

  /** Adds a value at a share of the way from a node to the next. */
  observe(node: number, share: number, value: number, weight: number): void {
    const rest = 1 - share
    this.main[node]! += weight * rest * rest
    this.right[node]! += weight * rest * value
    if (share === 0) return
    this.main[node + 1]! += weight * share * share
    this.next[node]! += weight * rest * share
    this.right[node + 1]! += weight * share * value
  }

  /** Adds D'ΛD with λ for each difference, counted by its first node. */
  penalise(lambdaAt: (node: number) => number, order: 1 | 2): void {
    const [a, b, c] = order === 1 ? [1, -1, 0] : [1, -2, 1]
    for (let i = 0; i + order < this.n; i++) {
      const lambda = lambdaAt(i)
      this.main[i]! += lambda * a * a
      this.main[i + 1]! += lambda * b * b
      this.next[i]! += lambda * a * b
      if (order === 1) continue
      this.main[i + 2]! += lambda * c * c
      this.next[i + 1]! += lambda * b * c
      this.far[i]! += lambda * a * c
    }
  }

  /** LDL' without pivoting: the matrix is positive definite. */
  solve(): Float64Array {
    const { n, main, next, far, right } = this
    const l1 = new Float64Array(n)
    const l2 = new Float64Array(n)
    const z = new Float64Array(n)
    // Pivot, factors and right side of the one before and of the one before that.
    let [d1, d2, a1, b1, b2, z1, z2] = [1, 1, 0, 0, 0, 0, 0]
    for (let i = 0; i < n; i++) {
      const d = main[i]! - a1 * a1 * d1 - b2 * b2 * d2
      const forward = right[i]! - a1 * z1 - b2 * z2
      const a = (next[i]! - a1 * d1 * b1) / d
      const b = far[i]! / d
      l1[i] = a
      l2[i] = b
      z[i] = forward / d
      ;[d2, d1, a1, b2, b1, z2, z1] = [d1, d, a, b1, b, z1, forward]
    }
    let [after, afterThat] = [0, 0]
    for (let i = n - 1; i >= 0; i--) {
      const here = z[i]! - l1[i]! * after - l2[i]! * afterThat
      z[i] = here
      ;[afterThat, after] = [after, here]
    }
    return z
  }
}
