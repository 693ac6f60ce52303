import { describe, expect, it } from 'vitest'
import { unridden, type KilogramCost, type KitLine } from '../../src/model/studies/kit-cost'
import type { KitItem } from '../../src/model/plan/day-schema'
import { heldKit, kitColumns, sortedKit } from '../../src/view/kit/columns'
import { countEntry, firstUse, massEntry, nameEntry, rateEntry, useText } from '../../src/view/kit/entry'
import { mass, shortEnergy, shortTime } from '../../src/view/kit/amounts'
import { demoKit } from '../../src/view/kit/demoKit'
import { kitWordsIn } from '../../src/view/words/kit'
import { near } from '../asserts'

const words = kitWordsIn('metric')
const things = demoKit(words.demo, { bars: 8, gels: 8, bottles: 3 })

/** What was read, or a failed test. */
function valueOf<T>(reading: { ok: true; value: T } | { ok: false; sentence: string }): T {
  if (!reading.ok) throw new Error(reading.sentence)
  return reading.value
}

describe('masses of the list', () => {
  it('are shown in the unit of their size', () => {
    expect(massEntry(0.35, 'metric')).toMatchObject({ text: '350', unit: 'g' })
    expect(massEntry(1.6, 'metric')).toMatchObject({ text: '1.6', unit: 'kg' })
    expect(massEntry(0, 'metric')).toMatchObject({ text: '0', unit: 'g' })
    // The international avoirdupois pound is 0.45359237 kg, its ounce a sixteenth (agreement of 1959).
    expect(massEntry(0.028349523125 * 5, 'imperial')).toMatchObject({ text: '5', unit: 'oz' })
    expect(massEntry(0.45359237 * 3, 'imperial')).toMatchObject({ text: '3', unit: 'lb' })
    expect(mass(0.9999, 'metric')).toBe('1.0 kg')
    expect(mass(0.9994, 'metric')).toBe('999 g')
    expect(mass(4.1, 'imperial')).toBe('9.0 lb')
  })

  it.each([
    ['900', 0.9],
    ['900 g', 0.9],
    ['1.2 kg', 1.2],
    ['1,2kg', 1.2],
    ['12 oz', (12 * 0.45359237) / 16],
    ['2 lb', 2 * 0.45359237],
    ['2 lbs', 2 * 0.45359237],
    ['0', 0],
  ])('“%s” is read in the unit behind it, else in grams as shown', (text, kilograms) => {
    near(valueOf(massEntry(0.35, 'metric').read(text)), kilograms, 1e-12)
  })

  it('refuses what is no mass with one sentence', () => {
    const { read } = massEntry(0.35, 'metric')
    expect(read('heavy')).toEqual({ ok: false, sentence: 'This is not a number; until then 350 g counts.' })
    expect(read('-5')).toMatchObject({ ok: false })
    expect(read('101 kg')).toEqual({ ok: false, sentence: 'This must be from 0 to 100 kg; until then 0.35 kg counts.' })
  })

  it('come back from their own text', () => {
    for (const units of ['metric', 'imperial'] as const)
      for (const kilograms of [0, 0.0005, 0.09, 0.4535, 0.75, 0.9996, 1, 4.3, 100]) {
        const entry = massEntry(kilograms, units)
        near(valueOf(entry.read(entry.text)), kilograms, units === 'metric' ? 0.0005 : 0.0015)
      }
  })

  it('step by the arrow keys over the change of unit', () => {
    near(massEntry(0.99, 'metric').step!(0.99, 1), 1, 1e-12)
    near(massEntry(1, 'metric').step!(1, 1), 1.1, 1e-12)
    expect(massEntry(0, 'metric').step!(0, -1)).toBe(0)
  })
})

describe('the other cells', () => {
  it('count in whole numbers', () => {
    expect(countEntry(2).read('0')).toEqual({ ok: true, value: 0 })
    expect(countEntry(2).read('1.5')).toMatchObject({ ok: false })
    expect(countEntry(2).read('1001')).toMatchObject({ ok: false })
    expect(countEntry(1000).step!(1000, 1)).toBe(1000)
  })

  it('want a name', () => {
    expect(nameEntry('Lock', words).read('  Chain ')).toEqual({ ok: true, value: 'Chain' })
    expect(nameEntry('Lock', words).read('  ')).toEqual({
      ok: false,
      sentence: 'A thing needs a name; until then it is “Lock”.',
    })
  })

  it('tell how fast a thing is used up', () => {
    expect(useText({ use: null }, 'metric', words)).toBe('lasts')
    expect(useText({ use: { by: 'time', rate: 0.5 / 3600 } }, 'metric', words)).toBe('500 g/h')
    expect(useText({ use: { by: 'distance', rate: 0.09 / 100_000 } }, 'metric', words)).toBe('90 g/100 km')
    expect(useText({ use: { by: 'time', rate: 0.45359237 / 3600 } }, 'imperial', words)).toBe('16 oz/h')
    expect(useText({ use: { by: 'distance', rate: 0.45359237 / 160_934.4 } }, 'imperial', words)).toBe('16 oz/100 mi')
    near(valueOf(rateEntry(firstUse('time'), 'metric').read('500 g/h')), 0.5 / 3600, 1e-15)
    near(valueOf(rateEntry(firstUse('distance'), 'metric').read('250')), 0.25 / 100_000, 1e-15)
    expect(rateEntry(firstUse('time'), 'metric').read('200000')).toMatchObject({ ok: false })
  })
})

