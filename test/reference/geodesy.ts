import { distance } from '../../src/model/geo/scale'
import type { ReferenceCheck } from './check'

const karney = 'Karney 2013, J. Geodesy 87:43-55, doi:10.1007/s00190-012-0578-z'
const printed = `test values of GeographicLib, ${karney}`
const computed = `by GeographicLib 2.2.0, ${karney}`

/** Latitude and longitude of both ends, degrees; geodesic length, m; source; greatest error as a share. */
const lines: [number, number, number, number, number, string, number][] = [
  [40.6, -73.8, 49.01666667, 2.55, 5853226, printed, 1e-5],
  [35.60777, -139.44815, -11.17491, -69.95921, 8935244.56048, printed, 1e-5],
  [-19.79938, -174.47484, -11.99349, -154.35109, 2319004.86012, printed, 1e-5],
  [40.1, 116.6, 37.6, -122.4, 9513998, printed, 1e-5],
  [40.6, -73.8, 51.6, -0.5, 5551759.4, computed, 1e-5],
  [48.8566, 2.3522, 51.5074, -0.1278, 343923.1201, computed, 1e-5],
  [0, 0, 1, 0, 110574.3886, computed, 1e-6],
  [0, 0, 0, 1, 111319.4908, computed, 1e-6],
  [44.5, 7, 45.5, 7, 111131.7777, computed, 1e-5],
  [45, 7, 45, 8, 78846.3347, computed, 1e-5],
  [60, 10, 61, 10, 111420.7279, computed, 1e-5],
  [60, 10, 60, 11, 55799.4704, computed, 1e-5],
  [45, 7, 45.001, 7, 111.1318, computed, 1e-6],
  [45, 7, 45, 7.001, 78.8468, computed, 1e-6],
]

export const geodesyChecks: ReferenceCheck[] = lines.map(
  ([latitude, longitude, toLatitude, toLongitude, expected, source, share]) => ({
    quantity: `distance ${latitude}, ${longitude} to ${toLatitude}, ${toLongitude}`,
    source,
    unit: 'm',
    expected,
    ours: () => distance(latitude, longitude, toLatitude, toLongitude),
    tolerance: share * expected,
    basis: source === printed ? 'published' : 'computed from published',
  }),
)
