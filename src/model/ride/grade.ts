import { ECCENTRICITY_SQUARED, EQUATORIAL_RADIUS, FLATTENING } from '../geo/wgs84'

/**
 * Normal gravity on the WGS 84 ellipsoid by Somigliana's formula, with the free-air decrease to a height.
 *
 * @param latitude degrees
 * @param height m above the ellipsoid
 * @returns m/s²
 * @see NIMA TR8350.2, 3rd edition, eq. 4-1 and 4-3
 */
export function gravity(latitude: number, height = 0): number {
  const equatorial = 9.7803253359
  const k = 0.00193185265241
  const m = 0.00344978650684
  const sin2 = Math.sin((latitude * Math.PI) / 180) ** 2
  const atEllipsoid = (equatorial * (1 + k * sin2)) / Math.sqrt(1 - ECCENTRICITY_SQUARED * sin2)
  return (
    atEllipsoid *
    (1 -
      (2 / EQUATORIAL_RADIUS) * (1 + FLATTENING + m - 2 * FLATTENING * sin2) * height +
      (3 * height * height) / EQUATORIAL_RADIUS ** 2)
  )
}
