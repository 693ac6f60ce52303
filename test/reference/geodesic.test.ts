import geodesic from 'geographiclib-geodesic'
import { describe, expect, it } from 'vitest'
import { distance, heading, scaleAt } from '../../src/model/geo/scale'
import { near, within } from '../asserts'
import { geodesicChecks } from './geodesic'

const wgs84 = geodesic.Geodesic.WGS84
const azimuths = Array.from({ length: 24 }, (_, k) => k * 15)
const latitudes = [-75, -60, -45, -30, -10, 0, 10, 30, 45, 60, 75]

/** Share by which a distance may differ from the geodesic, and a heading in radians, by the step's length in m; just above what is reached. */
const tolerances = [
  { step: 10, share: 2e-9, angle: 1e-5 },
  { step: 1_000, share: 5e-8, angle: 4e-4 },
  { step: 10_000, share: 5e-6, angle: 4e-3 },
  { step: 19_000, share: 2e-5, angle: 7e-3 },
  { step: 50_000, share: 2e-5, angle: undefined },
  { step: 1_000_000, share: 2e-5, angle: undefined },
]

describe('distance', () => {
  for (const { step, share, angle } of tolerances) {
    it(`of ${step} m is within ${share} of the geodesic, whatever the latitude and the heading`, () => {
      for (const latitude of latitudes) {
        for (const azimuth of azimuths) {
          const { lat2, lon2 } = wgs84.Direct(latitude, 20, azimuth, step)
          within(distance(latitude, 20, lat2!, lon2!), step, share, `${latitude} ${azimuth}`)
          if (angle === undefined) continue
          const turn = heading(latitude, 20, lat2!, lon2!) - (azimuth * Math.PI) / 180
          near(Math.atan2(Math.sin(turn), Math.cos(turn)), 0, angle, `heading ${latitude} ${azimuth}`)
          if (azimuth > 0) near(turn, 0, angle, `heading from 0 to a whole turn, ${latitude} ${azimuth}`)
        }
      }
    })
  }

  it('agrees with published geodesics', () => {
    expect(geodesicChecks.length).toBeGreaterThan(10)
    for (const { quantity, sample, expected, ours, tolerance } of geodesicChecks)
      near(ours(), expected, tolerance, `${quantity}, ${sample}`)
  })

  it('is as near to the geodesic about the poles, and knows that a pole is one place', () => {
    for (const latitude of [79.95, 85, 89, 89.9, 89.999, 90]) {
      for (const pole of [1, -1]) {
        for (const azimuth of azimuths) {
          for (const step of [10, 1000, 10_000, 19_000, 1_000_000]) {
            const { lat2, lon2 } = wgs84.Direct(pole * latitude, 20, azimuth, step)
            within(distance(pole * latitude, 20, lat2!, lon2!), step, 2e-5, `${pole * latitude} ${azimuth} ${step}`)
          }
        }
        near(distance(pole * 90, 10, pole * 90, 170), 0, 1e-6)
      }
    }
  })

  it('between places opposite to each other, or nearly so, is within 5e-4 of the geodesic', () => {
    within(distance(0, 0, 0, 180), wgs84.Inverse(0, 0, 0, 180).s12!, 1e-7, 'on the equator')
    within(distance(90, 0, -90, 70), wgs84.Inverse(90, 0, -90, 70).s12!, 1e-7, 'from pole to pole')
    for (const latitude of [...latitudes, -90, 90]) {
      for (const north of [-6, -1, -0.01, 0, 1e-7, 0.3, 4]) {
        for (const east of [-5, -0.5, 0, 1e-7, 0.2, 3]) {
          const other = Math.min(90, Math.max(-90, -latitude + north))
          const { s12 } = wgs84.Inverse(latitude, 20, other, 200 + east)
          within(distance(latitude, 20, other, 200 + east), s12!, 5e-4, `${latitude} ${north} ${east}`)
        }
      }
    }
  })

  it('takes the short way across the antimeridian', () => {
    const { s12 } = wgs84.Inverse(41, 179.99, 41.01, -179.99)
    within(distance(41, 179.99, 41.01, -179.99), s12!, 1e-7)
    within(distance(41, 179.99, 41.01, 180.01), s12!, 1e-7)
    near(heading(0, 179.99, 0, -179.99), Math.PI / 2, 1e-12)
  })
})

describe('scaleAt', () => {
  it('is the length of a short arc of meridian and of parallel', () => {
    for (const latitude of latitudes) {
      const { north, east } = scaleAt(latitude)
      within(north, wgs84.Inverse(latitude - 0.001, 0, latitude + 0.001, 0).s12! / 0.002, 1e-8)
      within(east, wgs84.Inverse(latitude, 0, latitude, 0.002).s12! / 0.002, 1e-8)
    }
  })
})
