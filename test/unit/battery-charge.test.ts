import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chargerShortfall } from '../../src/model/battery/charge'
import type { MainsCharger } from '../../src/model/battery/charger'
import { chemistries, type ChemistryId } from '../../src/model/battery/chemistry'
import { fullVoltage, openCircuit, packAt, type Pack, type PackSpec } from '../../src/model/battery/pack'
import { chargerRefusal } from '../../src/model/battery/refusal'
import { near, within } from '../asserts'
import { chargePack } from '../reference/charging-parts'

const spec: PackSpec = {
  chemistry: 'nmc',
  series: 10,
  capacityAh: 14,
  health: 0.9,
  floor: 0.05,
  cellResistance: 0.13,
  wiringResistance: 0.03,
  dischargeCurrent: 20,
  chargeCurrent: 5,
}
const pack = packAt(spec, 20)
const charger: MainsCharger = { voltage: 42, current: 4, efficiency: 0.88 }

const seed = 20260514
/** Evenly spread, unlike `fc.double`, which favours the smallest numbers. */
const even = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((i) => min + ((max - min) * i) / 1_000_000)
const share = even(0, 1)
const cases = fc.record({
  chemistry: fc.constantFrom<ChemistryId>('nmc', 'lfp'),
  series: fc.integer({ min: 4, max: 20 }),
  capacityAh: even(2, 60),
  health: even(0.4, 1),
  chargeCurrent: even(0.5, 20),
  temperature: even(0, 45),
  current: even(0.2, 20),
  /** Of the pack's full voltage. */
  voltage: even(0.8, 1),
})

type Case = typeof cases extends fc.Arbitrary<infer T> ? T : never
function build(one: Case): { pack: Pack; charger: MainsCharger } {
  const { chemistry, series, capacityAh, health, chargeCurrent } = one
  const built = { ...spec, chemistry, series, capacityAh, health, chargeCurrent }
  return {
    pack: packAt(built, one.temperature),
    charger: { voltage: fullVoltage(built) * one.voltage, current: one.current, efficiency: 0.9 },
  }
}

/** The same charge by the plain midpoint rule in time, one second a step: charge, ∫ V I dt, time. */
function stepped(one: Pack, from: number, source: MainsCharger, limit: number, longest: number) {
  const time = 1
  const voltage = Math.min(source.voltage, one.series * one.chemistry.chargeLimitVoltage)
  const end = one.chemistry.endRate * one.spec.capacityAh
  const currentAt = (z: number) => Math.min(limit, Math.max(0, (voltage - openCircuit(one, z)) / one.chargeResistance))
  const perCoulomb = one.chemistry.coulombicEfficiency / one.capacity
  let charge = from
  let energy = 0
  let t = 0
  while (t < longest && charge < 1 && (currentAt(charge) > end || currentAt(charge) >= limit)) {
    const middle = charge + (perCoulomb * currentAt(charge) * time) / 2
    const current = currentAt(middle)
    energy += current * (openCircuit(one, middle) + current * one.chargeResistance) * time
    charge = Math.min(1, charge + perCoulomb * current * time)
    t += time
  }
  return { charge, energy, time: t }
}

