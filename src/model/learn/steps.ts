import { assistParameters } from '../plan/parameters'
import type { Plan, PlanStep } from '../plan/schema'
import { guessedSpan } from '../plan/steps'
import { evidenceRemembered, type Evidence } from './evidence'
import { levelRoad } from './level-road'
import { indexOf, posteriorOf, type Posterior } from './posterior'
import { toNinetyPercent, valueAt } from './unknowns'

/** What is known of the ratio behind a step: the middle, and the factor within which it lies in 8 of 10 cases. */
export interface StepRatio {
  ratio: number
  span: number
}

/** Of a time over a run that a rider takes, standard deviation of its logarithm; of the charge used, by two looks at a display of whole percent. Judgement. */
const runDeviation = 0.02
const usedDeviation = 0.006
/** The same standing of a display, whatever it says in truth: the run-up takes what it takes. */
const fixed = 1e-4
/** So near to the speed at which the motor ends its help a test tells little, m/s. */
const nearLimit = 0.6

/** Assist before anything is known of it: standard deviation of its logarithm. */
const guessed = Math.log(guessedSpan) / toNinetyPercent
const { min, max } = assistParameters.ratio

/** Why a test tells nothing: as fast as the motor helps at all, or nothing was used. */
export type StepTestFault = 'tooFast' | 'nothingUsed'

/**
 * The ratio behind a step from a test: a level road ridden there and back at it, by the same machinery that learns from whole rides. The speeds tell
 * what rider and motor give together, the charge what the motor gave of it; wind, drag, rolling and the rider's power are as uncertain as ever.
 *
 * @param plan rider, bike and packs; the charge is of its first pack
 * @param step with its test
 * @returns middle and span, or why there is none
 */
export function stepTested(
  plan: Plan,
  { ratio, test }: { ratio: number; test: NonNullable<PlanStep['test']> },
): { ok: true; value: StepRatio } | { ok: false; fault: StepTestFault } {
  const { length, there, back, used } = test
  if (!(used > 0)) return { ok: false, fault: 'nothingUsed' }
  if (Math.max(there, back) > plan.assist.limitSpeed - nearLimit) return { ok: false, fault: 'tooFast' }
  const { route, begin, turn, end } = levelRoad(length)
  const of = Math.max(0.1, ratio)
  const ofTest: Plan = {
    ...plan,
    assist: { ...plan.assist, ratio: of, climbRatio: of },
    weather: { ...plan.weather, windSpeed: 0, table: [] },
    battery: { ...plan.battery, packs: plan.battery.packs.slice(0, 1) },
    ...{ stops: [], controls: [], stretches: [], crossings: [] },
  }
  const before = 0.75
  const evidence: Evidence = {
    ...evidenceRemembered(route, ofTest, 1, { readings: [] }),
    from: [begin, turn],
    to: [turn, end],
    time: [length / there, length / back],
    followsOn: [false, false],
    deviation: runDeviation,
    start: before,
    readings: [
      { station: begin, left: before, deviation: fixed },
      { station: end, left: before - used, deviation: usedDeviation },
    ],
  }
  return { ok: true, value: ratioIn(posteriorOf([evidence]), ofTest) }
}

function ratioIn({ z, covariance }: Posterior, plan: Plan): StepRatio {
  const i = indexOf('assist')
  const ratio = valueAt(plan, 'assist.ratio', z[i]!)
  return { ratio, span: spanOf(guessed * Math.sqrt(covariance[i]![i]!)) }
}

const spanOf = (deviation: number) => Math.min(10, Math.exp(toNinetyPercent * deviation))

/** The mean ratio of a ride of which shares were ridden at each step; undefined where no step has a share. */
export function meanRatio(steps: readonly PlanStep[], shares: readonly (number | null)[]): number | undefined {
  const sum = steps.reduce((total, _, k) => total + (shares[k] ?? 0), 0)
  if (!(sum > 0)) return undefined
  const mean = steps.reduce((total, { ratio }, k) => total + ((shares[k] ?? 0) * ratio) / sum, 0)
  return Math.max(min, Math.min(max, mean))
}

/**
 * Assist on the flat and on climbs of a ride of which shares were ridden at each step: the stronger ones uphill, as far as the way climbs, and so that
 * their mean over the way is that of the shares. A judgement.
 *
 * @param climbing share of the way on which the climb ratio acts, 0 to 1
 * @returns undefined where no step has a share
 */
export function ratiosOf(
  steps: readonly PlanStep[],
  shares: readonly (number | null)[],
  climbing: number,
): { ratio: number; climbRatio: number } | undefined {
  const mean = meanRatio(steps, shares)
  if (mean === undefined) return undefined
  if (!(climbing > 0 && climbing < 1)) return { ratio: mean, climbRatio: mean }
  const sum = steps.reduce((total, _, k) => total + (shares[k] ?? 0), 0)
  const strongestFirst = steps
    .map(({ ratio }, k) => ({ ratio, share: (shares[k] ?? 0) / sum }))
    .sort((a, b) => b.ratio - a.ratio)
  let room = climbing
  const sums = { flat: 0, uphill: 0 }
  for (const { ratio, share } of strongestFirst) {
    const uphill = Math.min(room, share)
    room -= uphill
    sums.uphill += uphill * ratio
    sums.flat += (share - uphill) * ratio
  }
  const within = (ratio: number) => Math.max(min, Math.min(max, ratio))
  return { ratio: within(sums.flat / (1 - climbing)), climbRatio: within(sums.uphill / climbing) }
}

/**
 * The steps after a ride of which shares were ridden at each: what was learnt of the mean of their ratios, shared out among them by how much of it each
 * is and how little is known of it (the update of Kalman 1960, J. Basic Eng. 82:35-45, on logarithms).
 *
 * @param steps as they stood, on which what was learnt rests
 * @param shares of the ride at each, in their order
 */
export function stepsAfter(
  steps: readonly PlanStep[],
  shares: readonly (number | null)[],
  { z, covariance }: Posterior,
): StepRatio[] | undefined {
  const mean = meanRatio(steps, shares)
  if (mean === undefined || !(mean > 0)) return undefined
  const i = indexOf('assist')
  // What the ride alone says, without what was believed of assist before it.
  const left = covariance[i]![i]!
  const own = 1 / left - 1
  if (!(own > 0)) return undefined
  const found = (guessed * z[i]!) / left / own
  const sum = steps.reduce((total, _, k) => total + (shares[k] ?? 0), 0)
  const pull = steps.map(({ ratio }, k) => ((shares[k] ?? 0) * ratio) / sum / mean)
  const variance = steps.map(({ span }) => (Math.log(span) / toNinetyPercent) ** 2)
  const all = pull.reduce((total, g, k) => total + g * g * variance[k]!, guessed ** 2 / own)
  return steps.map(({ ratio }, k) => {
    const gain = (pull[k]! * variance[k]!) / all
    const value = Math.max(min, Math.min(max, ratio * Math.exp(gain * found)))
    return { ratio: value, span: spanOf(Math.sqrt(variance[k]! * (1 - gain * pull[k]!))) }
  })
}
