import { interpolate } from '../columns'
import { noiseBetween, noiseLeft } from './noise'
import { penalties, sumsOf, weightsByLength } from './smooth'
import { lowest, type Wavelengths } from './wavelength'

/** Shortest half-gain wavelength that is looked at, m: what lies between it and twice it is taken for noise, since no road is so wavy. */
const SHORTEST = 60
/** As many steps between points, each counted as 200 m at most, are needed to tell noise from road. */
const STEPS = 2.5
const LONGEST_STEP = 200
/** Half-gain wavelengths that are tried: 1.5 times the shortest, and each 1.4 times the one before, up to 2 km. */
const FIRST = 1.5
const RATIO = 1.4
const LONGEST = 2100
/** Node spacing of the lines to aim at, m. */
const NODES = 20
/** What is smoothed away is averaged over so far before and after each place, m, and looked at in such steps, m. */
const REACH = 2000
const EVERY = 500
/**
 * Waves stand out if their mean square is above this, m², and above so many times that of noise. Waves of ±3 m have 4.5 m²; with white noise of
 * 1 m at 10 to 30 m between points they stand out 18 to 8 times. Wander of receivers and barometers, correlated over some 100 m, is mostly below
 * either; the recordings that were tried have 2 to 5 times.
 */
const LEAST = 1.5
const CLEARLY = 6
/** Errors below this, m, don't count. */
const NEGLIGIBLE = 0.1

/**
 * Half-gain wavelengths by which waves of the road survive. Predicting stretches that are left out says little about waves shorter than these:
 * where what the chosen wavelength smooths away is clearly more than noise would be, as it is seen between 60 and 120 m, a shorter one is
 * taken, with the least expected error of height by bias and noise (Mallows 1973, Technometrics 15:661-675).
 *
 * @param at ridden distance of each elevation, m, ascending from 0
 * @param elevation m, all known, without steps where the way is interrupted
 * @param chosen what is known from predicting
 * @returns the same, or no longer
 */
export function keepWaves(at: Float64Array, elevation: Float64Array, chosen: Wavelengths): Wavelengths {
  const length = at[at.length - 1]!
  const shortest = shortestOf(at)
  const tried: number[] = []
  for (let wavelength = FIRST * shortest; wavelength < LONGEST; wavelength *= RATIO) tried.push(wavelength)
  if (tried.length === 0) return chosen

  const nodes = Math.max(2, Math.round(length / NODES)) + 1
  const grid = { nodes, spacing: length / (nodes - 1) }
  const observations = { at, value: elevation, weight: weightsByLength(at, grid.spacing) }
  const sums = sumsOf(observations, grid, elevation[0])
  const fine = sums.solve(penalties(grid, shortest))
  const lost = (wavelength: number) => meanSquares(fine, sums.solve(penalties(grid, wavelength)), grid.spacing)
  const noise = lost(2 * shortest).map((square) => square / noiseBetween(shortest, 2 * shortest))
  const losses: Float64Array[] = []
  const loss = (j: number, place: number) => (losses[j] ??= lost(tried[j]!))[place]!

  const places = Float64Array.from(noise, (_, k) => (k * length) / (noise.length - 1))
  const wavelength = places.map((place, k) => {
    const given = interpolate(chosen.at, chosen.wavelength, place)
    const within = tried.filter((one) => one < given)
    const next = Math.min(within.length, tried.length - 1)
    const ofNoise = noise[k]! * noiseBetween(shortest, tried[next]!)
    if (within.length === 0 || loss(next, k) < Math.max(LEAST, CLEARLY * ofNoise)) return given
    const errors = tried.slice(0, next + 1).map((one, j) => {
      const bias = Math.max(0, loss(j, k) - noise[k]! * noiseBetween(shortest, one))
      return Math.log(bias + noise[k]! * noiseLeft(one) + NEGLIGIBLE ** 2)
    })
    return Math.min(given, tried[0]! * RATIO ** lowest(errors))
  })
  return { at: places, wavelength }
}

/** Shortest half-gain wavelength at which noise can be seen between points as far apart as these, m. */
function shortestOf(at: Float64Array): number {
  let sum = 0
  for (let i = 1; i < at.length; i++) {
    const step = at[i]! - at[i - 1]!
    sum += step * Math.min(step, LONGEST_STEP)
  }
  return Math.max(SHORTEST, (STEPS * sum) / at[at.length - 1]!)
}

/** Mean square of the difference of two lines about each place, m². */
function meanSquares(one: Float64Array, other: Float64Array, spacing: number): Float64Array {
  const last = one.length - 1
  const sum = new Float64Array(last + 2)
  for (let i = 0; i <= last; i++) sum[i + 1] = sum[i]! + (one[i]! - other[i]!) ** 2
  const reach = Math.round(REACH / spacing)
  const steps = Math.max(1, Math.round((last * spacing) / EVERY))
  return Float64Array.from({ length: steps + 1 }, (_, k) => {
    const middle = Math.round((k * last) / steps)
    const from = Math.max(0, middle - reach)
    const to = Math.min(last, middle + reach) + 1
    return (sum[to]! - sum[from]!) / (to - from)
  })
}
