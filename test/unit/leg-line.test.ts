import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { nearestPlace, positionAt } from '../../src/model/route/place'
import { legBounds, legLine } from '../../src/model/readings/leg-line'
import { legsOf } from '../../src/model/readings/legs'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan } from '../../src/model/plan/defaults'
import { readRoute } from '../../src/model/route/read'
import { near } from '../asserts'

const bytes = readFileSync(new URL('../../sample-routes/two-islands-165km.gpx', import.meta.url))

describe('the line of a leg', async () => {
  const reading = await readRoute(bytes, 'two-islands-165km.gpx')
  if (!reading.ok) throw new Error(reading.fault.code)
  const { route } = reading
  const legs = legsOf(simulate(route, defaultPlan()))

  it('begins and ends where the leg does, on both islands', () => {
    expect(legs.length).toBeGreaterThan(15)
    for (const { start, end } of legs) {
      const { coordinates } = legLine(route, start, end).geometry
      const from = coordinates[0]!
      const to = coordinates.at(-1)!
      near(nearestPlace(route, from[1]!, from[0]!, { around: start, reach: 200 }).distance, start, 1, 'start')
      near(nearestPlace(route, to[1]!, to[0]!, { around: end, reach: 200 }).distance, end, 1, 'end')
    }
  })

  it('lies within its bounds, and the bounds are no larger than the leg', () => {
    const { start, end } = legs[3]!
    const [west, south, east, north] = legBounds(route, start, end)
    for (let s = start; s <= end; s += 50) {
      const { latitude, longitude } = positionAt(route, s)
      expect(latitude).toBeGreaterThanOrEqual(south - 1e-5)
      expect(latitude).toBeLessThanOrEqual(north + 1e-5)
      expect(longitude).toBeGreaterThanOrEqual(west - 1e-5)
      expect(longitude).toBeLessThanOrEqual(east + 1e-5)
    }
    expect((north - south) * 111_000).toBeLessThanOrEqual(end - start)
  })
})
