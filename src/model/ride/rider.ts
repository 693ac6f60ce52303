import { kilometresPerHour } from '../units'

/** Gradients between which effort and assist blend from flat to climb, rise over run. */
const climbFrom = 0.01
const climbFull = 0.05
const coastingFadesOver = 2 * kilometresPerHour
/** Below this share of critical power a rider fades half as fast: judgement. */
const easyShare = 0.6
const leastShare = 0.5

/**
 * How much of a climb a gradient is: 0 up to 1 %, 1 from 5 %, linear between.
 *
 * @param gradient rise over run
 */
export const climbShare = (gradient: number): number =>
  gradient <= climbFrom ? 0 : gradient >= climbFull ? 1 : (gradient - climbFrom) / (climbFull - climbFrom)

/**
 * Share of the steady power that is left after some hours.
 *
 * @param ridingTime s
 * @param perHour loss of power for each hour after the onset, at or above 0.6 of critical power
 * @param onset riding time before it begins, s
 * @param effort steady power over critical power
 * @returns 0.5 to 1
 * @see onset and rate: Clark et al. 2019, J. Appl. Physiol. 127:726-736; beyond two hours judgement
 */
export function fadeShare(ridingTime: number, perHour: number, onset: number, effort: number): number {
  if (ridingTime <= onset) return 1
  const rate = effort >= easyShare ? perHour : perHour / 2
  return Math.max(leastShare, 1 - (rate * (ridingTime - onset)) / 3600)
}

/**
 * Share of the power that is still pedalled near the coasting speed: 1 below it, 0 from 2 km/h above.
 *
 * @param speed m/s
 * @param coastingSpeed m/s
 */
export const pedallingShare = (speed: number, coastingSpeed: number): number =>
  speed <= coastingSpeed ? 1 : Math.max(0, 1 - (speed - coastingSpeed) / coastingFadesOver)
