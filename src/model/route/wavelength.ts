import { type Grid, type Observations, smoothOver, valueAt, weightsByLength } from './smooth'

/** Half-gain wavelengths that are tried for elevation, m: hills of 500 m keep 97 % at the shortest. */
const SHORTEST = 200
const LONGEST = 2300
const RATIO = Math.SQRT2
/** The best prediction of height is rougher than the best gradient; tried on the profiles of test/reference/smoothing.test.ts. */
const FOR_GRADIENT = 1.2
/** Length of the stretches that are left out and predicted from the rest, m; noise over shorter distances predicts nothing in them. */
const BLOCK = 200
const FOLDS = 4
/** The choice is made on up to this many windows of this length, m, spread over the route, so that its cost has a bound. */
const WINDOWS = 8
const WINDOW = 25_000
const FEWEST = 8

/**
 * Half-gain wavelength for the elevation smoother, from the data: the one whose line best predicts stretches of 200 m that are left out
 * (cross-validation by blocks; Chu and Marron 1991, Annals of Statistics 19:1906-1918, for why by blocks), lengthened a little.
 *
 * @param at ridden distance of each elevation, m, ascending from 0
 * @param elevation m, all known, one per distance
 * @returns m
 */
export function elevationWavelength(at: Float64Array, elevation: Float64Array): number {
  const windows = windowsOf(at)
  let best = SHORTEST
  let least = Infinity
  const folds = windows.flatMap(([first, last]) => foldsOf(at.subarray(first, last), elevation.subarray(first, last)))
  for (let wavelength = SHORTEST; wavelength < LONGEST; wavelength *= RATIO) {
    let error = 0
    for (const fold of folds) error += predictionError(fold, wavelength)
    if (error >= least) continue
    least = error
    best = wavelength
  }
  return best === SHORTEST ? best : best * FOR_GRADIENT
}

function windowsOf(at: Float64Array): [number, number][] {
  const length = at[at.length - 1]!
  const size = Math.max(WINDOW, (200 * length) / at.length)
  const count = Math.min(WINDOWS, Math.ceil(length / size))
  const windows: [number, number][] = []
  for (let k = 0; k < count; k++) {
    const from = count * size >= length ? (k * length) / count : (k * (length - size)) / (count - 1)
    const first = at.findIndex((d) => d >= from)
    const end = at.findIndex((d) => d > from + Math.min(size, length / count))
    const last = end < 0 ? at.length : end
    if (last - first >= FEWEST && at[last - 1]! > at[first]!) windows.push([first, last])
  }
  return windows
}

/** What is left after some blocks are taken out, and what was taken out. */
interface Fold {
  grid: Grid
  rest: Observations
  out: Observations
}

function foldsOf(places: Float64Array, value: Float64Array): Fold[] {
  const start = places[0]!
  const at = places.map((place) => place - start)
  const length = at[at.length - 1]!
  const mean = length / (at.length - 1)
  const nodes = Math.max(3, Math.round(length / Math.max(20, mean / 3))) + 1
  const grid = { nodes, spacing: length / (nodes - 1) }
  const weight = weightsByLength(at, grid.spacing)
  const block = Math.max(BLOCK, 1.5 * mean)
  return Array.from({ length: FOLDS }, (_, fold) => {
    const isOut = (i: number) => Math.floor(at[i]! / block) % FOLDS === fold
    const part = (wanted: boolean): Observations => {
      const keep = (_: number, i: number) => isOut(i) === wanted
      return { at: at.filter(keep), value: value.filter(keep), weight: weight.filter(keep) }
    }
    return { grid, rest: part(false), out: part(true) }
  }).filter(({ rest }) => rest.at.length > 1)
}

/** Sum of squared errors, weighted by length. */
function predictionError({ grid, rest, out }: Fold, wavelength: number): number {
  const line = smoothOver(rest, grid, wavelength)
  let error = 0
  for (let i = 0; i < out.at.length; i++) {
    error += out.weight[i]! * grid.spacing * (out.value[i]! - valueAt(line, out.at[i]! / grid.spacing)) ** 2
  }
  return error
}
