import fc from 'fast-check'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { heavyAndUnused, kitCosts, plansForKit, rideTaken, unridden } from '../../src/model/studies/kit-cost'
import { kitTotals, meanMass } from '../../src/model/plan/kit'
import { kitCsv, readKit } from '../../src/model/export/kit'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan } from '../../src/model/plan/defaults'
import type { KitItem } from '../../src/model/plan/day-schema'
import { kitWordsIn } from '../../src/view/words/kit'
import { typedWordsIn } from '../../src/view/words/typed'
import { demoKit } from '../../src/view/kit/demoKit'
import { near } from '../asserts'
import { courseRoute } from '../routes'

const things = demoKit(kitWordsIn('metric').demo, { bars: 8, gels: 8, bottles: 3 })

const item = (change: Partial<KitItem>): KitItem => ({
  id: 'kit-1',
  name: 'Thing',
  mass: 1,
  count: 1,
  place: 'bike',
  mark: 'comes',
  use: null,
  ...change,
})

describe('the kit list', () => {
  it('adds up by place what comes along, unused things too', () => {
    const items = [
      item({ mass: 0.5, count: 2 }),
      item({ mass: 0.3, place: 'rider', mark: 'unused' }),
      item({ mass: 9, place: 'spare', mark: 'stays' }),
      item({ mass: 0.2, place: 'spare', count: 3 }),
      item({ mass: 4, count: 0 }),
    ]
    const { bike, rider, spare, all } = kitTotals(items)
    ;[bike, rider, spare, all].forEach((mass, k) => near(mass, [1, 0.3, 0.6, 1.9][k]!, 1e-12))
  })

  it('lets what is used up get lighter, down to nothing', () => {
    const water = item({ mass: 0.75, count: 2, use: { by: 'time', rate: 0.5 / 3600 } })
    near(meanMass(water, 3600, 0), 1.25, 1e-12)
    near(meanMass(water, 6 * 3600, 0), 0.375, 1e-12)
    near(meanMass(item({ use: { by: 'distance', rate: 1e-5 } }), 0, 50_000), 0.75, 1e-12)
    for (const hours of [1, 3, 6, 12]) {
      let sum = 0
      for (let k = 0; k < 10_000; k++) sum += Math.max(0, 1.5 - (0.5 * hours * (k + 0.5)) / 10_000) / 10_000
      near(meanMass(water, hours * 3600, 0), sum, 1e-6, `mean over ${hours} h`)
    }
  })

  it('sorts out what is heavy and never used', () => {
    const unused = heavyAndUnused(unridden(things))
    expect(unused.length).toBeGreaterThan(2)
    expect(unused.map(({ mass }) => mass)).toEqual(unused.map(({ mass }) => mass).sort((a, b) => b - a))
    expect(new Set(unused.map(({ item }) => item.mark))).toEqual(new Set(['unused']))
  })
})

describe('what the kit costs', () => {
  const hills = courseRoute({ length: 60_000, elevation: (d) => 150 - 150 * Math.cos((2 * Math.PI * d) / 12_000) })
  const tent = item({ id: 'kit-1', name: 'Tent', mass: 2.5, mark: 'unused' })
  const water = item({ id: 'kit-2', name: 'Water', count: 3, use: { by: 'time', rate: 0.5 / 3600 } })
  const chair = item({ id: 'kit-3', name: 'Chair', mass: 5, mark: 'stays' })
  const plan = { ...defaultPlan(), kit: [tent, water, chair] }
  const costsOf = (of: typeof plan) =>
    kitCosts(
      of,
      plansForKit(of).map((one) => rideTaken(hills, one)),
    )
  const costs = costsOf(plan)
  const ridden = (kit: KitItem[], luggage = 0) => {
    const { columns, electric } = simulate(hills, {
      ...plan,
      kit,
      bike: { ...plan.bike, luggage: plan.bike.luggage + luggage },
    })
    return { time: columns.ridingTime.at(-1)!, energy: electric.drained }
  }
  const now = ridden(plan.kit)

  it('is the difference of two whole forecasts, with each thing and without, at its own size', () => {
    const without = (id: string) => ridden(plan.kit.filter((item) => item.id !== id))
    for (const [i, id] of ['kit-1', 'kit-2'].entries()) {
      expect(costs.lines[i]!.time, id).toBe(now.time - without(id).time)
      near(costs.lines[i]!.energy, now.energy - without(id).energy, 1e-6, id)
      expect(costs.lines[i]!.time).toBeGreaterThan(1)
    }
    const withChair = ridden([tent, water, { ...chair, mark: 'comes' }])
    expect(costs.lines[2]!.time, 'of what stays home, what it would cost').toBe(withChair.time - now.time)
    expect(costs.list.time, 'the list').toBe(now.time - ridden([]).time)
    expect(costs.unused.time, 'what came back unused').toBe(costs.lines[0]!.time)
    expect(costs.kilogram.next.time).toBe(ridden(plan.kit, 1).time - now.time)
    expect(costs.kilogram.last.time).toBe(now.time - ridden(plan.kit, -1).time)
    expect(costs.kilogram.why).toBeUndefined()
  })

  it('is more than rolling alone and less than all the climbing paid by the motor', () => {
    // A kilogram rolls for Crr g d and is lifted g h; descents give some of that back.
    const { energy, riderWork } = costs.kilogram.next
    const rolling = plan.bike.rolling * 9.81 * hills.length
    const lifting = 9.81 * hills.ascent
    expect(energy + riderWork).toBeGreaterThan(0.5 * rolling)
    expect(energy + riderWork).toBeLessThan(3 * (rolling + lifting))
  })

  it('is a range, with its reason, where the packs run empty with a kilogram more and not with one less', () => {
    const withCapacity = (capacityAh: number) => {
      const packs = [{ ...plan.battery.packs[0]!, capacityAh }]
      return { ...plan, battery: { ...plan.battery, packs } }
    }
    // The pack that is empty just at the finish, by bisection.
    let [small, large] = [1, 30]
    while (large - small > 1e-3) {
      const middle = (small + large) / 2
      if (rideTaken(hills, withCapacity(middle)).runsEmpty) small = middle
      else large = middle
    }
    const { kilogram } = costsOf(withCapacity(large))
    expect(kilogram.why).toBe('runsEmpty')
    expect(kilogram.next.energy, 'little more is left to be taken').toBeLessThan(kilogram.last.energy)
    expect(kilogram.next.time, 'so it takes time').toBeGreaterThan(kilogram.last.time)
  })
})

