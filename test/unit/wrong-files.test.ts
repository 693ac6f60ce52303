import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan } from '../../src/model/plan/defaults'
import { readRoute } from '../../src/model/route/read'

/** What `npm run fuzz` found, each as small as it can be. */
describe('a wrong file', () => {
  it('with elevations at the end of a way round the Earth alone gives heights of roads and finite numbers', async () => {
    const far = ['0.1', '-179.9', '0.1'].map((lon) => `<trkpt lat="0" lon="${lon}"/>`)
    const near = Array.from({ length: 6 }, (_, i) => {
      const latitude = 41.0043 + i * 0.00018
      return `<trkpt lat="${latitude}" lon="-151"><ele>${114 + 0.6 * i}</ele></trkpt>`
    })
    const text = `<gpx><trk><trkseg>${[...far, ...near].join('')}</trkseg></trk></gpx>`
    const reading = await readRoute(new TextEncoder().encode(text), 'far.gpx')
    if (!reading.ok) throw new Error(reading.fault.code)
    const { elevation } = reading.route.stations
    expect(elevation.every((h) => h >= -500 && h <= 9000)).toBe(true)
    const { books, columns } = simulate(reading.route, defaultPlan())
    for (const value of [...Object.values(books), columns.time.at(-1)]) expect(value).toSatisfy(Number.isFinite)
  })
})