describe('charging', () => {
  it('goes from constant current to constant voltage and says so', () => {
    const run = chargePack(pack, 0.2, charger, {})
    expect(run.phases.map(({ limit }) => limit)).toEqual(['chargerCurrent', 'constantVoltage'])
    expect(run.phases.at(-1)!.until).toBe(run.time)
    expect(run.end).toBe('full')
    near(run.fromMains, run.delivered / 0.88, 1e-6)
  })

  it('names the limit that binds', () => {
    const first = (one: Pack, source: MainsCharger) => chargePack(one, 0.2, source, {}).phases[0]!.limit
    expect(first(pack, { ...charger, current: 8 })).toBe('packCurrent')
    expect(first(packAt(spec, 9), charger)).toBe('cold')
    expect(first(packAt(spec, 10), charger)).toBe('chargerCurrent')
    expect(first(packAt(spec, 9), { ...charger, current: 1 })).toBe('chargerCurrent')
    expect(first(packAt({ ...spec, chargeCurrent: 1 }, 9), charger)).toBe('packCurrent')
  })

  it('takes 0.1 C below 5 °C and 0.2 C below 10 °C', () => {
    const gained = (temperature: number) => {
      const cold = packAt(spec, temperature)
      return ((chargePack(cold, 0.2, charger, { time: 600 }).charge - 0.2) * cold.capacity) / 600 / 0.998
    }
    near(gained(0), 1.4, 1e-9)
    near(gained(4.9), 1.4, 1e-9)
    near(gained(5), 2.8, 1e-9)
    near(gained(9.9), 2.8, 1e-9)
    near(gained(10), 4, 1e-9)
  })

  it('agrees with plain steps of one second, for any pack, charger, temperature and start', () => {
    const ends = new Set<string>()
    fc.assert(
      fc.property(cases, share, (one, from) => {
        const { pack: any, charger: source } = build(one)
        const run = chargePack(any, from, source, { time: 30000 })
        const cold = one.temperature < 5 ? 0.1 : one.temperature < 10 ? 0.2 : Infinity
        const limit = Math.min(one.current, one.chargeCurrent, cold * one.capacityAh)
        const check = stepped(any, from, source, limit, 30000)
        near(run.charge, check.charge, 0.002, 'charge')
        near(run.time, check.time, 2 + 0.002 * check.time, 'time')
        near(run.delivered, check.energy, 0.002 * check.energy + 2 * limit * source.voltage, 'energy')
        ends.add(run.end)
      }),
      { seed, numRuns: 150 },
    )
    expect([...ends].sort()).toEqual(['chargerVoltage', 'full', 'time'])
  })

  it('keeps every figure finite, the charge between the start and 1, the phases ascending', () => {
    fc.assert(
      fc.property(cases, share, share, fc.nat(100000), (one, from, until, time) => {
        const { pack: any, charger: source } = build(one)
        const run = chargePack(any, from, source, { charge: until, time })
        expect(run.charge).toBeGreaterThanOrEqual(from)
        expect(run.charge).toBeLessThanOrEqual(Math.max(from, until))
        expect(run.time).toBeLessThanOrEqual(time)
        for (const key of ['stored', 'resistiveLoss', 'coulombicLoss', 'delivered', 'fromMains'] as const) {
          expect(Number.isFinite(run[key]) && run[key] >= 0, key).toBe(true)
        }
        let last = 0
        for (const { until: at } of run.phases) {
          expect(at).toBeGreaterThan(last)
          last = at
        }
        expect(last).toBe(run.time)
      }),
      { seed, numRuns: 500 },
    )
  })

  it('may be cut in two anywhere: the parts add up to the whole', () => {
    fc.assert(
      fc.property(cases, share, share, (one, from, cut) => {
        const { pack: any, charger: source } = build(one)
        const whole = chargePack(any, from, source, {})
        const first = chargePack(any, from, source, { time: cut * whole.time })
        const rest = chargePack(any, first.charge, source, {})
        near(first.time + rest.time, whole.time, 1e-3 + 1e-6 * whole.time)
        near(first.delivered + rest.delivered, whole.delivered, 1 + 1e-6 * whole.delivered)
        near(rest.charge, whole.charge, 1e-9)
      }),
      { seed, numRuns: 300 },
    )
  })

  it('gives more charge for more time, and needs more time for more charge', () => {
    let charge = 0.1
    for (let time = 600; time <= 7200; time += 600) {
      const run = chargePack(pack, 0.1, charger, { time })
      expect(run.charge).toBeGreaterThan(charge)
      near(chargePack(pack, 0.1, charger, { charge: run.charge }).time, time, 1e-6)
      charge = run.charge
    }
  })

  it('stops where it is told, and says which goal it was', () => {
    const both = chargePack(pack, 0.2, charger, { time: 1800, charge: 0.9 })
    expect(both.end).toBe('time')
    expect(both.time).toBe(1800)
    const until = chargePack(pack, 0.2, charger, { time: 36000, charge: 0.5 })
    expect(until.end).toBe('until')
    expect(until.charge).toBe(0.5)
  })

  it('does nothing where there is nothing to do', () => {
    const none = { time: 0, stored: 0, delivered: 0, fromMains: 0, phases: [] }
    expect(chargePack(pack, 1, charger, {})).toMatchObject({ ...none, charge: 1, end: 'full' })
    expect(chargePack(pack, 0.6, charger, { charge: 0.5 })).toMatchObject({ ...none, charge: 0.6, end: 'until' })
    expect(chargePack(pack, 0.6, charger, { time: 0 })).toMatchObject({ ...none, charge: 0.6, end: 'time' })
    const low = { ...charger, voltage: 36 }
    expect(chargePack(pack, 0.9, low, {})).toMatchObject({ ...none, charge: 0.9, end: 'chargerVoltage' })
  })

  it('stops an LFP pack at full though its voltage would still drive a current', () => {
    const lfp = packAt({ ...spec, chemistry: 'lfp', series: 12 }, 20)
    const run = chargePack(lfp, 0.5, { ...charger, voltage: 43.8 }, {})
    expect(run.charge).toBe(1)
    expect(run.end).toBe('full')
    expect((43.8 - openCircuit(lfp, 1)) / lfp.chargeResistance).toBeGreaterThan(0.05 * 14)
  })

  it('ends a charger weaker than the end current where it would hold its voltage', () => {
    const run = chargePack(pack, 0.9, { ...charger, current: 0.5 }, {})
    expect(run.phases.map(({ limit }) => limit)).toEqual(['chargerCurrent'])
    near(openCircuit(pack, run.charge) + 0.5 * pack.chargeResistance, 42, 1e-9)
    expect(run.end).toBe('full')
  })

  it('never charges above the full voltage: within the tolerance it reckons with the full voltage', () => {
    expect(chargePack(pack, 0.2, { ...charger, voltage: 42.2 }, {})).toEqual(chargePack(pack, 0.2, charger, {}))
  })
})

