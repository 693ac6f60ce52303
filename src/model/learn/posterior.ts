import { Forecaster, meterDeviation, type Evidence, type Foretold } from './evidence'
import { inverse, solve, type Matrix } from './linear'
import { noiseOf, priorNoise, whitened, type Noise } from './noise'
import { unknowns, type Key, type Known } from './unknowns'

/**
 * What is known after some rides: a normal distribution of the unknowns about the most likely ones. The unknowns of riders and bike come first, then
 * for each ride its own.
 */
export interface Posterior {
  evidence: readonly Evidence[]
  /** Most likely, and covariance; before anything was learnt 0 and the unit matrix. */
  z: number[]
  covariance: Matrix
  /** Of the times of each ride. */
  noise: Noise[]
  /** Logarithms of ridden over foretold times, a list for each ride. */
  residuals: number[][]
  /** By the unknowns, the rows of what is left at the finish of each ride, 0 to 1. */
  leftAtFinish: number[][]
  /** Passes that it took, and whether they came to rest. */
  passes: number
  settled: boolean
}

/** How many of the unknowns are of riders and bike. */
export const sharedCount = unknowns.filter(({ perRide }) => !perRide).length
const shared = unknowns.filter(({ perRide }) => !perRide)
const own = unknowns.filter(({ perRide }) => perRide)

/** Place of an unknown among all z. @param ride number of the ride, for its own */
export function indexOf(key: Key, ride = 0): number {
  const k = shared.findIndex((unknown) => unknown.key === key)
  return k >= 0 ? k : shared.length + ride * own.length + own.findIndex((unknown) => unknown.key === key)
}

/** The unknowns of one ride. */
export const knownOf = (z: readonly number[], ride: number): Known =>
  Object.fromEntries(unknowns.map(({ key }) => [key, z[indexOf(key, ride)]!])) as Known

/** Step of a forward difference, and change of z below which it has come to rest. */
const difference = 0.03
const atRest = 0.02
/** As much is gained by a step, minus the logarithm of how likely all is, when it leads no more than a tenth of a deviation on: where limits make kinks. */
const leastGain = 0.005
const mostPasses = 12
/** The noise is read anew up to this pass, then held, so that the rest comes to rest. */
const noiseUntil = 5
const longestStep = 1.5
/** Whitened residuals beyond so many deviations count by their size, not their square (Huber 1964, Ann. Math. Statist. 35:73-101). */
const huber = 1.5

/**
 * Most likely figures after some rides, with their covariance by Laplace's approximation: priors, times of stretches with neighbours correlated and
 * outliers bounded, and readings of charge. Wind, form and mass are unknowns as the others are, so that what is not known of them widens the rest.
 *
 * Gauss and Newton's method with halved steps. `ml-levenberg-marquardt` 5.1.0 was looked at (typed, 19 kB gzipped, kept): it has no end at rest, so
 * that each fit would take all its passes; it goes on from a step that made things worse; and the derivatives that it takes stay inside, while they
 * are wanted here for the covariance and for what a reading would be worth. Each of its calls would be a whole ride once more.
 *
 * @param progress called with the share done, 0 to 1
 */
export function posteriorOf(evidence: readonly Evidence[], progress: (share: number) => void = () => {}): Posterior {
  const forecasters = evidence.map((ride) => new Forecaster(ride))
  const count = shared.length + evidence.length * own.length
  let z = Array<number>(count).fill(0)
  const foretell = (at: readonly number[]) => forecasters.map((forecaster, ride) => forecaster.run(knownOf(at, ride)))
  let now = foretell(z)
  let noise = evidence.map(priorNoise)
  const stretches = evidence.reduce((sum, { time }) => sum + time.length, 0)
  let fitted = 0
  let passes = 0
  let settled = false
  for (; ; passes++) {
    const isLast = settled || passes === mostPasses
    const residuals = evidence.map((ride, k) => residualsOf(ride, now[k]!))
    if (passes > 1 && passes <= noiseUntil)
      noise = evidence.map((ride, k) => noiseOf(ride, residuals[k]!, (fitted * ride.time.length) / stretches))
    const slopes = slopesOf(forecasters, z, now)
    const { normal, gradient } = normalEquations(evidence, noise, now, slopes, z)
    const covariance = inverse(normal)
    fitted = count - covariance.reduce((sum, row, i) => sum + row[i]!, 0)
    if (isLast) {
      const leftAtFinish = slopes.map(({ left }) => left.at(-1)!)
      return { evidence, z, covariance, noise, residuals, leftAtFinish, passes, settled }
    }
    const step = solve(normal, gradient)
    const longest = Math.max(...step.map(Math.abs))
    const before = misfit(evidence, noise, now, z)
    let share = Math.min(1, longestStep / longest)
    let next = z
    let gain = 0
    for (let halved = 0; halved < 6; halved++, share /= 2) {
      next = z.map((value, i) => value + share * step[i]!)
      now = foretell(next)
      gain = before - misfit(evidence, noise, now, next)
      if (gain >= -1e-9) break
    }
    settled = passes > 2 && (longest < atRest || (passes > noiseUntil && Math.abs(gain) < leastGain))
    z = next
    progress((passes + 1) / mostPasses)
  }
}

