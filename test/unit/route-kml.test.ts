import { describe, expect, it } from 'vitest'
import { readLines } from '../../src/model/route/lines'

async function read(body: string) {
  const { lines, waypoints, ...other } = await readLines(`<kml>${body}</kml>`, () => {})
  const rows = lines.map(({ parts, ...line }) => ({
    ...line,
    parts: parts.map(({ latitude, longitude, elevation, time }) =>
      Array.from(latitude, (north, i) => [north, longitude[i], elevation[i], time[i]]),
    ),
  }))
  return { ...other, waypoints, lines: rows }
}
const line = (coordinates: string, name = 'LineString') =>
  `<${name}><coordinates>${coordinates}</coordinates></${name}>`
const mark = (...inner: string[]) => `<Placemark>${inner.join('')}</Placemark>`
/** Latitudes of each part of each line. */
const latitudes = async (body: string) =>
  (await read(body)).lines.map(({ parts }) => parts.map((part) => part.map(([at]) => at)))

describe('lines of KML', () => {
  it('have triples of longitude, latitude and height, with any blanks between', async () => {
    const { format, lines } = await read(mark('<name>Way</name>', line(' 7,41,3\n\t8,42 \n 9,43,4,5 10 11,x ')))
    expect(format).toBe('KML')
    expect(lines).toEqual([
      {
        name: 'Way',
        kind: 'line',
        fromExtensions: 0,
        parts: [
          [
            [41, 7, 3, NaN],
            [42, 8, NaN, NaN],
            [43, 9, 4, NaN],
            [NaN, 11, NaN, NaN],
          ],
        ],
      },
    ])
  })

  it('may be rings, or tracks with times of their own', async () => {
    const track = `<gx:Track><when>2027-06-19T12:00:00Z</when><when>2027-06-19T12:00:05Z</when>
      <gx:coord>7 41 3</gx:coord><gx:coord> 8  42 </gx:coord><gx:coord>9 43 5</gx:coord></gx:Track>`
    const noon = Date.UTC(2027, 5, 19, 12) / 1000
    const { lines } = await read(mark(line('1,2 3,4', 'LinearRing')) + mark(track) + mark(line('5,6 7,8')))
    expect(lines.map(({ parts }) => parts)).toEqual([
      [
        [
          [2, 1, NaN, NaN],
          [4, 3, NaN, NaN],
        ],
      ],
      [
        [
          [41, 7, 3, noon],
          [42, 8, NaN, noon + 5],
          [43, 9, 5, NaN],
        ],
      ],
      // The times of one are none of the next.
      [
        [
          [6, 5, NaN, NaN],
          [8, 7, NaN, NaN],
        ],
      ],
    ])
  })

  it('of one placemark are parts of one line, however they nest', async () => {
    const nested = `<MultiGeometry>${line('7,1 7,2')}<MultiGeometry>${line('7,3 7,4')}</MultiGeometry>${line('7,5 7,6')}</MultiGeometry>`
    expect(await latitudes(mark(nested) + mark(line('7,7 7,8')))).toEqual([
      [
        [1, 2],
        [3, 4],
        [5, 6],
      ],
      [[7, 8]],
    ])
    const tracks = ['7 1 0', '7 2 0'].map((coord) => `<gx:Track><gx:coord>${coord}</gx:coord></gx:Track>`)
    expect(await latitudes(mark(`<gx:MultiTrack>${tracks.join('')}</gx:MultiTrack>`))).toEqual([[[1], [2]]])
  })

  it('are as many as there are placemarks, with or without names', async () => {
    const marks = Array.from({ length: 60 }, (_, k) => mark(k % 2 === 0 ? `<name>${k}</name>` : '', line(`7,${k} 7,1`)))
    const { lines } = await read(marks.join(''))
    expect(lines.map(({ name, parts }) => [name, parts[0]![0]![0]])).toEqual(
      marks.map((_, k) => [k % 2 === 0 ? `${k}` : '', k]),
    )
  })

  it('are as they are in elements that KML does not know, and in holders deeper than 50', async () => {
    expect(await latitudes(mark(`<x><y>${line('7,1 7,2')}</y></x>`))).toEqual([[[1, 2]]])
    const nested = (depth: number) =>
      Array.from({ length: depth }, (_, k) => `<Placemark><name>${k + 1}</name>`).join('') +
      line('7,1 7,2') +
      '</Placemark>'.repeat(depth)
    for (const depth of [2, 50, 51, 52]) {
      const { lines } = await read(nested(depth))
      expect(
        lines.map(({ name, parts }) => [name, parts.length]),
        `${depth}`,
      ).toEqual([[`${Math.min(50, depth)}`, 1]])
    }
  })

  it.each(['ExtendedData', 'Style', 'StyleMap', 'description', 'Polygon'])(
    'count for nothing inside of %s',
    async (name) => {
      const hidden = `<${name}><name>x</name>${line('9,9 9,8')}<Placemark>${line('9,7 9,6')}</Placemark></${name}>`
      const { name: ofFile, lines } = await read(`<Document>${hidden}${mark(hidden, line('7,1 7,2'))}</Document>`)
      expect([ofFile, lines.map((line) => [line.name, line.parts.flat().length])]).toEqual(['', [['', 2]]])
    },
  )

  it('are none where coordinates stand elsewhere, or a geometry has none', async () => {
    expect(await latitudes(mark('<coordinates>7,1 7,2</coordinates>', '<LineString></LineString>'))).toEqual([])
    expect(await latitudes(mark(`<x><when>2027-06-19T12:00:00Z</when></x>`, line('7,1 7,2')))).toEqual([[[1, 2]]])
    expect(await latitudes(mark('<Camera><coord>7 1</coord></Camera>', line('7,1 7,2')))).toEqual([[[1, 2]]])
  })
})

