import geodesic from 'geographiclib-geodesic'

/** A place on the drawing board: metres east and north of the centre of the islands. */
export type Metres = readonly [east: number, north: number]

/** Longitude and latitude in degrees, as GeoJSON orders them. */
export type LonLat = [longitude: number, latitude: number]

const centre = { latitude: 41, longitude: -151.5 }
const earth = geodesic.Geodesic.WGS84

/**
 * Lays the drawing board on the WGS84 ellipsoid: azimuthal equidistant about the centre. At 40 km from it lengths are
 * kept within 7 parts in a million; the true lengths are measured on the ellipsoid afterwards all the same.
 */
export function toLonLat([east, north]: Metres): LonLat {
  const azimuth = (Math.atan2(east, north) * 180) / Math.PI
  const { lat2, lon2 } = earth.Direct(centre.latitude, centre.longitude, azimuth, Math.hypot(east, north))
  return [lon2!, lat2!]
}

/** The geodesic between two places, metres (Karney 2013, J. Geodesy 87:43-55). */
export function geodesicLength([lon1, lat1]: LonLat, [lon2, lat2]: LonLat): number {
  return earth.Inverse(lat1, lon1, lat2, lon2).s12!
}
