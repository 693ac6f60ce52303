import { describe, expect, it } from 'vitest'
import { GpxDocument } from '../../src/model/route/gpx'
import { readLines } from '../../src/model/route/lines'
import type { Part } from '../../src/model/route/parts'

const rows = ({ latitude, longitude, elevation, time }: Part) =>
  Array.from(latitude, (north, i) => [north, longitude[i], elevation[i], time[i]])

async function read(body: string) {
  const { lines, waypoints, ...other } = await readLines(`<gpx>${body}</gpx>`, () => {})
  return { ...other, waypoints, lines: lines.map(({ parts, ...line }) => ({ ...line, parts: parts.map(rows) })) }
}
/** Parts of the first line, by the latitudes of their points. */
const latitudes = async (body: string) =>
  (await read(body)).lines[0]?.parts.map((part) => part.map(([latitude]) => latitude))

const noon = Date.UTC(2027, 5, 19, 12) / 1000
const point = (latitude: number, inner = '') => `<trkpt lat="${latitude}" lon="7">${inner}</trkpt>`

describe('points of a track', () => {
  it('have elevation and time of their own, in any order, behind whatever else they hold', async () => {
    const body = `<trk><trkseg>
      <trkpt lat="41" lon="7"><ele>3.5</ele><time>2027-06-19T12:00:00Z</time></trkpt>
      <trkpt lon="8" lat="42"><time>2027-06-19T12:00:01Z</time><sat>9</sat><ele> 4 </ele></trkpt>
      <trkpt lat="43" lon="9"><extensions><ele>99</ele><time>2020-01-01T00:00:00Z</time></extensions></trkpt>
      <trkpt lat="44" lon="10"><ele>5</ele></trkpt>
      <trkpt lat="45" lon="11"><time>2027-06-19T12:00:02Z</time></trkpt>
      <trkpt lat="46" lon="12"><ele>&#54;</ele></trkpt>
    </trkseg></trk>`
    expect((await read(body)).lines[0]!.parts).toEqual([
      [
        [41, 7, 3.5, noon],
        [42, 8, 4, noon + 1],
        [43, 9, NaN, NaN],
        [44, 10, 5, NaN],
        [45, 11, NaN, noon + 2],
        [46, 12, 6, NaN],
      ],
    ])
  })

  it('lie in parts: each segment, and what lies in a track outside of segments', async () => {
    const segment = (...inner: number[]) => `<trkseg>${inner.map((at) => point(at)).join('')}</trkseg>`
    expect(await latitudes(`<trk>${segment(1, 2)}${segment()}${segment(3)}</trk>`)).toEqual([[1, 2], [3]])
    expect(await latitudes(`<trk>${point(1)}${segment(2)}${point(3)}${point(4)}</trk>`)).toEqual([[1], [2], [3, 4]])
    expect(await latitudes(`${point(1)}${point(2)}`)).toEqual([[1, 2]])
    // Of a track that is not closed, and of one that begins within another.
    const { lines } = await read(`<trk><name>a</name>${point(1)}<trk>${point(2)}</trk></trk>${point(3)}`)
    expect(lines.map(({ name, kind, parts }) => [name, kind, parts.flat().map(([at]) => at)])).toEqual([
      ['a', 'track', [1]],
      ['', 'track', [2]],
      ['', 'track', [3]],
    ])
  })

  it('go on over what has no place there', async () => {
    for (const odd of ['extensions', 'name']) {
      const inside = `<${odd}><trkseg></trkseg><trk></trk></${odd}>`
      expect(await latitudes(`<trk><trkseg>${point(1)}${inside}${point(2)}</trkseg></trk>`)).toEqual([[1, 2]])
    }
    // Behind the end of a track or a route they are others.
    for (const [line, tag] of [
      ['trk', 'trkpt'],
      ['rte', 'rtept'],
    ]) {
      const { lines } = await read(`<${line}><${tag} lat="1" lon="7"/></${line}>${point(2)}`)
      expect(lines.map(({ parts }) => parts.flat().length)).toEqual([1, 1])
    }
  })

  it('count for nothing inside of what is left out', async () => {
    for (const name of ['extensions', 'desc', 'cmt']) {
      const hidden = `<${name}><trk><name>x</name>${point(9)}</trk><name>y</name><wpt lat="9" lon="9"/></${name}>`
      const { name: ofFile, lines, waypoints } = await read(`${hidden}<trk>${hidden}${point(1)}</trk>`)
      expect([ofFile, lines.map((line) => [line.name, line.parts.flat().length]), waypoints]).toEqual([
        '',
        [['', 1]],
        [],
      ])
    }
  })
})