describe('what it costs in words', () => {
  it('writes times and energies as short as they are', () => {
    expect([0, 4.26, 9.96, 48.4, 99.4, 99.6, 324, 3599.4, 3599.6, 7500].map(shortTime)).toEqual([
      '0.0 s',
      '4.3 s',
      '10 s',
      '48 s',
      '99 s',
      '1 min 40 s',
      '5 min 24 s',
      '59 min 59 s',
      '1 h 00 min',
      '2 h 05 min',
    ])
    expect([2.6, 9.96, 11.2, 1234].map((wh) => shortEnergy(wh * 3600))).toEqual([
      '2.6 Wh',
      '10 Wh',
      '11 Wh',
      '1,234 Wh',
    ])
  })

  it('says costs and gains apart', () => {
    expect(words.costs({ time: 79, energy: 2.6 * 3600 })).toBe('costs 79 s and 2.6 Wh')
    expect(words.costs({ time: -3, energy: 3600 })).toBe('costs 1.0 Wh and gains 3.0 s')
    expect(words.costs({ time: 30, energy: 0 })).toBe('costs 30 s')
    expect(words.costs({ time: 0.01, energy: -1 })).toBe('costs next to nothing')
  })

  it('makes the first sentence', () => {
    const next = { time: 79, energy: 2.6 * 3600, riderWork: 0 }
    const cost: KilogramCost = { next, last: { ...next, time: 190 }, why: undefined }
    const unused = { mass: 4.1, time: 4.1 * 79, energy: 4.1 * 2.6 * 3600 }
    expect(words.eachCosts(cost, unused)).toBe(
      'Each kilogram costs 79 s and 2.6 Wh on this route; leaving the unused 4.1 kg at home saves 5 min 24 s and 11 Wh.',
    )
    expect(kitWordsIn('imperial').eachCosts(cost, { mass: 0, time: 0, energy: 0 })).toBe(
      'Each pound costs 36 s and 1.2 Wh on this route.',
    )
    expect(words.eachCosts({ ...cost, why: 'runsEmpty' }, { mass: 0, time: 0, energy: 0 })).toBe(
      'Each kilogram costs 79 s and 2.6 Wh on this route; the last one that is there costs 3 min 10 s and 2.6 Wh: with the one the packs run empty on the way, with the other not.',
    )
  })

  it('says what a change of the list does', () => {
    expect(words.replace.difference({ mass: -2, time: -90, energy: -5 * 3600 })).toBe(
      '2.0 kg lighter: saves 90 s and 5.0 Wh.',
    )
    expect(words.replace.difference({ mass: 0.2, time: 9, energy: 1800 })).toBe(
      '200 g heavier: costs 9.0 s and 0.5 Wh.',
    )
    expect(words.replace.difference({ mass: 0, time: 0, energy: 0 })).toBe('As heavy: costs next to nothing.')
  })
})

describe('order of the rows', () => {
  const costly = (items: readonly KitItem[]): KitLine[] =>
    unridden(items).map((line) => ({ ...line, time: 40 * line.mass, energy: 9000 * line.mass }))
  const lines = costly(things)
  const names = (rows: readonly KitLine[]) => rows.map(({ item }) => item.name)

  it.each(kitColumns.map(({ key }) => key))('sorts by %s, both ways, and leaves the list alone', (key) => {
    const before = names(lines)
    const { order } = kitColumns.find((column) => column.key === key)!
    const rising = sortedKit(lines, { key, ascending: true }).map(order)
    const falling = sortedKit(lines, { key, ascending: false }).map(order)
    expect(new Set(rising).size).toBeGreaterThan(1)
    for (let k = 1; k < rising.length; k++) {
      expect(rising[k]! >= rising[k - 1]!).toBe(true)
      expect(falling[k]! <= falling[k - 1]!).toBe(true)
    }
    expect(names(lines)).toEqual(before)
  })

  it('keeps the order of the list where the column is equal', () => {
    const rows = sortedKit(lines, { key: 'count', ascending: false })
    const singles = (some: readonly KitLine[]) => names(some.filter(({ item }) => item.count === 1))
    expect(singles(rows).length).toBeGreaterThan(10)
    expect(singles(rows)).toEqual(singles(lines))
  })

  it('holds still while a row is edited, and puts new things last', () => {
    const sorted = sortedKit(lines, { key: 'mass', ascending: false })
    const ids = sorted.map(({ item }) => item.id)
    const added: KitItem = { ...things[0]!, id: 'kit-99', name: 'New' }
    const edited = costly([added, ...things.map((item) => ({ ...item, mass: 1 })).filter(({ id }) => id !== ids[3])])
    expect(heldKit(edited, ids).map(({ item }) => item.id)).toEqual([...ids.slice(0, 3), ...ids.slice(4), 'kit-99'])
  })
})
