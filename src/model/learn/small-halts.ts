import { riderParameters } from '../plan/parameters'
import type { Plan } from '../plan/schema'
import { shortestHalt } from '../recording/standing'
import type { RecordedHalt } from '../recording/recording'
import { spanAt, verdictOn, type LearntBelief } from './beliefs'
import { toNinetyPercent } from './unknowns'

/** A longer halt is a stop that one plans, s: a choice. */
export const longestSmall = 300
/** Small halts last a minute or so, s. Where they do so with an exponential distribution, this share of their time lies between the two bounds. */
const usual = 60
const below = (time: number) => 1 - (1 + time / usual) * Math.exp(-time / usual)
const seenShare = below(longestSmall) - below(shortestHalt)
/** The sum of n times of that distribution varies by √(2/n) where n does by chance too. */
const variances = 2
/** Rides differ by more than chance: judgement, standard deviation of the logarithm. */
const fromRideToRide = 0.2

/** Halts of some rides, over a ridden length of all, m. */
export interface HaltsSeen {
  halts: readonly RecordedHalt[]
  length: number
}

/**
 * Small halts a hundred kilometres, from the halts that recordings have of half a minute to five. A plain normal update of the logarithm; no forecast
 * depends on them but by the sum.
 */
export function smallHaltsBelief({ rider }: Plan, seen: HaltsSeen): LearntBelief {
  const { belief } = riderParameters.smallHalts
  const stated = rider.smallHalts
  const deviation = Math.log(belief.high) / toNinetyPercent
  const small = seen.halts.filter(({ time }) => time <= longestSmall)
  const sum = small.reduce((total, { time }) => total + time, 0)
  const at = (z: number) => stated * Math.exp(z * deviation)
  const prior = spanAt(at, 0, 1)
  if (small.length === 0 || !(stated > 0)) return { path: 'rider.smallHalts', ...prior, prior, verdict: 'not' }
  const perHundredKm = (sum / seenShare / seen.length) * 100_000
  const found = Math.log(perHundredKm / stated) / deviation
  const weight = deviation ** 2 / (variances / small.length + fromRideToRide ** 2)
  const left = 1 / Math.sqrt(1 + weight)
  return {
    path: 'rider.smallHalts',
    ...spanAt(at, (found * weight) / (1 + weight), left),
    prior,
    verdict: verdictOn(left),
  }
}
