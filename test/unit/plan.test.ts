import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { mostText, readPlan } from '../../src/model/plan/check'
import { writePlan } from '../../src/model/plan/write'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { addStretch } from '../../src/model/plan/edit-stretches'
import { migrate } from '../../src/model/plan/migrate'
import { planVersion, type Plan, type PlanPack } from '../../src/model/plan/schema'
import { wordsIn } from '../../src/view/words/words'
import { near } from '../asserts'
import { fullestPlan } from '../fullest'
import { schemas } from '../plan-schema'

const sentence = (text: string) => {
  const reading = readPlan(text)
  if (reading.ok) throw new Error('This plan was taken.')
  return wordsIn('metric').plan(reading.fault)
}
const changed = (change: (plan: Plan) => void) => {
  const plan = defaultPlan()
  change(plan)
  return writePlan(plan)
}

describe('the plan at its door', () => {
  it('comes back as it went', () => {
    const plan = { ...defaultPlan(), stops: [defaultStop('stop-1', 'Mill', 82_000, 'source-1')] }
    expect(readPlan(writePlan(plan))).toEqual({ ok: true, plan })
  })

  it('is refused with one sentence that names the one thing that is wrong', () => {
    expect(sentence('no plan')).toMatch(/not JSON/)
    expect(sentence('{}')).toMatch(/format/)
    expect(sentence(changed((plan) => ((plan as { version: number }).version = 99)))).toMatch(/version 99, newer/)
    for (const version of [1.5, 0, -1, '2', null, undefined])
      expect(sentence(changed((plan) => Object.assign(plan, { version })))).toMatch(/“version” is not a whole number/)
    expect(sentence(changed((plan) => (plan.rider.mass = 1)))).toMatch(/“rider\.mass”/)
    expect(sentence(changed((plan) => (plan.battery.packs = [])))).toMatch(/“battery\.packs”/)
    expect(sentence(changed((plan) => (plan.battery.packs[1]!.id = 'pack-1')))).toMatch(/Two packs.*“pack-1”/)
    expect(sentence(changed((plan) => (plan.stops = [defaultStop('stop-1', 'Inn', 1, 'gone')])))).toMatch(/“Inn”/)
    const stretches = (...ends: [number, number][]) =>
      sentence(
        changed((plan) => {
          const { stretches } = addStretch(plan, 0, 1).plan
          plan.stretches = ends.map(([start, end], i) => ({ ...stretches[0]!, id: `s${i}`, start, end }))
        }),
      )
    expect(stretches([50, 60], [40, 50], [59, 70])).toMatch(/“s0” and “s2” of the plan overlap/)
    expect(stretches([50, 60], [70, 70])).toMatch(/“s1”.*ends before/)
    expect(sentence(changed((plan) => (plan.start = '2027-02-30T06:00')))).toMatch(/calendar/)
  })
})

describe('a plan with other keys than this build writes', () => {
  const document = JSON.parse(writePlan({ ...defaultPlan(), stops: [defaultStop('s', 'Mill', 1000, null)] })) as Plan
  const read = (text: unknown) => readPlan(JSON.stringify(text))

  it('is taken without those that it does not know', () => {
    const foreign = {
      ...document,
      colour: 1,
      rider: { ...document.rider, hat: 'red' },
      stops: document.stops.map((stop) => ({ ...stop, ['__proto__']: { view: 'sea' } })),
    }
    expect(read(foreign)).toEqual({ ok: true, plan: document })
    const text = JSON.stringify(document).replace('{', '{"__proto__":{"polluted":1},')
    expect(readPlan(text)).toEqual({ ok: true, plan: document })
    expect(({} as Record<string, unknown>).polluted).toBeUndefined()
  })

  it('takes the default for what it has not', () => {
    const without = (keep: (path: string) => boolean) =>
      JSON.parse(
        JSON.stringify(document, function (this: unknown, key, value: unknown) {
          return Array.isArray(this) || keep(key) ? value : undefined
        }),
      ) as unknown
    const required = ['', 'format', 'version', 'start', 'battery', 'packs', 'id', 'chemistry', 'distance']
    const bare = without((key) => [...required, 'stops'].includes(key))
    const { sources, ...rest } = defaultPlan({ pack: () => '', firstCharger: () => '' })
    expect(sources).toHaveLength(1)
    const stops = [{ ...defaultStop('s', '', 1000, null), kind: 'rest' }]
    expect(read(bare)).toEqual({ ok: true, plan: { ...rest, sources: [], stops } })
    expect(read(without((key) => key !== 'needs' && key !== 'wet' && key !== 'sources' && key !== 'source'))).toEqual({
      ok: true,
      plan: { ...document, sources: [] },
    })
  })
})

