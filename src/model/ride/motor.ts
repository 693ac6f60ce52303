import { kilometresPerHour } from '../units'

const fadesOver = 2 * kilometresPerHour

/**
 * Share of the assist that is left near the legal limit: 1 at 2 km/h below it, 0 at it.
 *
 * @param speed m/s
 * @param limit m/s
 * @see EN 15194: progressively reduced and finally cut off at 25 km/h; the width is a choice
 */
export const limitShare = (speed: number, limit: number): number =>
  speed >= limit ? 0 : speed <= limit - fadesOver ? 1 : (limit - speed) / fadesOver

/** Loss of motor, gears and controller, W: constant + linear × P + square × P², P mechanical in W. A judgement; no published curve could be read. */
const lossConstant = 12
const lossLinear = 0.1
const lossSquare = 0.0002

/**
 * Electrical power that a mechanical power takes, while the motor gives any.
 *
 * @param mechanical W
 * @param lossFactor multiplies the loss, dimensionless
 * @returns W; 0 for none
 */
export const electricalPower = (mechanical: number, lossFactor: number): number =>
  mechanical <= 0
    ? 0
    : mechanical + lossFactor * (lossConstant + lossLinear * mechanical + lossSquare * mechanical * mechanical)

/**
 * Electrical power up to which the motor gives nothing, W.
 *
 * @param lossFactor as there
 */
export const idlePower = (lossFactor: number): number => lossFactor * lossConstant

/**
 * Mechanical power that an electrical power gives: the inverse of `electricalPower`.
 *
 * @param electrical W
 * @param lossFactor as there
 * @returns W; 0 where the losses take all
 */
export function mechanicalPower(electrical: number, lossFactor: number): number {
  const a = lossFactor * lossSquare
  const b = 1 + lossFactor * lossLinear
  const c = lossFactor * lossConstant - electrical
  return c >= 0 ? 0 : (-2 * c) / (b + Math.sqrt(b * b - 4 * a * c))
}
