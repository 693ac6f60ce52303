import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  chargeAtOpenCircuit,
  chemistries,
  openCircuitCurve,
  openCircuitIntegral,
  openCircuitVoltage,
  type ChemistryId,
} from '../../src/model/battery/chemistry'
import {
  currentAt,
  energyBetween,
  openCircuit,
  packAt,
  resistance,
  usableEnergy,
  usableLeft,
  type Pack,
  type PackSpec,
} from '../../src/model/battery/pack'
import { PackState } from '../../src/model/forecast/pack-state'
import { near, within } from '../asserts'
import { plainCell } from '../reference/battery-packs'

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

const seed = 20260514
const ids: ChemistryId[] = ['nmc', 'lfp']
/** Evenly spread, unlike `fc.double`, which favours the smallest numbers. */
const even = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((i) => min + ((max - min) * i) / 1_000_000)
const share = even(0, 1)
const specs = fc.record<PackSpec>({
  chemistry: fc.constantFrom(...ids),
  series: fc.integer({ min: 4, max: 20 }),
  capacityAh: even(2, 60),
  health: even(0.4, 1),
  floor: even(0, 0.5),
  cellResistance: even(0, 0.5),
  wiringResistance: even(0, 0.2),
  dischargeCurrent: even(0, 400),
  chargeCurrent: even(0.5, 20),
})
const temperatures = even(-30, 50)

describe('open-circuit curve', () => {
  it.each(ids)('%s rises everywhere and keeps its ends beyond them', (id) => {
    let before = openCircuitVoltage(chemistries[id], 0)
    for (let i = 1; i <= 10000; i++) {
      const voltage = openCircuitVoltage(chemistries[id], i / 10000)
      expect(voltage).toBeGreaterThan(before)
      before = voltage
    }
    expect(openCircuitVoltage(chemistries[id], -1)).toBe(openCircuitVoltage(chemistries[id], 0))
    expect(openCircuitVoltage(chemistries[id], 2)).toBe(openCircuitVoltage(chemistries[id], 1))
  })

  it.each(ids)('%s: the look-up agrees with a scan of the table, and its inverse undoes it', (id) => {
    const { charge, voltage } = chemistries[id].openCircuit
    fc.assert(
      fc.property(share, (z) => {
        const after = Math.max(
          1,
          charge.findIndex((knot) => knot >= z),
        )
        const part = (z - charge[after - 1]!) / (charge[after]! - charge[after - 1]!)
        const scanned = voltage[after - 1]! * (1 - part) + voltage[after]! * part
        near(openCircuitVoltage(chemistries[id], z), scanned, 1e-12)
        near(chargeAtOpenCircuit(chemistries[id], scanned), z, 1e-9)
      }),
      { seed },
    )
  })

  it.each(ids)('%s: the integral agrees with a fine sum', (id) => {
    const n = 200000
    let sum = 0
    for (let i = 0; i < n; i++) {
      sum += openCircuitVoltage(chemistries[id], (i + 0.5) / n) / n
      if (i === 61233) near(openCircuitIntegral(chemistries[id], (i + 1) / n), sum, 1e-8)
    }
    near(openCircuitIntegral(chemistries[id], 1), sum, 1e-8)
  })

  it('takes knots between whole percents', () => {
    const cell = {
      ...chemistries.nmc,
      openCircuit: openCircuitCurve([0, 0.3, 0.7, 41.5, 100], [3, 3.1, 3.2, 3.6, 4.2]),
    }
    near(openCircuitVoltage(cell, 0.005), 3.15, 1e-12)
    near(openCircuitVoltage(cell, 0.415), 3.6, 1e-12)
    near(openCircuitVoltage(cell, 0.7075), 3.9, 1e-12)
  })

  it.each([
    [
      [0, 50],
      [3, 4],
    ],
    [
      [0, 100],
      [4, 3],
    ],
    [
      [0, 50, 50, 100],
      [1, 2, 3, 4],
    ],
    [
      [0, 100],
      [3, Number.NaN],
    ],
    [[0, 100], [3]],
    [[0], [3]],
  ])('refuses the table %j %j', (percent, voltage) => {
    expect(() => openCircuitCurve(percent, voltage)).toThrow(RangeError)
  })

  it.each(ids)('%s: limits and curve agree', (id) => {
    const { chargeLimitVoltage, nominalVoltage, lowVoltage, hardLowVoltage } = chemistries[id]
    expect(openCircuitVoltage(chemistries[id], 1)).toBeLessThanOrEqual(chargeLimitVoltage)
    expect(chargeLimitVoltage).toBeGreaterThan(nominalVoltage)
    expect(nominalVoltage).toBeGreaterThan(lowVoltage)
    expect(lowVoltage).toBeGreaterThan(hardLowVoltage)
    expect(openCircuitVoltage(chemistries[id], 0)).toBeGreaterThan(hardLowVoltage)
  })
})

