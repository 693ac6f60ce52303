/**
 * Rolling resistance.
 *
 * @param coefficient dimensionless, surface included
 * @param weight N
 * @param cosine cosine of the slope's angle
 * @returns N
 * @see Martin et al. 1998, J. Appl. Biomech. 14:276-291
 */
export const rollingResistance = (coefficient: number, weight: number, cosine: number): number =>
  coefficient * weight * cosine

/** Friction of the wheel bearings is constant + slope × speed, N with m/s: Dahn et al. 1991 as cited by Martin et al. 1998 (from memory). */
export const bearingConstant = 0.091
export const bearingSlope = 0.0087
