import type { Evidence } from './evidence'

/** How the logarithms of a ride's times lie about what is foretold: a process of first order along its stretches. */
export interface Noise {
  /** Standard deviation, and correlation of one with the next. */
  deviation: number
  correlation: number
  /** How much more sums over ten stretches and more vary than such a process would, a factor on the deviation: what the model does not know. */
  widening: number
}

/** What is taken for as many stretches as these, before any was seen. Judgement. */
const usualCorrelation = 0.3
const usualCount = 8
const usualPairs = 15
const mostCorrelation = 0.85
const least = 0.01
/** Median of the sizes of normal deviates. */
const quartile = 0.6745
/** Stretches of a block whose sum is looked at. */
const block = 10
/**
 * Over a block times are off by so much for what hardly changes within it: heights of a barometer that drifts by 3 m in half an hour, wind that turns.
 * Standard deviation of the logarithm. What rides show of it goes into wind, fade and drag instead of staying in their residuals, so it can't be read
 * from them: simulated rides without it had spans a tenth too narrow. Judgement.
 */
const slow = 0.015
/** Before the first pass figures may be far off: times are only trusted so far. */
const farOff = 0.2

export const priorNoise = ({ deviation, time }: Evidence): Noise =>
  time.length < usualCount
    ? { deviation, correlation: 0, widening: 1 }
    : { deviation: farOff, correlation: usualCorrelation, widening: 1 }

/**
 * Noise of a ride from what is left of its times.
 *
 * @param residuals logarithms of ridden over foretold times
 * @param fitted how many figures they were fitted with: so many of them say nothing of the noise
 */
export function noiseOf(evidence: Evidence, residuals: readonly number[], fitted: number): Noise {
  const count = residuals.length
  if (count < usualCount) return priorNoise(evidence)
  const free = Math.max(count / 2, count - fitted)
  const robust = (middle(residuals.map(Math.abs)) / quartile) * Math.sqrt(count / free)
  const variance = (free * robust * robust + usualCount * evidence.deviation ** 2) / (free + usualCount)
  const deviation = Math.max(least, Math.sqrt(variance))
  const held = residuals.map((value) => Math.max(-2.5 * deviation, Math.min(2.5 * deviation, value)))
  let pairs = 0
  let product = 0
  held.forEach((value, k) => {
    if (!evidence.followsOn[k]) return
    pairs++
    product += (value * held[k - 1]!) / deviation ** 2
  })
  const correlation = Math.max(
    0,
    Math.min(mostCorrelation, (product + usualPairs * usualCorrelation) / (pairs + usualPairs)),
  )
  const plain = { deviation, correlation, widening: 1 }
  const ofBlock = deviationOver(plain, block)
  return { ...plain, widening: Math.hypot(wideningOf(whitened(evidence, plain, held)), slow / ofBlock) }
}

/** By how much sums of blocks vary more than if all were independent; a factor of at least 1. */
function wideningOf(residuals: readonly number[]): number {
  const blocks = Math.floor(residuals.length / block)
  if (blocks < 3) return 1
  const mean = residuals.reduce((sum, value) => sum + value, 0) / residuals.length
  let squares = 0
  for (let k = 0; k < blocks; k++) {
    const sum = residuals.slice(k * block, (k + 1) * block).reduce((total, value) => total + value - mean, 0)
    squares += (sum * sum) / block
  }
  // As if two more blocks had been seen that are as they should be.
  return Math.sqrt(Math.max(1, (squares + 2) / (blocks + 2)))
}

/** A column of the times, each entry less what the one before foretells of it, over its deviation. */
export function whitened({ followsOn }: Evidence, noise: Noise, column: readonly number[]): number[] {
  const { correlation, deviation, widening } = noise
  const alone = 1 / (deviation * widening)
  const after = alone / Math.sqrt(1 - correlation * correlation)
  return column.map((value, k) => (followsOn[k] ? after * (value - correlation * column[k - 1]!) : alone * value))
}

/**
 * Standard deviation of the logarithm of the time of a way, for what is not known of each stretch alone.
 *
 * @param count stretches
 */
export function deviationOver({ deviation, correlation, widening }: Noise, count: number): number {
  const perStretch = deviation * widening * Math.sqrt((1 + correlation) / (1 - correlation))
  return perStretch / Math.sqrt(Math.max(1, count))
}

function middle(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[sorted.length >> 1] ?? 0
}