describe('pack', () => {
  it('counts health and cold in its capacity', () => {
    near(packAt(spec, 25).capacity, 14 * 0.9 * 3600, 1e-6)
    near(packAt(spec, -10).capacity, 14 * 0.9 * 3600 * 0.93, 1e-6)
    near(packAt(spec, -40).capacity, 14 * 0.9 * 3600 * 0.85, 1e-6)
  })

  it('stops the motor at its floor, or where even at rest it is at its cut-off voltage', () => {
    // A cell that rises from 3 V empty to 4 V full rests at 3.2 V with a fifth of its charge.
    const chemistry = { ...plainCell([0, 100], [3, 4], 0.1), lowVoltage: 3.2 }
    near(packAt({ ...spec, floor: 0 }, 20, chemistry).floor, 0.2, 1e-12)
    near(packAt({ ...spec, floor: 0.15 }, 20, chemistry).floor, 0.2, 1e-12)
    near(packAt({ ...spec, floor: 0.25 }, 20, chemistry).floor, 0.25, 1e-12)
    near(openCircuit(packAt({ ...spec, floor: 0 }, 20, chemistry), 0.2), spec.series * 3.2, 1e-9)
  })

  it('has a resistance without a step in charge', () => {
    const fine = 1e-6
    for (let z = 0; z < 1; z += 0.0005) {
      expect(Math.abs(resistance(pack, z + fine) - resistance(pack, z))).toBeLessThan(1e-5)
    }
    near(resistance(pack, 0.1) - 0.03, 1.5 * (resistance(pack, 0.5) - 0.03), 1e-12)
  })

  it('has the more resistance the colder and the more worn it is', () => {
    const at = (temperature: number, health: number) => resistance(packAt({ ...spec, health }, temperature), 0.5)
    for (let temperature = -20; temperature < 40; temperature += 1) {
      expect(at(temperature, 0.9)).toBeGreaterThan(at(temperature + 1, 0.9))
    }
    expect(at(20, 0.7)).toBeGreaterThan(at(20, 0.9))
  })

  it('splits its energy at any charge', () => {
    fc.assert(
      fc.property(specs, temperatures, share, (any, temperature, z) => {
        const one = packAt(any, temperature)
        within(energyBetween(one, 0, z) + energyBetween(one, z, 1), energyBetween(one, 0, 1), 1e-9)
        expect(usableLeft(one, z)).toBeGreaterThanOrEqual(0)
        expect(usableLeft(one, z)).toBeLessThanOrEqual(usableEnergy(one) * (1 + 1e-9))
      }),
      { seed },
    )
    expect(usableLeft(pack, 0.05)).toBe(0)
    expect(usableLeft(pack, 0.01)).toBe(0)
    expect(usableLeft(pack, 1)).toBe(usableEnergy(pack))
  })

  it('gives any power up to the most, within all three limits, and no more', () => {
    let currentBound = 0
    let voltageBound = 0
    fc.assert(
      fc.property(specs, temperatures, share, share, (any, temperature, z, part) => {
        const one = packAt(any, temperature)
        const { most } = new PackState(one, z, 0, Infinity)
        expect(Number.isFinite(most)).toBe(true)
        expect(most).toBeGreaterThanOrEqual(0)
        const ohm = resistance(one, z)
        const current = currentAt(openCircuit(one, z), ohm, part * most)
        const voltage = openCircuit(one, z) - current * ohm
        near(current * voltage, part * most, 1e-6 * (1 + most))
        const load = { power: 1.5 * most + 1, time: 1e-6, given: 0 }
        new PackState(one, z, 0, Infinity).draw(load)
        expect(load.given).toBe(most)
        if (most > 0) {
          expect(current).toBeLessThanOrEqual(any.dischargeCurrent)
          expect(voltage).toBeGreaterThanOrEqual(one.cutOffVoltage - 1e-6)
          expect(voltage).toBeGreaterThanOrEqual(openCircuit(one, z) / 2 - 1e-6)
          if (currentAt(openCircuit(one, z), ohm, most) > any.dischargeCurrent * 0.999999) currentBound++
          else voltageBound++
        }
      }),
      { seed, numRuns: 500 },
    )
    expect(currentBound).toBeGreaterThan(20)
    expect(voltageBound).toBeGreaterThan(20)
  })

  it('never answers with NaN', () => {
    expect(currentAt(36, 0.15, 1e6)).toBeCloseTo(2e6 / 36, 6)
    expect(currentAt(36, 0, 250)).toBeCloseTo(250 / 36, 12)
    expect(new PackState(pack, 0, 0, Infinity).most).toBe(0)
    const ideal = packAt({ ...spec, cellResistance: 0, wiringResistance: 0 }, 20)
    near(new PackState(ideal, 0.5, 0, Infinity).most, 20 * openCircuit(ideal, 0.5), 1e-9)
  })

  it('counts coulombs down to nothing', () => {
    fc.assert(
      fc.property(share, even(0, 700), fc.nat(10000), (z, power, time) => {
        const state = new PackState(pack, z, 0, Infinity)
        const load = { power, time, given: 0 }
        state.draw(load)
        expect(state.charge >= 0 && state.charge <= z).toBe(true)
        near(state.drained, energyBetween(pack, state.charge, z), 1e-6 * (1 + state.drained))
      }),
      { seed },
    )
    const state = new PackState(pack, 0.8, 0, Infinity)
    state.draw({ power: 0, time: 3600, given: 0 })
    expect(state.charge).toBe(0.8)
  })

  it('balances open-circuit energy, work and heat over a discharge, exactly where the open-circuit curve is straight', () => {
    const imbalance = (one: Pack) => {
      const state = new PackState(one, 0.95, 0, Infinity)
      for (let t = 0; t < 3600; t += 40) state.draw({ power: 250, time: 40, given: 0 })
      const out = 250 * 3600 + state.loss
      return Math.abs(out - state.drained) / out
    }
    expect(imbalance(packAt(spec, 20, plainCell([0, 100], [3.2, 4.1], 0.1)))).toBeLessThan(1e-12)
    expect(imbalance(pack)).toBeLessThan(5e-6)
  })

  it.each([
    ['series', 0],
    ['capacityAh', Number.NaN],
    ['health', 0],
    ['health', 1.2],
    ['floor', -0.1],
    ['floor', 1.1],
    ['cellResistance', -1],
    ['wiringResistance', Infinity],
    ['dischargeCurrent', Number.NaN],
    ['chargeCurrent', -1],
  ] as const)('refuses %s of %d', (key, value) => {
    expect(() => packAt({ ...spec, [key]: value }, 20)).toThrow(RangeError)
  })

  it('refuses a temperature that is no number', () => {
    expect(() => packAt(spec, Number.NaN)).toThrow(RangeError)
  })
})
