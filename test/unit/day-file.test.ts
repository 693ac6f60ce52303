import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { defaultPlan } from '../../src/model/plan/defaults'
import { planVersion } from '../../src/model/plan/schema'
import type { Day } from '../../src/state/day'
import { planOf, readDay, textOf } from '../../src/state/day'
import { readDays, writeDay, writeDays, writeWreck } from '../../src/state/day-file'

const bytes = strToU8('<gpx>'.repeat(1000))
const plan = { ...defaultPlan(), goal: 3600 }
const day: Day = {
  ...{ id: 'a', name: 'Over the moor', isNamed: true, route: 'key', fileName: 'moor.gpx' },
  ...{ choice: { line: [1, 0], riddenGaps: [2], marked: [{ from: 0.5, to: 900 }] }, plan: textOf(plan), at: 3 },
  changed: Date.UTC(2027, 5, 19, 6),
}
const documentIn = (file: Uint8Array) => JSON.parse(strFromU8(unzipSync(file)['day.json']!)) as Record<string, unknown>
/** A file of a day with another document. */
const withDocument = (change: object) => {
  const files = unzipSync(writeDay(day, bytes))
  return zipSync({ ...files, 'day.json': strToU8(JSON.stringify({ ...documentIn(zipSync(files)), ...change })) })
}
const faultOf = (file: Uint8Array) => readDays(file, 'a.wattfare')?.faults

