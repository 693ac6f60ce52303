import { kilometresPerHour } from '../units'

/**
 * Speed below the legal limit over which the assist falls to nothing, m/s.
 *
 * @see EN 15194: progressively reduced and finally cut off at 25 km/h; the width is a choice
 */
export const fadesOver = 2 * kilometresPerHour

/**
 * Loss of motor, gears and controller beside the electronics: square × P² up to `squareUpTo`, in proportion to P beyond, P mechanical in W.
 * The square is the least-squares fit of a measured mid-drive, 77 windows of about a minute up to 202 W, 2024 (open ride record); its standing
 * part of 4 to 5 W is the electronics'. Above nothing was measured: in proportion the drive stays at 79 % as is commonly stated near the peak.
 */
const lossSquare = 0.0013 // 1/W
const squareUpTo = 200 // W

/**
 * Electrical power that a mechanical power takes, electronics left out.
 *
 * @param mechanical W, not negative
 * @param lossFactor multiplies the loss, dimensionless
 * @returns W
 */
export const electricalPower = (mechanical: number, lossFactor: number): number =>
  mechanical * (1 + lossFactor * lossSquare * Math.min(mechanical, squareUpTo))

/**
 * Mechanical power that an electrical power gives: the inverse of `electricalPower`.
 *
 * @param electrical W
 * @param lossFactor as there
 * @returns W; 0 for none
 */
export function mechanicalPower(electrical: number, lossFactor: number): number {
  if (electrical <= 0) return 0
  const square = lossFactor * lossSquare
  const straight = electrical / (1 + square * squareUpTo)
  return straight >= squareUpTo ? straight : (2 * electrical) / (1 + Math.sqrt(1 + 4 * square * electrical))
}
