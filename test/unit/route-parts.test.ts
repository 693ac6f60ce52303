import { gzipSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { ascentBetween } from '../../src/model/route/ascent'
import { crossingName } from '../../src/model/route/crossing-name'
import { decode } from '../../src/model/route/decode'
import { Refusal } from '../../src/model/route/fault'
import { byStation, stationNear } from '../../src/model/route/nearest'
import { toNumber, toTime } from '../../src/model/route/figures'
import { Parts, type Part } from '../../src/model/route/parts'
import { survey } from '../../src/model/route/survey'
import { makeRandom } from '../../sample-routes/random'
import { near } from '../asserts'
import { courseRoute } from '../routes'

describe('numbers and times of a file', () => {
  it('are numbers as a whole, or none', () => {
    expect(['12', ' -3.5 ', '1e3', '0', '+7'].map(toNumber)).toEqual([12, -3.5, 1000, 0, 7])
    for (const text of [undefined, '', '  ', '12m', '1,5', 'Infinity', '-Infinity', 'NaN'])
      expect(toNumber(text), `${text}`).toBeNaN()
  })

  it('are times with their zone, and else of UTC (XML Schema dateTime; GPX 1.1)', () => {
    const noon = Date.UTC(2027, 5, 19, 12) / 1000
    for (const text of [
      '2027-06-19T12:00:00Z',
      '2027-06-19T12:00:00z',
      ' 2027-06-19T12:00:00Z\n',
      '2027-06-19T14:00:00+02:00',
      '2027-06-19T05:30:00-0630',
      '2027-06-19T12:00:00',
      '2027-06-19T12:00:00.000',
    ])
      expect(toTime(text), text).toBe(noon)
    expect(toTime('2027-06-19')).toBe(noon - 43_200)
    for (const text of [undefined, '', 'noon', '2027-13-40T12:00:00Z']) expect(toTime(text), `${text}`).toBeNaN()
  })

  it('are read to the bit as the language reads them (ECMA-262, 7.1.4.1 and 21.4.3.2), in the forms that are read without it too', () => {
    const random = makeRandom(5, 'figures')
    const digits = (count: number) => Array.from({ length: count }, () => Math.floor(10 * random())).join('')
    for (let i = 0; i < 20_000; i++) {
      const text = `${random() < 0.5 ? '-' : ''}${digits(Math.floor(10 * random()))}.${digits(1 + Math.floor(9 * random()))}`
      if (!Object.is(toNumber(text), Number(text))) expect.fail(`${text} read as ${toNumber(text)}`)
    }
    for (const text of ['12.', '.5', '-0', '0.1', '9007199254740993', '123456789012345', '000000000000000001.5'])
      expect(toNumber(text), text).toBe(Number(text))
    for (const text of ['.', '-', '1.2.3', '-.']) expect(toNumber(text), text).toBeNaN()
    for (let i = 0; i < 20_000; i++) {
      const text = `${new Date(Math.floor(4e9 * random()) * 1000).toISOString().slice(0, 19)}Z`
      if (toTime(text) !== Date.parse(text) / 1000) expect.fail(`${text} read as ${toTime(text)}`)
    }
    for (const text of ['2027-02-29T12:00:00Z', '2027-04-31T00:00:01Z', '2027-06-19T24:00:00Z', '2027-06-19T12:60:00Z'])
      expect(toTime(text), text).toBe(Date.parse(text) / 1000)
    for (const text of ['2O27-06-19T12:00:00Z', '2027-06-19T12:00:6OZ', '2027-06-19 12:00:00Z'])
      expect(toTime(text), text).toBe(Date.parse(text) / 1000)
  })

  it('come in parts, one after the other', () => {
    const parts = new Parts()
    expect(parts.take()).toBeUndefined()
    parts.add(1, 2, 3, 4)
    parts.add(5, 6, 7, 8)
    parts.add(9, 10, 11, 12)
    parts.setTimes([100, 200])
    const part = parts.take()!
    expect([part.latitude, part.longitude, part.elevation, part.time].map((column) => [...column])).toEqual([
      [1, 5, 9],
      [2, 6, 10],
      [3, 7, 11],
      [100, 200, 12],
    ])
    expect(parts.take()).toBeUndefined()
    parts.add(1, 2, 3, 4)
    parts.setTimes([7, 8, 9])
    expect([...parts.take()!.time]).toEqual([7])
  })
})

describe('the text of a file', () => {
  const bytes = (...parts: (string | number[])[]) =>
    Uint8Array.from(parts.flatMap((part) => (typeof part === 'string' ? [...Buffer.from(part, 'latin1')] : part)))
  const wide = (text: string, big: boolean) =>
    [...text].flatMap((letter) => {
      const code = letter.charCodeAt(0)
      return big ? [code >> 8, code & 255] : [code & 255, code >> 8]
    })
  const codeOf = async (file: Uint8Array) => {
    try {
      await decode(file)
    } catch (error) {
      if (error instanceof Refusal) return error.fault
      throw error
    }
    return undefined
  }

  it('is decoded by its mark, by how it begins, by what it says, and else by what it holds (XML 1.0, appendix F)', async () => {
    const text = '<gpx>Köln Ω</gpx>'
    const latin = '<gpx>K\u00f6ln</gpx>'
    for (const big of [false, true]) {
      const mark = big ? [0xfe, 0xff] : [0xff, 0xfe]
      expect(await decode(bytes(mark, wide(text, big)))).toBe(text)
      expect(await decode(bytes(wide(text, big)))).toBe(text)
    }
    const utf8 = [...Buffer.from(text)]
    expect(await decode(bytes([0xef, 0xbb, 0xbf], utf8))).toBe(text)
    expect(await decode(bytes(utf8))).toBe(text)
    // Not valid as UTF-8: Windows-1252, in which 0xf6 is ö.
    expect(await decode(bytes('<gpx>', [0xf6], '</gpx>'))).toBe('<gpx>ö</gpx>')
    expect(await decode(bytes('<?xml version="1.0" encoding="UTF-8"?>', latin))).toContain('Köln')
    expect(await decode(bytes("<?xml version='1.0' encoding = 'iso-8859-2'?><a>", [0xb1], '</a>'))).toContain(
      '<a>ą</a>',
    )
    expect(await decode(bytes('<?xml version="1.0" encoding="utf-16"?>', utf8))).toContain('Köln Ω')
    expect(await decode(bytes('  <?xml version="1.0" encoding="koi8-r"?><a>', [0xc1], '</a>'))).toContain('<a>а</a>')
  })

  it('is of no mark that is there in part only', async () => {
    // All in Windows-1252, for they are not valid as UTF-8.
    for (const [start, text] of [
      [[0xef, 0xbb, 0x41], 'ï»A'],
      [[0xef, 0x41, 0xbf], 'ïA¿'],
      [[0x41, 0xbb, 0xbf], 'A»¿'],
      [[0xfe, 0x41], 'þA'],
      [[0x41, 0xff], 'Aÿ'],
      [[0xff, 0x41], 'ÿA'],
      [[0x41, 0xfe], 'Aþ'],
    ] as const)
      expect(await decode(bytes([...start], 'BC')), text).toBe(`${text}BC`)
    expect(await decode(bytes([0, 0x41], 'BC'))).toBe('\u0000ABC')
    expect(await decode(bytes([0x41, 0], 'BC'))).toBe('A\u0000BC')
    expect(await decode(bytes('<A', [0xf6], 'BC'))).toBe('<AöBC')
    // The mark is worth more than what follows.
    expect(await decode(bytes([0xef, 0xbb, 0xbf], '<a>', [0xf6], '</a>'))).toBe('<a>\ufffd</a>')
  })

  it('is of what it says only where that is not the Unicode that it is not', async () => {
    const said = (encoding: string) => decode(bytes(`<?xml version="1.0" encoding="${encoding}"?><a>`, [0xb1], '</a>'))
    for (const encoding of ['utf8', 'UTF_8', 'utf 16', ' utf-16le'])
      expect(await said(encoding), encoding).toContain('±')
    for (const encoding of ['iso-8859-2', 'x-iso-utf8'])
      expect(await said(encoding).catch(() => 'refused'), encoding).not.toContain('±')
  })

  it('is unpacked where it begins as gzip does, by both its bytes', async () => {
    expect(await decode(Uint8Array.from(gzipSync('<gpx/>')))).toBe('<gpx/>')
    expect(await decode(bytes([0x1f], '<gpx/>'))).toBe('\u001f<gpx/>')
    expect(await decode(bytes('<', [0x8b], 'gpx/>'))).toContain('gpx/>')
    const cut = gzipSync('<gpx>'.repeat(99)).subarray(0, 20)
    expect(await codeOf(Uint8Array.from(cut))).toEqual({ code: 'damagedGzip' })
  })

  it('is refused where there is none, of an archive, and in an encoding that is none', async () => {
    expect(await codeOf(bytes())).toEqual({ code: 'empty' })
    expect(await codeOf(Uint8Array.from(gzipSync('')))).toEqual({ code: 'empty' })
    expect(await codeOf(bytes('PK', [3, 4], 'doc'))).toEqual({ code: 'zip' })
    for (const other of ['PK\u0003\u0005', 'PK\u0004\u0004', 'PL\u0003\u0004', 'QK\u0003\u0004'])
      expect(await codeOf(bytes(other, 'doc')), JSON.stringify(other)).toBeUndefined()
    const long = 'x'.repeat(60)
    expect(await codeOf(bytes(`<?xml version="1.0" encoding="${long}"?>`))).toEqual({
      code: 'encoding',
      encoding: 'x'.repeat(40),
    })
  })
})

describe('a line at a glance', () => {
  const part = (count: number, change: (i: number) => Partial<Record<keyof Part, number>> = () => ({})): Part => {
    const column = (key: keyof Part, of: (i: number) => number) =>
      Float64Array.from({ length: count }, (_, i) => change(i)[key] ?? of(i))
    return {
      latitude: column('latitude', (i) => i / 1000),
      longitude: column('longitude', () => 9),
      elevation: column('elevation', () => 0),
      time: column('time', (i) => 1_800_000_000 + i),
    }
  }
  const seen = (...parts: Part[]) => survey({ name: 'a', kind: 'track', parts, fromExtensions: 0 })

  it('has its length without gaps, its times, and an outline of at most 64 places from first to last', () => {
    const one = seen(part(1000))
    // A thousandth of a degree on the meridian at the equator is 110.574 m.
    near(one.length, 999 * 110.574, 5)
    expect([one.points, one.outline.length]).toEqual([1000, 60])
    expect([one.outline[0]!.latitude, one.outline.at(-1)!.latitude]).toEqual([0, 0.999])
    expect(one.times).toEqual({ first: 1_800_000_000, last: 1_800_000_999 })
    const two = seen(
      part(10),
      part(10, (i) => ({ latitude: 5 + i / 1000, time: 1_800_001_000 + i })),
    )
    near(two.length, 18 * 110.58, 1)
    expect(two.times).toEqual({ first: 1_800_000_000, last: 1_800_001_009 })
    expect(seen(part(62)).outline.length).toBe(62)
    expect(seen(part(63)).outline.length).toBe(32)
    expect(seen(part(64)).outline.length).toBe(33)
  })

  it('passes by what is no place, and times of before there were satellites', () => {
    const odd = [
      { latitude: 91 },
      { latitude: 0, longitude: 0 },
      { longitude: 181 },
      { latitude: NaN },
      { longitude: NaN },
    ]
    const line = seen(part(8, (i) => (i > 0 && i < 6 ? odd[i - 1]! : { latitude: 1 + i / 1000, time: i })))
    expect(line.outline.map(({ latitude }) => latitude)).toEqual([1, 1.006, 1.007])
    near(line.length, 7 * 110.574, 0.1)
    expect(line.times).toEqual({ first: 1_800_000_001, last: 1_800_000_005 })
    expect(seen(part(5, () => ({ time: 7 }))).times).toBeUndefined()
    expect(seen(part(1)).times).toBeUndefined()
    expect(seen(part(4, () => ({ latitude: 99 }))).outline).toEqual([])
    expect(seen(part(3, (i) => ({ latitude: i === 0 ? 0 : 0.001 * i, longitude: 0 }))).outline.length).toBe(2)
  })
})

describe('stations of a route', () => {
  const route = courseRoute({ length: 100, crossings: [50] })

  it('are the nearest to a place, before a crossing that lies there', () => {
    expect([0, 4.9, 5, 5.1, 24.9, 25.1, 50, 54, 56, 100, 200, -5].map((place) => stationNear(route, place))).toEqual([
      0, 0, 0, 1, 2, 3, 5, 5, 7, 11, 11, 0,
    ])
    const things = [{ distance: 51 }, { distance: 2 }, { distance: 49 }]
    expect([...byStation(route, things)]).toEqual([
      [5, [things[0], things[2]]],
      [0, [things[1]]],
    ])
  })

  it('climb and descend, but not over a crossing', () => {
    const distance = Float64Array.of(0, 10, 20, 20, 30, 40)
    const elevation = Float64Array.of(5, 8, 7, 90, 90, 92)
    expect(ascentBetween({ distance, elevation }, 0, 5)).toEqual({ ascent: 5, descent: 1 })
    expect(ascentBetween({ distance, elevation }, 1, 4)).toEqual({ ascent: 0, descent: 1 })
  })

  it('give a crossing the name of the nearest waypoint within 500 m, else its number', () => {
    const at = (metres: number, name: string) => ({
      name,
      latitude: 45 + 50 / 111_000 + metres / 111_140,
      longitude: 7,
      distance: 0,
    })
    const called = (...waypoints: ReturnType<typeof at>[]) => crossingName({ ...route, waypoints }, 0)
    expect(called()).toEqual({ code: 'onlyCrossing' })
    expect(called(at(520, 'Far'))).toEqual({ code: 'onlyCrossing' })
    expect(called(at(480, 'Quay'), at(520, 'Far'))).toEqual({ code: 'crossingFrom', name: 'Quay' })
    expect(called(at(-300, 'Pier'), at(200, 'Quay'), at(10, ''))).toEqual({ code: 'crossingFrom', name: 'Quay' })
    // Among many others, north and south of it, in any order; by a whole turn away.
    const others = Array.from({ length: 60 }, (_, k) => at((k % 2 === 0 ? 1 : -1) * (700 + 100 * k), `Other ${k}`))
    expect(called(...others)).toEqual({ code: 'onlyCrossing' })
    for (const place of [0, 30, 60])
      for (const metres of [-490, 490])
        expect(called(...others.slice(0, place), at(metres, 'Quay'), ...others.slice(place))).toEqual({
          code: 'crossingFrom',
          name: 'Quay',
        })
    expect(called({ ...at(100, 'Quay'), longitude: 367 })).toEqual({ code: 'crossingFrom', name: 'Quay' })
    expect(called({ ...at(0, 'East'), longitude: 7.0065 })).toEqual({ code: 'onlyCrossing' })
    const two = courseRoute({ length: 100, crossings: [50, 80] })
    expect([0, 1].map((index) => crossingName(two, index))).toEqual([
      { code: 'crossing', number: 1 },
      { code: 'crossing', number: 2 },
    ])
  })
})