describe('refusals', () => {
  it.each([
    [{ voltage: 54.6 }, 20, 'overcharge'],
    [{ voltage: 42.22 }, 20, 'overcharge'],
    [{ voltage: Number.NaN }, 20, 'chargerFigures'],
    [{ current: 0 }, 20, 'chargerFigures'],
    [{ efficiency: 0 }, 20, 'chargerFigures'],
    [{ efficiency: 1.1 }, 20, 'chargerFigures'],
    [{}, -0.1, 'tooCold'],
    [{}, 45.1, 'tooHot'],
  ])('of %j at %d °C', (change, temperature, code) => {
    const source = { ...charger, ...change }
    expect(chargerRefusal(packAt(spec, temperature), source)?.code).toBe(code)
    expect(() => chargePack(packAt(spec, temperature), 0.5, source, {})).toThrow(code)
  })

  it.each([
    [{ voltage: 42.2 }, 20],
    [{ voltage: 36 }, 20],
    [{}, 0],
    [{}, 45],
  ])('none of %j at %d °C', (change, temperature) => {
    expect(chargerRefusal(packAt(spec, temperature), { ...charger, ...change })).toBeUndefined()
  })

  it('of a pack that takes no current, and of an LFP charger on too few cells', () => {
    expect(chargerRefusal(packAt({ ...spec, chargeCurrent: 0 }, 20), charger)).toEqual({ code: 'takesNoCharge' })
    expect(chargerRefusal(packAt({ ...spec, chemistry: 'lfp' }, 20), charger)).toEqual({
      code: 'overcharge',
      by: 'charger',
      voltage: 42,
      full: 36.5,
    })
  })

  it('says of a charger with too low a voltage how far it fills, and charges that far', () => {
    const low = { ...charger, voltage: 38 }
    const run = chargePack(pack, 0.1, low, {})
    expect(run.end).toBe('chargerVoltage')
    expect(chargerShortfall(pack, low)).toEqual({ voltage: 38, full: 42, charge: run.charge })
    expect(chargerShortfall(pack, charger)).toBeUndefined()
    expect(chargerShortfall(pack, { ...charger, voltage: 41.9 })).toBeUndefined()
  })

  it.each([
    [1.1, {}],
    [Number.NaN, {}],
    [0.5, { time: -1 }],
    [0.5, { time: Number.NaN }],
    [0.5, { charge: 1.2 }],
    [0.5, { charge: -0.1 }],
  ])('of charge %d with goal %j', (charge, goal) => {
    expect(() => chargePack(pack, charge, charger, goal)).toThrow(RangeError)
  })

  it('says nothing of ordinary arrangements of either chemistry', () => {
    for (const chemistry of ['nmc', 'lfp'] as const) {
      const any = { ...spec, chemistry }
      const voltage = spec.series * chemistries[chemistry].chargeLimitVoltage
      expect(chargerRefusal(packAt(any, 20), { ...charger, voltage })).toBeUndefined()
      within(chargePack(packAt(any, 20), 0.5, { ...charger, voltage }, {}).charge, 1, 0.01)
    }
  })
})