const residualsOf = ({ time }: Evidence, { times }: Foretold): number[] => time.map((t, k) => Math.log(t) - times[k]!)

/** Derivatives of all that is foretold by each unknown, a row a datum. */
interface Slopes {
  times: number[][]
  left: number[][]
  power: number[]
}

function slopesOf(forecasters: readonly Forecaster[], z: readonly number[], now: readonly Foretold[]): Slopes[] {
  return forecasters.map((forecaster, ride) => {
    const { times, left, power } = now[ride]!
    const rows = (values: readonly number[]) => values.map(() => zeros(z.length))
    const slopes: Slopes = { times: rows(times), left: rows(left), power: zeros(z.length) }
    for (const { key } of unknowns) {
      const i = indexOf(key, ride)
      const other = forecaster.run(knownOf(z.with(i, z[i]! + difference), ride))
      other.times.forEach((value, k) => (slopes.times[k]![i] = (value - times[k]!) / difference))
      other.left.forEach((value, k) => (slopes.left[k]![i] = (value - left[k]!) / difference))
      slopes.power[i] = (other.power - power) / difference
    }
    return slopes
  })
}

const zeros = (count: number): number[] => Array<number>(count).fill(0)

/** JᵀWJ + 1 and JᵀWr − z. */
function normalEquations(
  evidence: readonly Evidence[],
  noise: readonly Noise[],
  now: readonly Foretold[],
  slopes: readonly Slopes[],
  z: readonly number[],
): { normal: Matrix; gradient: number[] } {
  const normal = z.map((_, i) => z.map((_, j) => (i === j ? 1 : 0)))
  const gradient = z.map((value) => -value)
  const add = (row: readonly number[], residual: number, weight: number) => {
    for (let i = 0; i < row.length; i++) {
      if (row[i] === 0) continue
      gradient[i]! += weight * row[i]! * residual
      for (let j = 0; j < row.length; j++) normal[i]![j]! += weight * row[i]! * row[j]!
    }
  }
  evidence.forEach((ride, k) => {
    const residuals = whitened(ride, noise[k]!, residualsOf(ride, now[k]!))
    const columns = z.map((_, i) =>
      whitened(
        ride,
        noise[k]!,
        slopes[k]!.times.map((row) => row[i]!),
      ),
    )
    residuals.forEach((residual, n) => {
      const weight = Math.abs(residual) <= huber ? 1 : huber / Math.abs(residual)
      add(
        columns.map((column) => column[n]!),
        residual,
        weight,
      )
    })
    ride.readings.forEach(({ left, deviation }, n) =>
      add(slopes[k]!.left[n]!, left - now[k]!.left[n]!, 1 / deviation ** 2),
    )
    if (ride.power !== undefined) add(slopes[k]!.power, ride.power - now[k]!.power, 1 / meterDeviation ** 2)
  })
  return { normal, gradient }
}

/** Minus the logarithm of how likely all is, but for a constant. */
function misfit(
  evidence: readonly Evidence[],
  noise: readonly Noise[],
  now: readonly Foretold[],
  z: readonly number[],
): number {
  let sum = z.reduce((total, value) => total + (value * value) / 2, 0)
  evidence.forEach((ride, k) => {
    for (const residual of whitened(ride, noise[k]!, residualsOf(ride, now[k]!))) {
      const size = Math.abs(residual)
      sum += size <= huber ? (size * size) / 2 : huber * (size - huber / 2)
    }
    ride.readings.forEach(({ left, deviation }, n) => {
      sum += ((left - now[k]!.left[n]!) / deviation) ** 2 / 2
    })
    if (ride.power !== undefined) sum += ((ride.power - now[k]!.power) / meterDeviation) ** 2 / 2
  })
  return Number.isNaN(sum) ? Infinity : sum
}
