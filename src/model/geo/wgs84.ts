/** The ellipsoid of WGS84 (NIMA TR8350.2, third edition, 2000, table 3.1): equatorial radius in m, and flattening. */
export const EQUATORIAL_RADIUS = 6378137
export const FLATTENING = 1 / 298.257223563
/** First eccentricity, squared. */
export const ECCENTRICITY_SQUARED = FLATTENING * (2 - FLATTENING)
