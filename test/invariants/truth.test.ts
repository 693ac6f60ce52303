import { describe, expect, it } from 'vitest'
import { interpolate } from '../../src/model/columns'
import { near, within } from '../asserts'
import { designs } from '../../sample-routes/roads'
import { build } from '../../sample-routes/truth'
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

describe('two-passes-62km, by the road that it was made from', async () => {
  const name = 'two-passes-62km'
  const { stations, length } = await sampleRoute(name)
  const { distance, curvature } = build(designs.find(({ file }) => file === name)!)
  const turned = [0]
  for (let i = 1; i < distance.length; i++) {
    const bends = curvature[i] === curvature[i - 1] ? curvature[i]! : 0
    turned.push(turned[i - 1]! + bends * (distance[i]! - distance[i - 1]!))
  }
  const at = Float64Array.from(distance)
  const turn = (from: number, to: number) => interpolate(at, turned, to) - interpolate(at, turned, from)

  it('has hairpins at the speed of their turn over 30 m: within 10 % at nine of ten', () => {
    // Each is two arcs of 10 to 16 m radius and some 9 m between them, with two to four points of the file.
    const errors: number[] = []
    for (let i = 0; i < distance.length; i++) {
      const from = distance[i]!
      if (curvature[i]! < 1 / 30 || turn(from, from + 60) < 1.3) continue
      let truly = 0
      for (let d = from; d < from + 60; d++) truly = Math.max(truly, turn(d - 15, d + 15) / 30)
      const stretch = length / distance.at(-1)!
      const about = stations.curvature.filter(
        (_, k) => stations.distance[k]! > (from - 30) * stretch && stations.distance[k]! < (from + 90) * stretch,
      )
      errors.push(Math.sqrt(truly / Math.max(...about)) - 1)
      while (distance[i + 1]! < from + 60) i++
    }
    expect(errors.length).toBe(40)
    expect(errors.filter((error) => Math.abs(error) < 0.1).length).toBeGreaterThanOrEqual(36)
  })
})
