import { kilometresPerHour, secondsPerHour } from '../units'

/** Gradients between which effort and assist blend from flat to climb, rise over run. */
const climbFrom = 0.01
const climbFull = 0.05
const coastingFadesOver = 2 * kilometresPerHour

/**
 * How much of a climb a gradient is: 0 up to 1 %, 1 from 5 %, linear between.
 *
 * @param gradient rise over run
 */
export const climbShare = (gradient: number): number =>
  gradient <= climbFrom ? 0 : gradient >= climbFull ? 1 : (gradient - climbFrom) / (climbFull - climbFrom)

/**
 * Share of the steady power that is left after some work.
 *
 * @param work of the rider so far, J
 * @param fade share lost for each hour's work at critical power, at the beginning
 * @param criticalPower W
 * @returns above 0, 1 at the start
 * @see Clark et al. 2019, J. Appl. Physiol. 127:726-736, for capacity after two hours; that ridden power follows it is an assumption
 */
export const fadeShare = (work: number, fade: number, criticalPower: number): number =>
  Math.exp((-fade * work) / (criticalPower * secondsPerHour))

/**
 * Share of the power that is still pedalled near the coasting speed: 1 below it, 0 from 2 km/h above.
 *
 * @param speed m/s
 * @param coastingSpeed m/s
 */
export const pedallingShare = (speed: number, coastingSpeed: number): number =>
  speed <= coastingSpeed ? 1 : Math.max(0, 1 - (speed - coastingSpeed) / coastingFadesOver)