describe('the file of a day', () => {
  it('gives back the day, its plan and the bytes of its route', () => {
    const { name, isNamed, fileName, choice, changed } = day
    expect(readDays(writeDay(day, bytes), 'a.wattfare')).toEqual({
      days: [{ day: { name, isNamed, fileName, choice, changed }, plan, bytes }],
      faults: [],
    })
    expect(writeDay(day, bytes).length).toBeLessThan(bytes.length)
    const sample = { ...day, sample: 'into-town-18km.gpx' }
    expect(readDays(writeDay(sample, bytes), '')!.days[0]!.day.sample).toBe('into-town-18km.gpx')
  })

  it('is what the description says: day.json with the plan as it is, and the route as it was opened', () => {
    const file = writeDay(day, bytes)
    expect(documentIn(file)).toMatchObject({
      ...{ format: 'wattfare-day', version: 1, name: 'Over the moor', changed: '2027-06-19T06:00:00.000Z' },
      plan: { format: 'wattfare-plan', version: planVersion, goal: 3600 },
    })
    expect(unzipSync(file).route).toEqual(bytes)
  })

  it('carries the heights of the land that its choice names, and no others', () => {
    const key = '0123456789abcdef'
    const ground = { key, from: 'land.pmtiles', attribution: 'Surveyors' }
    const grounds = { [key]: Uint8Array.of(1, 2, 3), fedcba9876543210: Uint8Array.of(4) }
    const file = writeDay({ ...day, choice: { ...day.choice, ground }, grounds }, bytes)
    expect(Object.keys(unzipSync(file)).sort()).toEqual(['day.json', `ground/${key}`, 'route'])
    const [read] = readDays(file, '')!.days
    expect(read!.day).toMatchObject({ choice: { ground }, grounds: { [key]: Uint8Array.of(1, 2, 3) } })
    expect(read!.day.grounds).not.toHaveProperty('fedcba9876543210')
    expect(unzipSync(writeDay({ ...day, ...read!.day }, bytes))).toEqual(unzipSync(file))
    expect(faultOf(withDocument({ choice: { ...day.choice, ground: { ...ground, key: 'constructor' } } }))).toEqual([
      { fileName: 'a.wattfare', fault: { code: 'damagedDay' } },
    ])
  })

  it('carries the plans beside it, and the day is whole where they are none', () => {
    const beside = {
      held: textOf(defaultPlan()),
      kept: [{ id: 'kept-1', name: 'With three packs', plan: textOf(plan) }],
    }
    const file = writeDay({ ...day, beside }, bytes)
    expect(documentIn(file).beside).toMatchObject({
      held: { goal: null },
      kept: [{ name: 'With three packs', plan: { goal: 3600 } }],
    })
    const read = readDays(file, '')!.days[0]!.day.beside!
    expect(planOf(read.held!)).toEqual(defaultPlan())
    expect(read.kept.map(({ name, plan }) => [name, planOf(plan)])).toEqual([['With three packs', plan]])
    for (const wrong of [{ kept: 5 }, { kept: [{ id: 'kept-1' }] }, { held: 7, kept: [{}] }, 'none']) {
      const reading = readDays(withDocument({ beside: wrong }), '')!
      expect(reading.faults).toEqual([])
      expect(reading.days[0]!.plan).toEqual(plan)
      expect(planOf(reading.days[0]!.day.beside!.held ?? '')).toBeUndefined()
    }
  })

  it('carries rides that were ridden, each with its recording, and the day is whole where one can’t be read', () => {
    const notes = JSON.stringify({ chargeEnd: 0.4 })
    const recorded = { id: 'a1', fileName: 'last year.gpx', notes, bytes: Uint8Array.of(0x1f, 0x8b, 3) }
    const rides = [recorded, { id: 'b2', notes: JSON.stringify({ ridingTime: 30_000 }) }]
    const file = writeDay({ ...day, rides }, bytes)
    expect(documentIn(file).rides).toEqual([
      { id: 'a1', fileName: 'last year.gpx', notes: { chargeEnd: 0.4 } },
      { id: 'b2', notes: { ridingTime: 30_000 } },
    ])
    expect(unzipSync(file)['recordings/a1']).toEqual(recorded.bytes)
    const [read] = readDays(file, '')!.days
    expect(read!.day.rides).toEqual(rides)
    expect(read!.day.others).toBeUndefined()
    expect(readDay({ ...day, rides })).toMatchObject({ ok: true, day: { rides } })
    expect(readDay({ ...day, rides: [{ id: 7 }] })).toMatchObject({ ok: true, day: { rides: [] } })
    for (const wrong of ['none', [{ id: 'constructor', fileName: 'x', notes: {} }], [{ id: 3 }, null]]) {
      const reading = readDays(withDocument({ rides: wrong }), '')!
      expect([reading.faults, reading.days[0]!.day.rides]).toEqual([[], []])
    }
  })

  it('opens without heights that are damaged: the day is whole but for them', () => {
    const record = { ...day, grounds: { '0123456789abcdef': 'no bytes' } }
    expect(readDay(record)).toMatchObject({ ok: true, day: { id: 'a', grounds: {} } })
    const heights = { '0123456789abcdef': Uint8Array.of(1) }
    expect(readDay({ ...day, grounds: heights })).toMatchObject({ ok: true, day: { grounds: heights } })
  })

  it('passes on what it does not know', () => {
    const files = unzipSync(withDocument({ weatherSeen: { at: 7 } }))
    const file = zipSync({ ...files, 'recordings/one.gpx': Uint8Array.of(1, 2) })
    const [read] = readDays(file, '')!.days
    const again = writeDay({ ...day, ...read!.day }, read!.bytes)
    expect(documentIn(again)).toMatchObject({ weatherSeen: { at: 7 }, name: 'Over the moor' })
    expect(unzipSync(again)['recordings/one.gpx']).toEqual(Uint8Array.of(1, 2))
  })

  it('brings a plan of an older version to this one', () => {
    const { rider, battery } = plan
    const old = {
      ...{ ...plan, version: 1, battery: { ...battery, fillFirst: 'emptiest' } },
      rider: { ...rider, fade: undefined, fadePerHour: 0.045, fadeOnset: 0 },
    }
    const [read] = readDays(withDocument({ plan: { ...old, stretches: undefined } }), '')!.days
    expect(read!.plan).toMatchObject({ version: planVersion, goal: 3600, stretches: [] })
  })

  it('is no day where it is something else, and of a zip of others there is nothing to say', () => {
    expect(readDays(strToU8('<gpx>'), 'a.gpx')).toBeUndefined()
    expect(readDays(zipSync({ 'doc.kml': strToU8('<kml>') }), 'a.kmz')).toBeUndefined()
    expect(faultOf(withDocument({ format: 'other' }))).toEqual([{ fileName: 'a.wattfare', fault: { code: 'noDay' } }])
    expect(faultOf(zipSync({ 'day.json': strToU8('{') }))).toMatchObject([{ fault: { code: 'noDay' } }])
    expect(faultOf(withDocument({ version: 0.5 }))).toMatchObject([{ fault: { code: 'noDay' } }])
  })

  it('is refused where it is newer, damaged, or its plan is', () => {
    const newer = { code: 'newerDay', version: 2, known: 1 }
    expect(faultOf(withDocument({ version: 2 }))).toMatchObject([{ fault: newer }])
    expect(faultOf(withDocument({ choice: { line: 'last' } }))).toMatchObject([{ fault: { code: 'damagedDay' } }])
    expect(faultOf(withDocument({ plan: { ...plan, version: 99 } }))).toMatchObject([
      { fault: { code: 'planOfDay', fault: { code: 'newer' } } },
    ])
    expect(faultOf(withDocument({ plan: undefined }))).toMatchObject([{ fault: { code: 'damagedDay' } }])
    const whole = writeDay(day, bytes)
    expect(faultOf(whole.subarray(0, whole.length - 30))).toMatchObject([{ fault: { code: 'damagedDay' } }])
    expect(faultOf(zipSync({ 'day.json': unzipSync(whole)['day.json']! }))).toMatchObject([
      { fault: { code: 'damagedDay' } },
    ])
  })

  it('is refused before it is unpacked where it would be too large', () => {
    const bomb = zipSync({ 'day.json': strToU8('{}'), ...Object.fromEntries(['a', 'b'].map((name) => [name, bytes])) })
    // What it says of the size of each part, in the central directory (APPNOTE 4.3.12): 4 bytes, 24 behind its mark.
    const view = new DataView(bomb.buffer)
    for (let at = 0; at < bomb.length - 4; at++)
      if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, 400_000_000, true)
    const before = process.memoryUsage().arrayBuffers
    expect(faultOf(bomb)).toMatchObject([{ fault: { code: 'dayTooLarge' } }])
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(1e7)
  })

  it('is refused where it unpacks to more than it says, before all of that is there', () => {
    const file = zipSync({ ...unzipSync(writeDay(day, bytes)), x: new Uint8Array(60_000_000) })
    // Both places that say it (APPNOTE 4.3.7, 4.3.12): 4 bytes, 22 and 24 behind their marks.
    const view = new DataView(file.buffer)
    for (let at = 0; at < file.length - 30; at++)
      for (const [mark, behind] of [
        [0x04034b50, 22],
        [0x02014b50, 24],
      ] as const)
        if (view.getUint32(at, true) === mark && view.getUint32(at + behind, true) === 60_000_000)
          view.setUint32(at + behind, 10, true)
    const before = process.memoryUsage().arrayBuffers
    expect(faultOf(file)).toMatchObject([{ fault: { code: 'dayTooLarge' } }])
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(50e6)
  })

  it('is refused where it has more parts than are taken, two of one name, or one that an object takes for its own', () => {
    const parts = Object.fromEntries(Array.from({ length: 10_001 }, (_, i) => [`${i}`, new Uint8Array()]))
    expect(faultOf(zipSync(parts))).toMatchObject([{ fault: { code: 'tooManyParts', most: 10_000 } }])
    const twice = zipSync({ ...unzipSync(writeDay(day, bytes)), notes: bytes, noteb: bytes })
    const text = Buffer.from(twice)
    for (let at = text.indexOf('noteb'); at >= 0; at = text.indexOf('noteb')) text.write('notes', at)
    expect(faultOf(new Uint8Array(text))).toMatchObject([{ fault: { code: 'damagedDay' } }])
    const named = Buffer.from(zipSync({ ...unzipSync(writeDay(day, bytes)), __prota__: bytes }))
    for (let at = named.indexOf('__prota__'); at >= 0; at = named.indexOf('__prota__')) named.write('__proto__', at)
    expect(faultOf(new Uint8Array(named))).toMatchObject([{ fault: { code: 'damagedDay' } }])
  })

  it.each([
    ['too deep', '['.repeat(50) + ']'.repeat(50), 'tooDeep'],
    ['of too many values', `[${'0,'.repeat(600_000)}0]`, 'tooMany'],
    ['too long, as units', `"${'a'.repeat(9_000_000)}"`, 'tooLarge'],
    ['too long, as bytes', `"${'a'.repeat(25_000_000)}"`, 'tooLarge'],
  ])('is refused before its document is parsed where that is %s', (_, document, code) => {
    const file = zipSync({ 'day.json': strToU8(document), route: bytes })
    expect(faultOf(file)).toMatchObject([{ fault: { code: 'planOfDay', fault: { code } } }])
  })
})

