/** Friction of the wheel bearings is constant + slope × speed, N with m/s: Dahn et al. 1991 as cited by Martin et al. 1998 (from memory). */
export const bearingConstant = 0.091
export const bearingSlope = 0.0087