describe('a file that is no plan by its size', () => {
  const fault = (text: string) => {
    const reading = readPlan(text)
    return reading.ok ? undefined : reading.fault.code
  }
  const head = '{"format":"wattfare-plan","version":3,'

  it('is refused before it is taken apart', () => {
    expect(fault(`${head}"x":"${'a'.repeat(8_000_000)}"}`)).toBe('tooLarge')
    expect(fault(`${head}"x":${'['.repeat(17)}`)).toBe('tooDeep')
    expect(fault(`${head}"stops":[${'{},'.repeat(300_000)}{}]}`)).toBe('tooMany')
    expect(fault('['.repeat(1_000_000))).toBe('tooDeep')
  })

  it('is not what stands in its texts', () => {
    const name = `${'['.repeat(40)}\\" {{{ \\`
    const stop = { ...defaultStop('s', name, 1, null) }
    expect(fault(writePlan({ ...defaultPlan(), stops: [stop] }))).toBeUndefined()
    const weather = { ...defaultPlan(), kit: [] }
    expect(fault(writePlan(weather).replace('"kit": []', `"kit": "${',['.repeat(300_000)}"`))).toBe('badField')
  })

  it('gives one sentence of at most 200 characters, in words', () => {
    const long = 'y'.repeat(100_000)
    const texts = [
      `${head}"x":"${'a'.repeat(8_000_000)}"}`,
      `${head}${'['.repeat(99)}`,
      `${head}"stops":[${'{},'.repeat(300_000)}{}]}`,
      `{"format":"wattfare-plan","version":1e300}`,
      changed((plan) => (plan.start = long)),
      changed((plan) => Object.assign(plan.weather, { surroundings: long })),
      changed((plan) => (plan.zone = 'z'.repeat(60))),
      changed((plan) => (plan.stops = [defaultStop('s', 'n'.repeat(80), 1, 'gone')])),
      changed((plan) => Object.assign(plan, { crossings: [{ timetable: { kind: 'list', times: [long] } }] })),
      changed((plan) => Object.assign(plan, { crossings: [{ timetable: { kind: long } }] })),
      changed((plan) => Object.assign(plan.rider, { mass: long })),
      changed((plan) => Object.assign(plan.rider, { mass: { [long]: long } })),
    ]
    for (const text of texts) {
      const said = sentence(text)
      expect(said.length, said).toBeLessThanOrEqual(200)
      expect(said).not.toMatch(/[\\^|]|\bObject\b|\bArray\b/)
    }
  })

  it('is not the fullest plan that the schema allows', () => {
    const plan = fullestPlan()
    const text = writePlan(plan)
    expect(readPlan(text)).toEqual({ ok: true, plan })
    expect(text.length).toBeLessThan(mostText)
  })
})