const { marks } = kitWordsIn('metric')

describe('kit as CSV', () => {
  it('comes back as it went, with names of every kind', () => {
    const items = [
      ...things,
      item({ id: `kit-${things.length + 1}`, name: '=SUM(A1:A9)', mass: 0.1234567 }),
      item({
        id: `kit-${things.length + 2}`,
        name: '-2 "quoted", and; more\nlines',
        use: { by: 'distance', rate: 2e-6 },
      }),
      item({ id: `kit-${things.length + 3}`, name: '@Ünïcødé 🚲', count: 0 }),
    ]
    const result = readKit(kitCsv(items, marks), marks)
    if (!result.ok) throw new Error(result.fault.code)
    expect(result.value).toHaveLength(items.length)
    result.value.forEach((back, k) => {
      const { mass, use, ...rest } = items[k]!
      expect(back).toMatchObject(rest)
      near(back.mass, mass, 1e-12)
      expect(back.use?.by).toBe(use?.by)
      if (use !== null) near(back.use!.rate, use.rate, 1e-15)
    })
  })

  it('comes back as it went whatever its names are, and starts no formula', () => {
    const name = fc
      .string({
        unit: fc.oneof(
          fc.constantFrom(...`'"=+-@＝＋－＠,; \t\r\n\uFEFF`),
          fc.string({ unit: 'binary', maxLength: 1 }),
        ),
      })
      .filter((text) => text.length <= 80)
    fc.assert(
      fc.property(fc.array(name, { minLength: 1, maxLength: 5 }), (names) => {
        const text = kitCsv(
          names.map((name, i) => item({ id: `kit-${i + 1}`, name })),
          marks,
        )
        const back = readKit(text, marks)
        expect(back.ok && back.value.map(({ name }) => name)).toEqual(names)
        const { data } = Papa.parse<string[]>(text, { newline: '\r\n', delimiter: ',' })
        for (const cell of data.flat()) expect(cell).not.toMatch(/^\s*[=+\-@＝＋－＠]/)
        const unquoted = text.replace(/"(?:[^"]|"")*"/g, '')
        expect(unquoted, 'cut in two where another sign separates cells').not.toMatch(/[;\t]/)
      }),
      { numRuns: 1000 },
    )
  })

  it('takes the apostrophe off that it put on, and no other', () => {
    const names = (...cells: string[]) => {
      const back = readKit(`item,kg\n${cells.map((cell) => `"${cell}",1\n`).join('')}`, marks)
      return back.ok && back.value.map(({ name }) => name)
    }
    expect(names("'tis a hat", "'=1+1", " 'x ", ' Tent ', "'")).toEqual(["'tis a hat", '=1+1', "'x", 'Tent', ''])
  })

  it('carries no formula into a spreadsheet', () => {
    const rows = Papa.parse<string[]>(
      kitCsv([item({ name: '=1+1' }), item({ name: '+x' }), item({ name: '@a' })], marks),
    ).data
    expect(rows.slice(1, 4).map(([name]) => name)).toEqual(["'=1+1", "'+x", "'@a"])
  })

  it('has a heading a column and a row a thing, each ended by CRLF', () => {
    expect(kitCsv([item({ mass: 0.1 + 0.2, use: { by: 'time', rate: 0.5 / 3600 } })], marks)).toBe(
      `item,mass_g,count,place,mark,used_g_per_h,used_g_per_km,draws_w,fed_from,draws_when,covers\r\nThing,300,1,bike,${marks.comes},500,,,,,\r\n`,
    )
  })

  it('gives back what a thing draws, from what and when', () => {
    const gloves = item({ draws: { power: 7.5, from: 'packs', when: 'dark' } })
    const lamp = item({ id: 'kit-2', name: 'Lamp', draws: { power: 2, from: 'own', when: 'always' } })
    expect(readKit(kitCsv([gloves, lamp, item({ id: 'kit-3' })], marks), marks)).toEqual({
      ok: true,
      value: [gloves, lamp, item({ id: 'kit-3' })],
    })
    const bare = 'item,mass_g,draws_w\nGloves,80,6\n'
    expect(readKit(bare, marks)).toMatchObject({ value: [{ draws: { power: 6, from: 'packs', when: 'always' } }] })
    expect(readKit('item,mass_g,draws_w\nGloves,80,900\n', marks).ok).toBe(false)
  })

  it.each([
    ['what;g;number', 0.002, 3],
    ['thing;KG;pieces', 2, 3],
    ['item;weight lb;quantity', 2 * 0.45359237, 3],
    ['name;mass oz;n', 2 * 0.028349523125, 3],
    ['name;mass [lbs];count of it', 2 * 0.45359237, 3],
  ])('knows the columns “%s”', (headings, mass, count) => {
    // An avoirdupois pound is 0.45359237 kg, an ounce a sixteenth: NIST SP 811 (2008), B.8.
    const result = readKit(`${headings};carried;status;gear\nLock;2;3;rider;${marks.unused};x`, marks)
    if (!result.ok) throw new Error(result.fault.code)
    const [lock] = result.value
    near(lock!.mass, mass, 1e-15)
    expect(lock).toMatchObject({ name: 'Lock', count, place: 'rider', mark: 'unused', use: null })
  })

  it('takes no other word for a mass or a thing, and no more than it holds', () => {
    const fault = (text: string) => {
      const result = readKit(text, marks)
      return result.ok ? undefined : result.fault
    }
    expect(readKit('gear,item,kg\ntent,Tent,2', marks)).toMatchObject({ ok: true, value: [{ name: 'Tent', mass: 2 }] })
    expect(fault('items,kg\nTent,2')).toEqual({ code: 'noItemColumn' })
    expect(fault('item,kgs\nTent,2')).toEqual({ code: 'noMassColumn' })
    expect(fault('item,weight\nTent,2')).toEqual({ code: 'noMassUnit', heading: 'weight' })
    expect(fault('item,kg,place\nTent,2,roof')).toMatchObject({
      code: 'noneOf',
      cell: 'roof',
      row: 2,
      heading: 'place',
    })
    expect(fault('item,kg,used g/h,used g/km\nA,2,5,\nB,2,5,6')).toEqual({ code: 'usedTwice', row: 3 })
    const rows = (count: number) => `item,kg\n${'Tent,2\n'.repeat(count)}`
    expect(readKit(rows(300), marks)).toMatchObject({ ok: true })
    expect(fault(rows(301))).toEqual({ code: 'tooManyItems', items: 301, most: 300 })
    const long = readKit(`item,kg\n${'x'.repeat(90)},2`, marks)
    expect(long.ok && long.value[0]!.name).toBe('x'.repeat(80))
  })

  it('is read as pasted, in grams or kilograms by heading', () => {
    expect(readKit('Item\tWeight (kg)\nLock\t1,6\n', marks)).toEqual({
      ok: true,
      value: [item({ name: 'Lock', mass: 1.6 })],
    })
    const grams = readKit('mass_g;name;place;mark\n1600;Lock;Spare;stays home\n', marks)
    expect(grams).toEqual({ ok: true, value: [item({ name: 'Lock', mass: 1.6, place: 'spare', mark: 'stays' })] })
  })

  it.each([
    ['name,mass\nLock,2', 'The heading “mass” needs its unit: g or kg.'],
    ['mass g\n2', 'The table needs a column headed “item”.'],
    ['item\nLock', 'The table needs a column headed “mass g” or “mass kg”.'],
    ['item,mass g\nLock,heavy', '“heavy” in row 2, column “mass g” is not a number.'],
    ['item,mass g\nLock,', 'Row 2 has no mass.'],
    ['item,mass g\n,200', 'Row 2 has no name.'],
    ['item,mass g\nLock,-5', '“-5” in row 2, column “mass g” is outside 0 to 100000.'],
    ['item,mass g,count\nLock,5,1.5', 'The count in row 2 is not a whole number.'],
    ['item,mass g,place\nLock,5,roof', '“roof” in row 2, column “place”, should be one of: bike, rider, spare.'],
  ])('%j is refused with one sentence', (text, sentence) => {
    const result = readKit(text, marks)
    expect(!result.ok && typedWordsIn('metric').fault(result.fault)).toBe(sentence)
  })
})
