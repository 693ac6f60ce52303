import { readFileSync } from 'node:fs'
import { XmlDocument, XsdValidator } from 'libxml2-wasm'
import { describe, expect, it } from 'vitest'
import { routeGpx, type GpxPlace } from '../../src/model/export/gpx'
import { readRoute } from '../../src/model/route/read'
import { near } from '../asserts'
import { courseRoute } from '../routes'

const schema = readFileSync(new URL('../reference/gpx-1.1.xsd', import.meta.url), 'utf8')
const validator = XsdValidator.fromDoc(XmlDocument.fromString(schema))
const names = { g: 'http://www.topografix.com/GPX/1/1' }

const valid = (text: string) => {
  const document = XmlDocument.fromString(text)
  validator.validate(document)
  return document
}
const place = (change: Partial<GpxPlace>): GpxPlace => ({
  name: 'Mill',
  distance: 20_000,
  description: '',
  kind: '',
  ...change,
})

describe('the schema used here', () => {
  it('refuses what the published one refuses', () => {
    const gpx = (inside: string, attributes = 'version="1.1" creator="x"') =>
      `<gpx xmlns="${names.g}" ${attributes}>${inside}</gpx>`
    expect(() => valid(gpx(''))).not.toThrow()
    for (const wrong of [
      gpx('<wpt lat="1" lon="180"/>'),
      gpx('<wpt lat="91" lon="0"/>'),
      gpx('<wpt lat="1"/>'),
      gpx('<wpt lat="1" lon="1"><name>n</name><ele>1</ele></wpt>'),
      gpx('<trk/><wpt lat="1" lon="1"/>'),
      gpx('<wpt lat="1" lon="1"><ele>1e3</ele></wpt>'),
      gpx('', 'version="1.0" creator="x"'),
      gpx('', 'version="1.1"'),
    ])
      expect(() => valid(wrong), wrong).toThrow()
  })
})

describe('the route as GPX 1.1', () => {
  const route = courseRoute({ length: 60_000, spacing: 100, elevation: (d) => d / 1000, crossings: [40_000] })

  it('is valid, with stops as waypoints and a segment for each ridden section', () => {
    const document = valid(
      routeGpx(route, [
        place({}),
        place({ name: 'Quay', distance: 40_000, description: 'km 40, 09:12', kind: 'crossing' }),
      ]),
    )
    expect(document.find('/g:gpx/g:trk/g:trkseg', names)).toHaveLength(2)
    expect(document.find('/g:gpx/g:trk/g:trkseg[1]/g:trkpt', names)).toHaveLength(401)
    expect(document.get('/g:gpx/g:wpt[2]/g:name', names)!.content).toBe('Quay')
    expect(document.get('/g:gpx/g:wpt[2]/g:type', names)!.content).toBe('crossing')
    expect(document.get('/g:gpx/g:wpt[1]/g:ele', names)!.content).toBe('20.0')
  })

  it('carries names as text, whatever is in them', () => {
    const name = `<trk> & "Bäckerei" ]]> 'x' \u0007\uD800 🚲`
    const document = valid(routeGpx({ ...route, name }, [place({ name, description: '<script>alert(1)</script>' })]))
    expect(document.get('/g:gpx/g:wpt/g:name', names)!.content).toBe(`<trk> & "Bäckerei" ]]> 'x'  🚲`)
    expect(document.get('/g:gpx/g:trk/g:name', names)!.content).toContain('🚲')
    expect(document.find('//g:script', names)).toHaveLength(0)
  })

  it('wraps longitudes into [-180, 180), to the last digit written', () => {
    const longitude = Float64Array.from(
      route.points.longitude,
      (_, i) => [179.9999999, 180, 180.5, 539.9, -180.25, -0.0000001][i % 6]!,
    )
    const document = valid(routeGpx({ ...route, points: { ...route.points, longitude } }, []))
    const written = document
      .find('//g:trkpt/@lon', names)
      .slice(0, 6)
      .map((node) => node.content)
    expect(written).toEqual(['-180.000000', '-180.000000', '-179.500000', '179.900000', '179.750000', '0.000000'])
  })

  it('stands a line each, with nothing in a point that is not known', () => {
    const short = courseRoute({ length: 20, spacing: 20, latitude: 45, elevation: () => 7 })
    const flat = { ...short, name: '', elevationKnown: 'none' as const }
    expect(routeGpx(flat, [place({ name: '', distance: 0 }), place({ name: '', distance: 0, kind: 'stop' })])).toBe(
      `<?xml version="1.0" encoding="UTF-8"?>
<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="Wattfare">
  <metadata></metadata>
  <wpt lat="45.000000" lon="7.000000"/>
  <wpt lat="45.000000" lon="7.000000"><type>stop</type></wpt>
  <trk>
    <trkseg>
      <trkpt lat="45.000000" lon="7.000000"/>
      <trkpt lat="45.000180" lon="7.000000"/>
    </trkseg>
  </trk>
</gpx>
`,
    )
    expect(routeGpx({ ...short, name: 'Way' }, [])).toContain(
      '<trkpt lat="45.000000" lon="7.000000"><ele>7.0</ele></trkpt>',
    )
  })

  it('is valid without elevations, places and name', () => {
    const document = valid(routeGpx({ ...route, name: '', elevationKnown: 'none' }, []))
    expect(document.find('//g:ele', names)).toHaveLength(0)
    expect(document.find('//g:name', names)).toHaveLength(0)
  })

  it('comes back through our own reader with the same length, crossing and places', async () => {
    const bytes = readFileSync(new URL('../../sample-routes/two-islands-165km.gpx', import.meta.url))
    const first = await readRoute(bytes, 'a.gpx')
    if (!first.ok) throw new Error(first.fault.code)
    const text = routeGpx(first.route, [place({})])
    valid(text)
    const again = await readRoute(new TextEncoder().encode(text), 'b.gpx')
    if (!again.ok) throw new Error(again.fault.code)
    near(again.route.length, first.route.length, 20, 'length')
    expect(again.route.crossings).toHaveLength(first.route.crossings.length)
    near(again.route.waypoints.at(-1)!.distance!, 20_000, 5, 'place')
  })
})
