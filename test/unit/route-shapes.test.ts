import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readRoute } from '../../src/model/route/read'
import { wordsIn } from '../../src/view/words/words'

const read = (text: string | Uint8Array) =>
  readRoute(typeof text === 'string' ? new TextEncoder().encode(text) : text, 'a.gpx')

/** Reads whatever it is: a route of finite numbers, or a fault with its words. */
async function readAny(text: string | Uint8Array): Promise<'route' | 'fault'> {
  const reading = await read(text)
  if (reading.ok) {
    const { route } = reading
    for (const column of [...Object.values(route.stations), ...Object.values(route.points)] as Float64Array[])
      expect(column.every(Number.isFinite)).toBe(true)
    return 'route'
  }
  expect(wordsIn('metric').route.fault(reading.fault)).toMatch(/^[A-Z].*\.$/)
  return 'fault'
}

describe('no depth of a file throws', () => {
  const deep = 100_000
  const nested = (name: string, inner: string) => `<${name}>`.repeat(deep) + inner + `</${name}>`.repeat(deep)
  const road = '<trk><trkseg><trkpt lat="41" lon="7"/><trkpt lat="41.01" lon="7"/></trkseg></trk>'
  const line = '<LineString><coordinates>7,41 7,41.01</coordinates></LineString>'

  it.each([
    ['unknown elements about a track', `<gpx>${nested('x', road)}</gpx>`, 'route'],
    [
      'extensions of a point',
      `<gpx><rte><rtept lat="41" lon="7">${nested('x', '')}</rtept></rte>${road}</gpx>`,
      'route',
    ],
    [
      'points within points',
      `<gpx><rte><rtept lat="41" lon="7">${'<x lat="41.1" lon="7">'.repeat(deep)}${'</x>'.repeat(deep)}</rtept></rte></gpx>`,
      'route',
    ],
    ['tracks in tracks', `<gpx>${nested('trk', road)}</gpx>`, 'route'],
    ['names in names', `<gpx>${nested('name', 'n')}${road}</gpx>`, 'route'],
    ['geometries of KML', `<kml><Placemark>${nested('MultiGeometry', line)}</Placemark></kml>`, 'route'],
    ['places of KML in places', `<kml>${nested('Placemark', line)}</kml>`, 'route'],
    ['folders of KML', `<kml>${nested('Folder', `<Placemark>${line}</Placemark>`)}</kml>`, 'route'],
    ['unknown elements of KML', `<kml><Placemark>${nested('x', line)}</Placemark></kml>`, 'route'],
    ['elements that are never closed', '<gpx>' + '<x>'.repeat(deep), 'fault'],
  ])('%s', async (_, text, expected) => {
    expect(await readAny(text)).toBe(expected)
  })
})

describe('no shape of a file throws', () => {
  const names = {
    gpx: [
      'trk',
      'trkseg',
      'trkpt',
      'rte',
      'rtept',
      'wpt',
      'name',
      'ele',
      'time',
      'extensions',
      'metadata',
      'x:y',
      'desc',
    ],
    kml: [
      'Document',
      'Folder',
      'Placemark',
      'MultiGeometry',
      'LineString',
      'LinearRing',
      'Point',
      'Polygon',
      'gx:Track',
    ],
  }
  names.kml.push('gx:MultiTrack', 'coordinates', 'gx:coord', 'when', 'name', 'ExtendedData', 'x:y')
  const texts = fc.constantFrom('', ' ', '7', '7,41', '7,41,3 7.1,41.1', '7 41 3', '2031-05-04T07:00:00Z', '&lt;', 'x')
  const attributes = fc.constantFrom(
    '',
    '',
    ' lat="41"',
    ' lat="41.2" lon="7.1"',
    ' lat="x" lon="1e999"',
    ' lon="7" lat="91"',
  )

  it.each(['gpx', 'kml'] as const)('of %s', async (root) => {
    const { tree } = fc.letrec<{ tree: string }>((tie) => ({
      tree: fc.oneof(
        { maxDepth: 8, depthSize: 'large' },
        texts,
        fc
          .tuple(fc.constantFrom(...names[root]), attributes, fc.array(tie('tree'), { maxLength: 5 }))
          .map(([name, written, inner]) => `<${name}${written}>${inner.join('')}</${name}>`),
      ),
    }))
    await fc.assert(
      fc.asyncProperty(fc.array(tree, { maxLength: 12 }), async (inner) => {
        await readAny(`<${root}>${inner.join('')}</${root}>`)
      }),
      { numRuns: 300, seed: 1 },
    )
  })

  it('of files that are damaged', async () => {
    const folder = fileURLToPath(new URL('../files/', import.meta.url))
    const files = readdirSync(folder)
      .filter((file) => file !== 'expected.json')
      .map((file) => new Uint8Array(readFileSync(folder + file)))
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...files),
        fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 0, max: 255 })), {
          maxLength: 6,
        }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        async (bytes, changes, end) => {
          const damaged = bytes.slice(0, Math.ceil(bytes.length * Math.max(end, 0.3)))
          for (const [at, value] of changes) damaged[Math.floor(at * damaged.length)] = value
          await readAny(damaged)
        },
      ),
      { numRuns: 300, seed: 2 },
    )
  })
})

it('names of places come without the markup that some files have in them', async () => {
  const road = '<trk><trkseg><trkpt lat="41" lon="7"/><trkpt lat="41.01" lon="7"/></trkseg></trk>'
  const named = (name: string) => `<wpt lat="41" lon="7"><name>${name}</name></wpt>`
  const names = ['&lt;b&gt;Inn&lt;/b&gt; &amp;amp; Bar', '<![CDATA[Mill<br/>Pond]]>', 'Below 5 &lt; 6 km']
  const reading = await read(`<gpx>${names.map(named).join('')}${road}</gpx>`)
  expect(reading.ok && reading.route.waypoints.map(({ name }) => name)).toEqual([
    'Inn & Bar',
    'Mill Pond',
    'Below 5 < 6 km',
  ])
})