describe('names', () => {
  it('are of the file, of each line and of each place by where they stand, the first of several', async () => {
    const { name, lines, waypoints } = await read(`
      <name>Old</name><metadata><name>New</name></metadata><author><name>Who</name></author>
      <wpt lat="1" lon="2"><link><name>no</name></link><name> Well
        of  stone </name><name>Other</name></wpt>
      <rte><name>Plan</name><rtept lat="3" lon="4"><name>Corner</name></rtept></rte>
      <trk><link><name>no</name></link><name>Way</name><name>Not</name><trkseg><name>no</name>${point(5)}</trkseg></trk>`)
    expect(name).toBe('Old')
    expect(waypoints).toEqual([{ name: 'Well of stone', latitude: 1, longitude: 2 }])
    expect(lines.map(({ name, kind }) => [name, kind])).toEqual([
      ['Way', 'track'],
      ['Plan', 'route'],
    ])
    expect((await read(`<metadata><name>New</name></metadata>${point(1)}`)).name).toBe('New')
    expect((await read(`<trk><name>A<b>x</b>B</name>${point(1)}</trk>`)).lines[0]!.name).toBe('AxB')
    expect((await read(`<trk><name>${'n'.repeat(300)}</name>${point(1)}</trk>`)).lines[0]!.name).toBe('n'.repeat(200))
  })

  it('are none where no line or place is open', async () => {
    const { name, lines } = await read(`<trk>${point(1)}</trk><other><name>no</name></other>`)
    expect([name, lines.map((line) => line.name)]).toEqual(['', ['']])
  })
})

describe('places', () => {
  it('within places are those within', async () => {
    const { waypoints, format } = await read('<wpt lat="1" lon="2"><wpt lat="3" lon="4"></wpt></wpt>')
    expect(waypoints).toEqual([{ name: '', latitude: 3, longitude: 4 }])
    expect(format).toBe('GPX')
  })

  it('have possible coordinates', async () => {
    const places = [
      [90, 180],
      [-90, -180],
      [90.1, 0],
      [0, 180.1],
      [-90.1, 0],
      [0, -180.1],
      ['x', 0],
      [0, ''],
    ]
    const body = places.map(([latitude, longitude]) => `<wpt lat="${latitude}" lon="${longitude}"/>`).join('')
    expect((await read(body)).waypoints.map(({ latitude, longitude }) => [latitude, longitude])).toEqual([
      [90, 180],
      [-90, -180],
    ])
  })
})

describe('extensions of a route point', () => {
  it('lead on through the points that they hold, in their order, counted', async () => {
    const { lines } = await read(`<rte>
      <rtept lat="1" lon="7"><ele>10</ele><extensions><x:way><x:p lat="2" lon="7"><ele>20</ele></x:p><y lat="3" lon="7"/></x:way></extensions></rtept>
      <rtept lat="4" lon="7"><extensions><p lat="5"/><p lon="5"/></extensions></rtept>
      <rtept lat="6" lon="7"><p lat="7" lon="7"><q lat="8" lon="7"><time>2027-06-19T12:00:00Z</time></q></p></rtept>
    </rte>`)
    expect(lines).toEqual([
      {
        name: '',
        kind: 'route',
        fromExtensions: 4,
        parts: [
          [
            [1, 7, 10, NaN],
            [2, 7, 20, NaN],
            [3, 7, NaN, NaN],
            [4, 7, NaN, NaN],
            [6, 7, NaN, NaN],
            [7, 7, NaN, NaN],
            [8, 7, NaN, noon],
          ],
        ],
      },
    ])
  })

  it('of a track point do not', async () => {
    const { lines } = await read(`<trk>${point(1, '<extensions><p lat="2" lon="7"/></extensions>')}${point(3)}</trk>`)
    expect(lines.map(({ fromExtensions, parts }) => [fromExtensions, parts.flat().length])).toEqual([[0, 2]])
  })
})

describe('what sensors measured', () => {
  const sensed = (inner: string) => point(2, `<extensions>${inner}</extensions>`)
  const body = [
    '<trk><trkseg>',
    point(1),
    sensed('<x:hr>120</x:hr><y><cad>81</cad></y><power>201.5</power><depth>9</depth>'),
    sensed('<HeartRate>121</HeartRate><cadence>82</cadence><PowerInWatts>202</PowerInWatts>'),
    sensed('<watts>203</watts><hr>x</hr>'),
    point(3),
    '</trkseg><trkseg>',
    point(4),
    '</trkseg></trk>',
  ].join('')
  const parts = async (sensors?: boolean) =>
    (await readLines(`<gpx>${body}</gpx>`, () => {}, sensors)).lines[0]!.parts.map((part) => ({
      points: part.latitude.length,
      ...(part.sensors && {
        power: [...part.sensors.power],
        heartRate: [...part.sensors.heartRate],
        cadence: [...part.sensors.cadence],
      }),
    }))

  it('is gathered by any of its names where it is asked for, for each point or none', async () => {
    expect(await parts(true)).toEqual([
      {
        points: 5,
        power: [NaN, 201.5, 202, 203, NaN],
        heartRate: [NaN, 120, 121, NaN, NaN],
        cadence: [NaN, 81, 82, NaN, NaN],
      },
      { points: 1 },
    ])
    expect(await parts()).toEqual([{ points: 5 }, { points: 1 }])
  })
})