describe('names of KML', () => {
  it('are of the document and of each placemark, as text; those of folders are of neither', async () => {
    const { name, lines, waypoints } = await read(`<Document><name>Week</name><name>Other</name>
      <Folder><name>Day</name>${mark('<name>A &amp; &lt;b&gt; &amp;lt; C</name>', line('7,1 7,2'))}</Folder>
      ${mark(line('7,3 7,4'), '<name>Behind<![CDATA[ <i>it</i>]]></name>')}
      ${mark('<name>Well</name>', line('7,5', 'Point'))}</Document>`)
    expect([name, lines.map(({ name }) => name), waypoints]).toEqual([
      'Week',
      ['A & <b> &lt; C', 'Behind <i>it</i>'],
      [{ name: 'Well', latitude: 5, longitude: 7 }],
    ])
    expect(
      (await read(`<name>x</name>${mark('<name>A<b>c</b><Style>d</Style>E</name>', line('7,1 7,2'))}`)).lines[0]!.name,
    ).toBe('AcE')
    expect((await read(`<Folder><name>Day</name>${mark(line('7,1 7,2'))}</Folder>`)).name).toBe('')
  })
})

describe('places of KML', () => {
  it('are points, alone or among lines', async () => {
    const body =
      mark('<name>a</name>', line('7.25,1.5,9', 'Point')) +
      mark(
        '<name>b</name>',
        `<MultiGeometry>${line('-8,-2', 'Point')}${line('7,3 7,4')}${line('9,3', 'Point')}</MultiGeometry>`,
      ) +
      mark('<name>c</name>', line('', 'Point')) +
      mark('<name>d</name>', line('7,91', 'Point'))
    const { waypoints, lines } = await read(body)
    expect(waypoints).toEqual([
      { name: 'a', latitude: 1.5, longitude: 7.25 },
      { name: 'b', latitude: -2, longitude: -8 },
      { name: 'b', latitude: 3, longitude: 9 },
    ])
    expect(lines.map(({ name }) => name)).toEqual(['b'])
  })
})
