import { type Grid, NormalSums, penalties, weightsByLength } from './smooth'

/** Half-gain wavelengths that are tried for elevation, m: hills of 500 m keep 97 % at the shortest. */
const SHORTEST = 200
const RATIO = 1.6
const TRIED = 6
/** The best prediction of height is rougher than the best gradient; tried on the profiles of test/reference/smoothing.test.ts. */
const FOR_GRADIENT = 1.4
/** Lengths of the stretches that are left out and predicted from the rest, m. Noise predicts nothing beyond the length over which it lasts. */
const BLOCKS = [200, 500]
const FOLDS = 3
/** Spacing of the grid for the choice, m. */
const NODES = 30
/** Errors of prediction below this, m, don't count. */
const NEGLIGIBLE = 0.1
/** Windows in which the choice is made, m, and the fewest points of one. */
const WINDOW = 12_500
const FEWEST = 50

/** Half-gain wavelength of the elevation smoother along the route. */
export interface Wavelengths {
  /** Ridden distance of the middle of each window, m, ascending. */
  at: Float64Array
  /** m. */
  wavelength: Float64Array
}

/**
 * Half-gain wavelength for the elevation smoother along the route, from the data: in each window the one whose line best predicts
 * stretches that are left out (cross-validation by blocks; Chu and Marron 1991, Annals of Statistics 19:1906-1918, for why by blocks),
 * lengthened a little. So a noisy flat is smoothed more than a hilly stretch.
 *
 * @param at ridden distance of each elevation, m, ascending from 0
 * @param elevation m, all known, one per distance
 */
export function elevationWavelengths(at: Float64Array, elevation: Float64Array): Wavelengths {
  const length = at[at.length - 1]!
  const count = Math.max(1, Math.min(Math.round(length / WINDOW), Math.floor(at.length / FEWEST)))
  const scores: Float64Array[] = []
  for (let k = 0, first = 0; k < count; k++) {
    let last = first
    while (last < at.length && at[last]! <= ((k + 1) * length) / count) last++
    scores.push(scoresOf(at.subarray(first, last), elevation.subarray(first, last)))
    first = last
  }
  return {
    at: Float64Array.from(scores, (_, k) => ((k + 0.5) * length) / count),
    wavelength: Float64Array.from(scores, (own, k) => {
      const before = scores[k - 1] ?? own
      const after = scores[k + 1] ?? own
      return least(own.map((score, i) => score + (before[i]! + after[i]!) / 2))
    }),
  }
}

/** Logarithm of the errors of prediction by each wavelength that is tried. */
function scoresOf(at: Float64Array, elevation: Float64Array): Float64Array {
  const scores = new Float64Array(TRIED)
  if (at.length < 8) return scores
  for (const block of BLOCKS) {
    const folds = foldsOf(at, elevation, block)
    for (let k = 0; k < TRIED; k++) scores[k]! += logOfError(folds, SHORTEST * RATIO ** k)
  }
  return scores
}

/** The wavelength at the least score, lengthened a little unless it is the first or the last that is tried. */
function least(scores: Float64Array): number {
  const index = lowest(scores)
  return SHORTEST * RATIO ** index * (index === 0 || index === TRIED - 1 ? 1 : FOR_GRADIENT)
}

/** Where a row of scores is lowest: an index, between two by the parabola through the lowest and its neighbours. */
export function lowest(scores: ArrayLike<number>): number {
  let best = 0
  for (let i = 1; i < scores.length; i++) if (scores[i]! < scores[best]!) best = i
  if (best === 0 || best === scores.length - 1) return best
  const [before, here, after] = [scores[best - 1]!, scores[best]!, scores[best + 1]!]
  const curve = before - 2 * here + after
  return best + (curve > 0 ? (before - after) / (2 * curve) : 0)
}

/** Sums of what is left after some blocks are taken out, and of what was taken out. */
interface Fold {
  grid: Grid
  rest: NormalSums
  out: NormalSums
  /** Length of what was taken out, in grid steps. */
  outSteps: number
}

function foldsOf(at: Float64Array, elevation: Float64Array, length: number): Fold[] {
  const start = at[0]!
  const whole = at[at.length - 1]! - start
  const mean = whole / (at.length - 1)
  const nodes = Math.max(3, Math.round(whole / Math.max(NODES, mean / 3))) + 1
  const grid = { nodes, spacing: whole / (nodes - 1) }
  const weight = weightsByLength(at, grid.spacing)
  const block = Math.max(length, 1.5 * mean)
  const parts = Array.from({ length: FOLDS }, () => new NormalSums(nodes))
  const points = new Array<number>(FOLDS).fill(0)
  const steps = new Array<number>(FOLDS).fill(0)
  for (let i = 0; i < at.length; i++) {
    const fold = Math.floor((at[i]! - start) / block) % FOLDS
    const place = (at[i]! - start) / grid.spacing
    const node = Math.min(Math.floor(place), nodes - 2)
    // From the first, so that squares of heights don't swamp those of errors.
    parts[fold]!.add(node, place - node, elevation[i]! - elevation[0]!, weight[i]!)
    points[fold]! += 1
    steps[fold]! += weight[i]!
  }
  const folds: Fold[] = []
  parts.forEach((out, fold) => {
    if (at.length - points[fold]! < 2 || steps[fold] === 0) return
    const rest = new NormalSums(nodes)
    for (const part of parts) if (part !== out) rest.addAll(part)
    folds.push({ grid, rest, out, outSteps: steps[fold]! })
  })
  return folds
}

/** Logarithm of the mean squared error of prediction, each metre of the way counting the same; m². */
function logOfError(folds: Fold[], wavelength: number): number {
  let error = 0
  let steps = 0
  for (const { grid, rest, out, outSteps } of folds) {
    error += out.squaredError(rest.solve(penalties(grid, wavelength)))
    steps += outSteps
  }
  return steps === 0 ? 0 : Math.log(error / steps + NEGLIGIBLE ** 2)
}
