import { kilometresPerHour, secondsPerHour } from '../units'

/** Gradients between which effort and assist blend from flat to climb, rise over run. */
const climbFrom = 0.01
const climbFull = 0.05
/** Speed above the coasting speed over which pedalling falls to nothing, m/s: a choice. */
export const coastingFadesOver = 2 * kilometresPerHour
/** A halt of this length is a night, from which the rider sets out fresh, s: a judgement. */
export const night = 6 * secondsPerHour

/**
 * How much of a climb a gradient is: 0 up to 1 %, 1 from 5 %, linear between.
 *
 * @param gradient rise over run
 */
export const climbShare = (gradient: number): number =>
  Math.min(1, Math.max(0, (gradient - climbFrom) / (climbFull - climbFrom)))

/**
 * Share of steady power that is left to a rider after some more work: exp(−c W / CP) with W the work so far.
 * Carried on from step to step, so that no exponential is taken: of its series the terms left out are below 1e-15 for a step of a ride.
 *
 * @param freshness before, 1 when rested
 * @param effort c W / CP of the work since then, dimensionless and small
 * @see what was measured: Clark et al. 2019, J. Appl. Physiol. 127:726-736, two hours, −9 % without and −2 % with carbohydrate; that ridden
 * power follows it, and goes on so, is an assumption
 */
export const freshnessAfter = (freshness: number, effort: number): number =>
  freshness * (1 - effort * (1 - effort * (1 / 2 - effort * (1 / 6))))
