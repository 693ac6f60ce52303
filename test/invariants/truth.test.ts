import { describe, expect, it } from 'vitest'
import { interpolate } from '../../src/model/columns'
import { near, within } from '../asserts'
import { sampleNames, sampleRoute, sampleTruth } from './samples'

describe.each(sampleNames)('%s is read as it was made', async (name) => {
  const route = await sampleRoute(name)
  const truth = sampleTruth(name)

  it('length within 0.3 %', () => within(route.length, truth.length, 0.003, 'length'))
  it('ascent and descent within 5 %, or 5 m: noise of 3 m moves the height of each end of a route by some metres', () => {
    near(route.ascent, truth.ascent, Math.max(5, 0.05 * truth.ascent), 'ascent')
    near(route.descent, truth.descent, Math.max(5, 0.05 * truth.descent), 'descent')
  })
  it('crossings where they are', () => {
    expect(route.crossings).toHaveLength(truth.crossings.length)
    truth.crossings.forEach(({ distance, gap }, i) => {
      within(route.crossings[i]!.distance, distance, 0.003, 'place')
      within(route.crossings[i]!.length, gap, 0.01, 'length')
    })
  })
  it('gradient within 0.5 percentage points rms', () => {
    // The places of the truth lie on its own length: stretched to ours.
    const stretch = route.length / truth.length
    const { distance, elevation } = route.stations
    const height = (d: number) => interpolate(distance, elevation, d * stretch)
    const errors = truth.profile
      .filter((row) => row.distance >= 50 && row.distance <= truth.length - 50)
      .map((row) => (height(row.distance + 25) - height(row.distance - 25)) / 50 - row.gradient)
    const rms = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length)
    expect(errors.length).toBeGreaterThan(100)
    near(rms, 0, 0.005, 'rms')
  })
})
