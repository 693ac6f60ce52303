import geodesic from 'geographiclib-geodesic'
import { distance } from '../../src/model/geo/scale'
import type { ReferenceCheck } from './check'

const geographicLib = 'GeographicLib test set for geodesics, Karney 2013, doi:10.1007/s00190-012-0578-z'
const computed = 'Karney 2013, doi:10.1007/s00190-012-0578-z, by geographiclib-geodesic 2.2.0'

/** Latitude and longitude of both ends, length in m. */
const published: [string, number, number, number, number, number][] = [
  ['New York to Paris', 40.6, -73.8, 49.01666667, 2.55, 5853226],
  ['Pacific to Amazon', 35.60777, -139.44815, -11.17491, -69.95921, 8935244.5604818305],
  ['Samoa to the Marquesas', -19.79938, -174.47484, -11.99349, -154.35109, 2319004.8601169389],
  ['Beijing to San Francisco', 40.1, 116.6, 37.6, -122.4, 9513998],
]

const wgs84 = geodesic.Geodesic.WGS84
const latitudes = [-75, -60, -45, -30, -10, 0, 10, 30, 45, 60, 75]
const azimuths = Array.from({ length: 24 }, (_, k) => k * 15)

/** Length of a step, m, and share by which it may differ from the geodesic; just above what is reached. */
const steps: [string, number, number][] = [
  ['10 m', 10, 2e-9],
  ['1 km', 1_000, 5e-8],
  ['10 km', 10_000, 5e-6],
  ['50 km', 50_000, 2e-5],
  ['1,000 km', 1_000_000, 2e-5],
]

const grid = steps.flatMap(([name, step, share]) =>
  latitudes.flatMap((latitude) =>
    azimuths.map((azimuth): ReferenceCheck => ({
      quantity: `geodesics of ${name}`,
      sample: `from ${latitude}° of latitude towards ${azimuth}°`,
      source: computed,
      unit: 'm',
      expected: step,
      ours: () => {
        const { lat2, lon2 } = wgs84.Direct(latitude, 20, azimuth, step)
        return distance(latitude, 20, lat2!, lon2!)
      },
      tolerance: share * step,
      basis: 'computed from published',
    })),
  ),
)

export const geodesicChecks: ReferenceCheck[] = [
  ...published.map(([sample, latitude, longitude, toLatitude, toLongitude, expected]): ReferenceCheck => ({
    quantity: 'long geodesics as printed',
    sample,
    source: geographicLib,
    unit: 'm',
    expected,
    ours: () => distance(latitude, longitude, toLatitude, toLongitude),
    tolerance: expected * 5e-6,
    basis: 'published',
  })),
  ...grid,
]
