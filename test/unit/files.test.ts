import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import type { CleaningCounts, ElevationKnown } from '../../src/model/route/route'
import { readRoute } from '../../src/model/route/read'
import { wordsIn } from '../../src/view/words/words'
import { near } from '../asserts'

/** What a file in test/files must give. To add a case, add a file that is named by what is special or wrong, and its entry here. */
interface Expected {
  file: string
  /** For a bad file: the one sentence. All below is for good ones. */
  sentence?: string
  name?: string
  format?: 'GPX' | 'KML'
  /** Cleaned points. */
  points?: number
  /** Counts that are not 0. */
  counts?: Partial<CleaningCounts>
  sections?: number
  /** Length in m and recorded time in s, or null, of each. */
  crossings?: [number, number | null][]
  elevationKnown?: ElevationKnown
  /** m. */
  ascent?: number
  lengthMetres?: number
  recordedTime?: number | null
  /** A part of each note that is given. */
  notes?: string[]
  lines?: number
  kinds?: string[]
  /** Numbers of the lines that are ridden, in order. */
  used?: number[]
  /** What is asked; nothing where absent. */
  question?: string
  /** Why, and whether it counts as ridden, of each gap of which the rider is told. */
  gaps?: [string, boolean][]
  /** Name, and whether it lies on the route. */
  waypoints?: [string, boolean][]
}

const folder = fileURLToPath(new URL('../files/', import.meta.url))
const expectations = JSON.parse(readFileSync(`${folder}expected.json`, 'utf8')) as Expected[]

const read = (file: string) => readRoute(new Uint8Array(readFileSync(folder + file)), file)

const words = wordsIn('metric').route

describe('files', () => {
  it('are all listed', () => {
    const listed = expectations.map(({ file }) => file).sort()
    const there = readdirSync(folder).filter((file) => file !== 'expected.json')
    expect(listed).toEqual(there.sort())
  })

  for (const expected of expectations.filter(({ sentence }) => sentence !== undefined)) {
    it(`${expected.file}: ${expected.sentence}`, async () => {
      const reading = await read(expected.file)
      expect(reading.ok || words.fault(reading.fault)).toBe(expected.sentence)
    })
  }

  for (const expected of expectations.filter(({ sentence }) => sentence === undefined)) {
    it(`${expected.file} is read`, async () => {
      const reading = await read(expected.file)
      if (!reading.ok) throw new Error(reading.fault.code)
      const { route, lines, format } = reading
      const counted = Object.fromEntries(Object.entries(route.counts).filter(([, count]) => count > 0))
      expect({
        name: route.name,
        format,
        points: route.points.latitude.length,
        counts: counted,
        sections: route.sections.length,
        crossings: route.crossings.map(({ length, recordedTime }) => [Math.round(length), recordedTime ?? null]),
        elevationKnown: route.elevationKnown,
        lines: lines.length,
        notes: route.notes.length,
        question: reading.arrangement.question,
      }).toEqual({
        name: expected.name,
        format: expected.format ?? 'GPX',
        points: expected.points,
        counts: expected.counts ?? {},
        sections: expected.sections ?? 1,
        crossings: expected.crossings ?? [],
        elevationKnown: expected.elevationKnown ?? 'all',
        lines: expected.lines ?? expected.kinds?.length ?? 1,
        notes: expected.notes?.length ?? 0,
        question: expected.question,
      })
      const said = route.notes.map(words.note).join('\n')
      for (const part of expected.notes ?? []) expect(said).toContain(part)
      if (expected.kinds !== undefined) expect(lines.map(({ kind }) => kind)).toEqual(expected.kinds)
      if (expected.used !== undefined) expect(reading.used).toEqual(expected.used)
      if (expected.gaps !== undefined)
        expect(reading.gaps.map(({ why, ridden }) => [why.code, ridden])).toEqual(expected.gaps)
      if (expected.recordedTime !== undefined) expect(route.recordedTime ?? null).toBe(expected.recordedTime)
      if (expected.ascent !== undefined) near(route.ascent, expected.ascent, 0.6, 'ascent')
      if (expected.lengthMetres !== undefined) near(route.length, expected.lengthMetres, 0.5, 'length')
      if (expected.waypoints !== undefined) {
        expect(route.waypoints.map(({ name, distance }) => [name, distance !== undefined])).toEqual(expected.waypoints)
      }
      for (const column of [...Object.values(route.stations), ...Object.values(route.points)] as Float64Array[]) {
        expect(column.every(Number.isFinite)).toBe(true)
      }
    })
  }
})