describe('a file of several days', () => {
  it('holds each as a file of its own, also of one name', () => {
    const one = { name: 'Over the moor', bytes: writeDay(day, bytes) }
    const file = writeDays([one, one, { name: 'Coast', bytes: writeDay({ ...day, name: 'Coast' }, bytes) }])
    expect(Object.keys(unzipSync(file))).toEqual([
      'Over the moor.wattfare',
      'Over the moor 2.wattfare',
      'Coast.wattfare',
    ])
    const { days, faults } = readDays(file, 'days.wattfare')!
    expect(days.map(({ day }) => day.name)).toEqual(['Over the moor', 'Over the moor', 'Coast'])
    expect(faults).toEqual([])
  })

  it('gives those that can be read, and names the rest', () => {
    const file = writeDays([
      { name: 'newer', bytes: withDocument({ version: 7 }) as Uint8Array<ArrayBuffer> },
      { name: 'good', bytes: writeDay(day, bytes) },
    ])
    const { days, faults } = readDays(file, 'days.wattfare')!
    expect(days).toHaveLength(1)
    expect(faults).toEqual([{ fileName: 'newer.wattfare', fault: { code: 'newerDay', version: 7, known: 1 } }])
  })
})

it('what is left of a day that can’t be used is in its file just as it is', () => {
  const record = { id: 'x', name: '', plan: 17, file: { bytes, fileName: 3 } }
  const files = unzipSync(writeWreck(record, undefined))
  expect(files.route).toEqual(bytes)
  expect(JSON.parse(strFromU8(files['day.json']!))).toEqual({ ...record, file: { fileName: 3 } })
})