describe('plain points, read on past the parser', () => {
  /** How much of a text is read on behind a point of a track, and the points of it. */
  function readOn(text: string, behind: 'trkpt' | 'wpt' | 'ele' = 'trkpt') {
    const document = new GpxDocument()
    const opened = ['gpx', 'trk', 'trkseg']
    opened.forEach((name, i) => document.opened(name, {}, i + 1))
    if (behind === 'ele') document.opened('trkpt', { lat: '1', lon: '2' }, 4)
    const depth = behind === 'ele' ? 5 : 4
    document.opened(behind, { lat: '1', lon: '2' }, depth)
    document.closed(behind, depth)
    const from = 3
    return { document, read: document.readOn(`...${text}`, from) - from }
  }
  const plain = [
    '<trkpt lat="41.25" lon="-7.125"></trkpt>',
    '\n  <trkpt\n lat="1"\t lon="2"  >\n  </trkpt>',
    '<trkpt lat="" lon="x"><ele>3</ele></trkpt>',
    '<trkpt lat="1" lon="2"> \n<ele></ele> \n<time>12</time> \n</trkpt>',
    '<trkpt lat="1" lon="2"><ele>34</ele><time>56</time></trkpt>',
    '<trkpt lat="1" lon="2"><time></time></trkpt>',
  ]

  it('are those with nothing but elevation and time', async () => {
    for (const text of plain) expect(readOn(text).read, text).toBe(text.length)
    const all = plain.join('') + plain.join('\n')
    const { document, read } = readOn(`${all}\n<trkpt lat="1" lon="2"><sat/></trkpt>${all}`)
    expect(read).toBe(all.length)
    document.closed('trkseg', 3)
    expect((await document.read()).lines[0]!.parts.map(({ latitude }) => latitude.length)).toEqual([1 + 12])
  })

  it.each([
    '<trkpt lon="2" lat="1"></trkpt>',
    '<trkpt lat="1" lon="2"/>',
    '<trkptx lat="1" lon="2"></trkpt>',
    '<trkptx lat="1" lon="2" ></trkpt>',
    '<trkpt lat="1"lon="2"></trkpt>',
    '<trkpt lat="1" lon="2"x></trkpt>',
    '<trkpt lat="1&lt;" lon="2"></trkpt>',
    '<trkpt lat="1" lon="&#50;"></trkpt>',
    '<trkpt lat="1" lon="2"><ele>&#51;</ele></trkpt>',
    '<trkpt lat="1" lon="2"><time>&amp;</time></trkpt>',
    '<trkpt lat="1" lon="2"><ele>3<!-- --></ele></trkpt>',
    '<trkpt lat="1" lon="2"><time>5</time><ele>3</ele></trkpt>',
    '<trkpt lat="1" lon="2"><ele>3</ele><ele>3</ele></trkpt>',
    '<trkpt lat="1" lon="2">x</trkpt>',
    '<trkpt lat="1" lon="2"><ele>3</ele>x</trkpt>',
    '<trkpt lat="1" lon="2"><time>3</time>x</trkpt>',
    'x<trkpt lat="1" lon="2"></trkpt>',
    '<!-- <trkpt lat="1" lon="2"></trkpt>',
    '<trkpt lat="1" lon="2"><ele>3',
  ])('are none such as %s', (text) => {
    expect(readOn(text).read).toBe(0)
    expect(readOn(plain[0] + text).read).toBe(plain[0]!.length)
  })

  it('are not looked for behind what is no point of a track, nor farther than a million characters on', () => {
    expect(readOn(plain[0]!, 'wpt').read).toBe(0)
    expect(readOn(plain[0]!, 'ele').read).toBe(0)
    const padded = `${' '.repeat(2 ** 19)}${plain[0]}`
    expect(readOn(padded.repeat(4)).read).toBe(2 * padded.length)
  })

  it('go on in the part, with what they say', async () => {
    const body = `<trk><trkseg>${point(1)}<trkpt lat="2" lon="3"><ele>4</ele><time>2027-06-19T12:00:00Z</time></trkpt>${point(5)}</trkseg>`
    expect((await read(`${body}<trkseg>${point(6)}</trkseg></trk>`)).lines[0]!.parts).toEqual([
      [
        [1, 7, NaN, NaN],
        [2, 3, 4, noon],
        [5, 7, NaN, NaN],
      ],
      [[6, 7, NaN, NaN]],
    ])
  })
})