describe('what is wrong with a plan, as a code', () => {
  const fault = (text: string) => {
    const reading = readPlan(text)
    return reading.ok ? undefined : reading.fault
  }
  const document = (change: object) => JSON.stringify({ ...defaultPlan(), ...change })

  it('is that it is none', () => {
    expect(fault('{')).toEqual({ code: 'noJson' })
    for (const text of ['null', '7', '"wattfare-plan"', '[]', '{}', document({ format: 'other' })])
      expect(fault(text), text).toEqual({ code: 'noPlan' })
    expect(fault(document({ version: 'new' }))).toEqual({ code: 'noVersion' })
    expect(fault(document({ version: planVersion + 1 }))).toEqual({
      code: 'newer',
      version: planVersion + 1,
      known: planVersion,
    })
  })

  it('names the field, what is expected of it and what it holds', () => {
    const { rider, battery } = defaultPlan()
    expect(fault(document({ rider: { ...rider, mass: 34 } }))).toEqual({
      code: 'outOfBounds',
      path: 'rider.mass',
      bound: 'least',
      limit: '35',
      received: '34',
    })
    expect(fault(document({ rider: { ...rider, mass: 181 } }))).toMatchObject({ bound: 'most', limit: '180' })
    expect(fault(document({ battery: { ...battery, packs: [] } }))).toMatchObject({
      code: 'outOfBounds',
      path: 'battery.packs',
      bound: 'least',
      limit: '1',
    })
    const [{ id }] = battery.packs as [PlanPack]
    expect(fault(document({ battery: { packs: [{ id }] } }))).toEqual({
      code: 'missingField',
      path: 'battery.packs.0.chemistry',
    })
    expect(fault(document({ start: '19 June' }))).toEqual({ code: 'badForm', path: 'start', received: '"19 June"' })
    expect(fault(document({ rider: { ...rider, mass: 'light' } }))).toEqual({
      code: 'badField',
      path: 'rider.mass',
      expected: 'number',
      received: '"light"',
    })
  })

  it.each(['2027-06-19T24:00', '2027-06-19T06:60', '2027-13-01T06:00', '2027-00-10T06:00', '2027-06-32T06:00'])(
    '%s is no start',
    (start) => expect(fault(document({ start }))).toMatchObject({ code: 'badForm', path: 'start' }),
  )
  it.each(['2027-02-29T06:00', '2027-02-31T06:00', '2027-04-31T06:00'])('%s is on no calendar', (start) =>
    expect(fault(document({ start }))).toEqual({ code: 'noDate', start }),
  )
  it.each(['2028-02-29T23:59', '2027-10-31T00:00', '2027-12-09T19:05'])('%s is a start', (start) =>
    expect(fault(document({ start }))).toBeUndefined(),
  )

  it('lies between fields too', () => {
    const plan = defaultPlan()
    const [pack] = plan.battery.packs
    expect(fault(document({ battery: { ...plan.battery, packs: [pack, pack] } }))).toEqual({
      code: 'sameId',
      of: 'packs',
      id: pack!.id,
    })
    expect(fault(document({ sources: [plan.sources[0], plan.sources[0]] }))).toMatchObject({ of: 'sources' })
    const stop = defaultStop('stop-1', 'Inn', 5, null)
    expect(fault(document({ stops: [stop, stop] }))).toMatchObject({ code: 'sameId', of: 'stops' })
    const control = { id: 'c', name: 'Gate', distance: 5, opens: null, closes: null }
    expect(fault(document({ controls: [control, control] }))).toMatchObject({ code: 'sameId', of: 'controls' })
    expect(fault(document({ stops: [{ ...stop, source: 'gone' }] }))).toEqual({ code: 'noSource', stop: 'Inn' })
    const crossing = { timetable: { kind: 'duration', duration: 60 }, source: 'gone', fillFirst: 'most' }
    expect(fault(document({ crossings: [crossing] }))).toEqual({ code: 'noSourceOfCrossing' })
    expect(fault(document({ crossings: [{ ...crossing, source: plan.sources[0]!.id }] }))).toBeUndefined()
    const weather = (...times: string[]) => {
      const unknown = {
        temperatureCelsius: 5,
        windSpeed: null,
        windFromDegrees: null,
        rainPerHour: null,
        pressure: null,
      }
      const table = [{ name: 'Inn', distance: 0, hours: times.map((time) => ({ time, ...unknown })) }]
      return document({ weather: { ...plan.weather, table } })
    }
    const [first, later] = ['2027-06-19T06:00', '2027-06-19T07:00']
    expect(fault(weather(first, '2027-02-31T06:00'))).toEqual({
      code: 'noHour',
      place: 'Inn',
      time: '2027-02-31T06:00',
    })
    expect(fault(weather(later, first, later))).toEqual({ code: 'hourTwice', place: 'Inn', time: later })
    const sorted = readPlan(weather(later, '2028-02-29T06:00', first))
    expect(sorted.ok && sorted.plan.weather.table[0]!.hours.map(({ time }) => time)).toEqual([
      first,
      later,
      '2028-02-29T06:00',
    ])
    expect(fault(document({ zone: 'Middle/Earth' }))).toEqual({ code: 'noZone', zone: 'Middle/Earth' })
    expect(fault(document({ zone: 'Europe/Oslo' }))).toBeUndefined()
  })
})

