import { hashed, SobolPoints } from './sobol'

/** How much of the variance of an answer comes from each input, and how sure that is. */
export interface Effects {
  /** Shapley effects, one entry an input: they add up to 1. All 0 where the answer does not vary. */
  share: number[]
  /** Standard errors of them. */
  error: number[]
  variance: number
}

/** What is summed for one answer over some points; sums of parts may be added up. */
export interface EffectSums {
  /** By replicate: points, sum of the answer and of its square, and by input the sum of its part of the variance. */
  points: number[]
  sum: number[]
  squares: number[]
  parts: number[][]
}

const noSums = (replicates: number, inputs: number): EffectSums => {
  const nought = () => new Array<number>(replicates).fill(0)
  return {
    points: nought(),
    sum: nought(),
    squares: nought(),
    parts: Array.from({ length: replicates }, () => new Array<number>(inputs).fill(0)),
  }
}

/** Which points are taken, as in `Sampling`. */
export interface EffectSampling {
  seed: number
  points: number
  replicates: number
}

/**
 * Shapley effects of independent inputs without bias: between two independent points, one goes over into the other input by input, in an order drawn
 * anew for each pair; what the answer changes by in a step, times how far the middle of the step is from the first answer, is the part of that input.
 * A pair takes one answer more than there are inputs. The pairs are Sobol points of twice the dimensions.
 *
 * @see Goda 2021, "A simple algorithm for global sensitivity analysis with Shapley effects", Reliab. Eng. Syst. Saf. 213:107702; Owen 2014, SIAM/ASA J. Uncertain. Quantif. 2:245-251, for the effects; Song, Nelson and Staum 2016, same journal 4:1060-1083, for orders drawn at random
 * @param groups how many coordinates each input has, one behind the other: these go over together
 * @param answers of coordinates, each uniform from 0 to 1: as many numbers as `count`
 * @param from index of the first pair @param to one beyond the last
 * @returns for each answer, sums to be added up by `effectsOf`
 */
export function effectSums(
  groups: readonly number[],
  answers: (point: Float64Array) => readonly number[],
  count: number,
  { seed, points, replicates }: EffectSampling,
  from: number,
  to: number,
): EffectSums[] {
  const dimensions = groups.reduce((sum, size) => sum + size, 0)
  const starts = groups.map((_, k) => groups.slice(0, k).reduce((sum, size) => sum + size, 0))
  const sets = Array.from({ length: replicates }, (_, r) => new SobolPoints(2 * dimensions, hashed(seed, r)))
  const pair = new Float64Array(2 * dimensions)
  const sums = Array.from({ length: count }, () => noSums(replicates, groups.length))
  const each = points / replicates
  for (let index = from; index < to; index++) {
    const r = Math.floor(index / each)
    sets[r]!.at(index % each, pair)
    const between = pair.slice(0, dimensions)
    const first = answers(between)
    let before = first
    for (const input of orderOf(groups.length, hashed(hashed(seed, ~r), index))) {
      for (let k = starts[input]!; k < starts[input]! + groups[input]!; k++) between[k] = pair[dimensions + k]!
      const after = answers(between)
      sums.forEach(({ parts }, a) => {
        parts[r]![input]! += (first[a]! - 0.5 * (before[a]! + after[a]!)) * (before[a]! - after[a]!)
      })
      before = after
    }
    sums.forEach((sum, a) => {
      sum.points[r]! += 2
      sum.sum[r]! += first[a]! + before[a]!
      sum.squares[r]! += first[a]! ** 2 + before[a]! ** 2
    })
  }
  return sums
}

/** An order of inputs, by a number that looks random: Fisher and Yates. */
function orderOf(inputs: number, seed: number): number[] {
  const order = Array.from({ length: inputs }, (_, k) => k)
  for (let k = inputs - 1; k > 0; k--) {
    const other = Math.floor((hashed(seed, k) / 2 ** 32) * (k + 1))
    const one = order[k]!
    order[k] = order[other]!
    order[other] = one
  }
  return order
}

/** A stand-in for an answer, summed over the same points, and what is known of it: the part of the variance of each input. */
export interface Known {
  sums: readonly EffectSums[]
  parts: readonly number[]
}

/**
 * Effects from the sums of all parts of the points.
 *
 * @param known a control variate: what the points say of it is known to be off, and the answer is taken to be off by as much
 */
export function effectsOf(sums: readonly EffectSums[], known?: Known): Effects {
  const points = total(sums, ({ points }) => points)
  const all = sumOf(points)
  const mean = sumOf(total(sums, ({ sum }) => sum)) / all
  const variance = Math.max(0, sumOf(total(sums, ({ squares }) => squares)) / all - mean * mean)
  /** By input and replicate, the mean part. */
  const parts = sums[0]!.parts[0]!.map((_, k) => {
    const own = total(sums, ({ parts }) => parts.map((part) => part[k]!))
    const other = known && total(known.sums, ({ parts }) => parts.map((part) => part[k]!))
    return own.map((part, r) => {
      const raw = (value: number) => value / (0.5 * points[r]!)
      return known === undefined || other === undefined ? raw(part) : raw(part - other[r]!) + known.parts[k]!
    })
  })
  const weights = points.map((count) => count / all)
  const mixed = (values: readonly number[]) => sumOf(values.map((value, r) => value * weights[r]!))
  const whole = sumOf(parts.map(mixed))
  const share = parts.map((part) => (whole > 0 ? mixed(part) / whole : 0))
  const wholes = points.map((_, r) => sumOf(parts.map((part) => part[r]!)))
  const error = parts.map((part, k) => {
    if (whole <= 0) return 0
    // Of a ratio: how far each replicate's part is from the share of its whole.
    const off = part.map((value, r) => (value - share[k]! * wholes[r]!) / whole)
    return Math.sqrt(sumOf(off.map((value) => value * value)) / (off.length - 1) / off.length)
  })
  return { share, error, variance }
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0)
const total = (sums: readonly EffectSums[], of: (sum: EffectSums) => number[]): number[] =>
  sums.map(of).reduce((a, b) => a.map((x, k) => x + b[k]!))