/** Every number, text and empty list of a document by its path, as JSON. */
const leaves = (value: unknown, path = ''): [string, string][] =>
  typeof value === 'object' && value !== null && Object.keys(value).length > 0
    ? Object.entries(value).flatMap(([key, part]) => leaves(part, path === '' ? key : `${path}.${key}`))
    : [[path, JSON.stringify(value)]]

/** What version 4 brought, by its path. */
const fromVersion4 =
  /^(pedalling|steps|forecastAhead)\b|\bpacks\.\d+\.(storage|boardCurrent)$|\.converter\.(in|out)putPeak$|\.(blocks|trial)$/
/** A plan without what version 4 brought. */
const before4 = (plan: Plan): Plan => {
  const without = (value: unknown, path: readonly string[]): unknown => {
    if (typeof value !== 'object' || value === null) return value
    if (Array.isArray(value)) return value.map((part, i) => without(part, [...path, String(i)]))
    const parts = Object.entries(value).map(([key, part]) => [key, [...path, key], part] as const)
    const old = parts.filter(([, at]) => !fromVersion4.test(at.join('.')))
    return Object.fromEntries(old.map(([key, at, part]) => [key, without(part, at)]))
  }
  return without(plan, []) as Plan
}

describe('a plan that was kept', () => {
  const keptIn = new URL('../plans/', import.meta.url)
  const kept = (name: string) => readFileSync(new URL(name, keptIn), 'utf8')
  const opened = (text: string): Plan => {
    const reading = readPlan(text)
    if (!reading.ok) throw new Error(reading.fault.code)
    return reading.plan
  }
  const names = readdirSync(keptIn)

  it('is there for every version that ever was', () => {
    for (let version = 1; version <= planVersion; version++)
      expect(names.some((name) => name.startsWith(`v${version}-`))).toBe(true)
  })

  it.each(names)('%s opens, and is written and opened again the same', (name) => {
    const plan = opened(kept(name))
    expect(plan.version).toBe(planVersion)
    expect(opened(writePlan(plan))).toEqual(plan)
  })

  it.each([
    ['v1-full.json', { fade: (0.03 * 0.035) / 0.045, fillFirst: 'emptiest', stops: 5, crossings: 3 }],
    ['v1-plain.json', { fade: 0.035, fillFirst: 'most', stops: 1, crossings: 1 }],
  ])('%s of version 1 loses nothing but what version 2 says otherwise', (name, becomes) => {
    const old = JSON.parse(kept(name)) as Record<string, unknown>
    const before = structuredClone(old)
    migrate(old, 1)
    expect(old).toEqual(before)
    const was = new Map(leaves(old))
    const is = new Map(leaves(opened(kept(name))))
    for (const path of is.keys()) if (fromVersion4.test(path)) is.delete(path)
    const gone = [...was.keys()].filter((path) => !is.has(path))
    const come = [...is.keys()].filter((path) => !was.has(path))
    const changed = [...was.keys()].filter((path) => is.has(path) && is.get(path) !== was.get(path))
    expect(gone.sort()).toEqual(['battery.fillFirst', 'rider.fadeOnset', 'rider.fadePerHour'])
    expect(changed).toEqual(['version'])
    const orders = [
      ...Array.from({ length: becomes.stops }, (_, i) => `stops.${i}.fillFirst`),
      ...Array.from({ length: becomes.crossings }, (_, i) => `crossings.${i}.fillFirst`),
    ]
    expect(come.sort()).toEqual(
      ['beliefs', 'learnt', 'readings', 'rider.fade', 'ridingGoal', 'stretches', ...orders].sort(),
    )
    near(Number(is.get('rider.fade')), becomes.fade, 1e-15)
    for (const path of orders) expect(is.get(path)).toBe(JSON.stringify(becomes.fillFirst))
    expect(is.get('stretches')).toBe('[]')
  })

  it('v2-full.json of version 2 loses nothing; nothing was learnt yet, and its goal is of the whole day', () => {
    const text = kept('v2-full.json')
    const { version, learnt, readings, beliefs, ridingGoal, ...plan } = before4(opened(text))
    expect([version, learnt, readings, beliefs, ridingGoal]).toEqual([planVersion, null, [], [], null])
    expect(JSON.parse(text)).toEqual({ ...plan, version: 2 })
  })

  it('v3-full.json of version 3 loses nothing of what was learnt and read on the way, of the goals and of what the kit draws', () => {
    const text = kept('v3-full.json')
    const { learnt, readings } = JSON.parse(text) as Plan
    expect(readings).toHaveLength(2)
    expect(opened(text).readings).toEqual(readings)
    expect(opened(text).beliefs).toEqual([{ path: 'bike.luggage', known: 'measured' }])
    expect(learnt?.figures).toHaveLength(3)
    expect(opened(text).learnt).toEqual(learnt)
    const { ridingGoal, kit } = opened(text)
    expect([ridingGoal, kit[0]!.draws]).toEqual([30_600, { power: 8, from: 'packs', when: 'dark' }])
    expect(before4(opened(text))).toEqual({ ...(JSON.parse(text) as Plan), version: planVersion })
    expect(sentence(text.replace('"rider.power"', '"rider.mass"'))).toMatch(/“learnt\.figures\.0\.path”/)
  })

  it('of version 3 has nothing of what version 4 knows: no time in store, no peaks, no blocks, no trial, no torque to keep below, no steps', () => {
    const { battery, sources, pedalling, steps, forecastAhead } = opened(kept('v3-full.json'))
    expect(forecastAhead).toBe(1)
    expect(battery.packs.map(({ storage, boardCurrent }) => [storage, boardCurrent])).toEqual([
      [0, 0.0001],
      [0, 0.0001],
    ])
    const carried = sources.find((source) => source.kind === 'carried')
    expect([carried?.blocks, carried?.trial, carried?.converter.outputPeak, carried?.converter.inputPeak]).toEqual([
      [],
      null,
      null,
      null,
    ])
    expect(pedalling.mostTorque).toBeNull()
    expect(steps).toEqual([])
  })

  it('v4-full.json of version 4 loses nothing', () => {
    const text = kept('v4-full.json')
    expect(opened(text)).toEqual(JSON.parse(text))
  })

  it('is refused by name where something in it is not right, whatever its version', () => {
    const old = (change: object) => JSON.stringify({ ...(JSON.parse(kept('v1-plain.json')) as object), ...change })
    expect(sentence(old({ rider: 5 }))).toMatch(/“rider”/)
    expect(sentence(old({ battery: null }))).toMatch(/“battery”/)
    expect(sentence(old({ stops: [null] }))).toMatch(/“stops\.0”/)
    expect(sentence(old({ crossings: 'none' }))).toMatch(/“crossings”/)
    expect(sentence(old({ rider: { fadePerHour: 'much' } }))).toMatch(/“rider\./)
    const { rider } = defaultPlan()
    expect(sentence(old({ rider: { ...rider, fade: undefined, fadePerHour: 'much' } }))).toMatch(
      /“rider\.fade”.*“?much/,
    )
  })
})

describe('the published schema', () => {
  it.each(schemas)('is what the program checks by: $file', ({ file, text }) => {
    expect(readFileSync(file, 'utf8')).toBe(text())
  })

  it('holds every bound of the catalogue', () => {
    const schema = JSON.parse(schemas[0]!.text()) as {
      properties: { rider: { properties: Record<string, { minimum: number; maximum: number; description: string }> } }
    }
    expect(schema.properties.rider.properties.mass).toMatchObject({ minimum: 35, maximum: 180 })
    expect(schema.properties.rider.properties.mass!.description).toContain('kg')
  })
})
