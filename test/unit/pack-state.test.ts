import { describe, expect, it } from 'vitest'
import { currentAt, energyBetween, openCircuit, packAt, resistance, usableLeft } from '../../src/model/battery/pack'
import { PackState } from '../../src/model/forecast/pack-state'
import { near, within } from '../asserts'
import { tenSeries, twelveSeriesLfp } from '../reference/battery-packs'

const packs = [
  ['a pack', packAt({ ...tenSeries, floor: 0.05 }, 20)],
  ['a cold one of low floor', packAt({ ...twelveSeriesLfp, dischargeCurrent: 12 }, -5)],
  ['one of little current', packAt({ ...tenSeries, dischargeCurrent: 9 }, 10)],
] as const

describe.each(packs)('the state of %s', (_, pack) => {
  const charges = Array.from({ length: 101 }, (_, k) => k / 100)

  it('is what the laws of the pack say of its charge', () => {
    for (const charge of charges) {
      const state = new PackState(pack, charge, 5, Infinity)
      near(state.left, usableLeft(pack, charge), 1e-6, `left at ${charge}`)
      const voltage = openCircuit(pack, charge)
      const ohm = resistance(pack, charge)
      // As much as current, cut-off voltage and half of the voltage allow.
      const current = Math.min(
        pack.dischargeCurrent,
        Math.max(0, voltage - Math.max(pack.cutOffVoltage, voltage / 2)) / ohm,
      )
      near(state.most, current * (voltage - ohm * current), 1e-6, `most at ${charge}`)
      expect(state.spent, `spent at ${charge}`).toBe(charge <= pack.floor || state.most <= 5)
    }
  })

  it('gives the same whether or not it is known how much is asked at most', () => {
    const asked = 280
    let full = 0
    for (let charge = 0; charge <= 1; charge += 0.0037) {
      const free = new PackState(pack, charge, 5, Infinity)
      const bound = new PackState(pack, charge, 5, asked)
      expect(bound.spent, `spent at ${charge}`).toBe(free.spent)
      if (bound.most === Infinity) {
        full++
        expect(free.most).toBeGreaterThanOrEqual(asked)
      } else expect(bound.most).toBe(free.most)
      for (const power of [asked, 90, 0, -20]) {
        const [one, other] = [free, bound].map((state) => {
          const load = { power, time: 20, given: NaN }
          state.hold(charge)
          state.draw(load)
          return [load.given, state.charge, state.left]
        })
        expect(other, `${power} W at ${charge}`).toEqual(one)
      }
    }
    // Where it is plenty nothing is worked out: nearly everywhere.
    expect(full).toBeGreaterThan(200)
  })

  it('keeps books of what is taken from inside and what the resistance takes', () => {
    const state = new PackState(pack, 0.8, 5, Infinity)
    let given = 0
    for (let k = 0; k < 400; k++) {
      const load = { power: 150, time: 5, given: 0 }
      state.draw(load)
      given += load.given * load.time
    }
    within(state.drained, energyBetween(pack, state.charge, 0.8), 1e-9)
    within(state.drained, given + state.loss, 1e-4)
    const before = new PackState(pack, 0.8, 5, Infinity)
    before.draw({ power: 150, time: 1e-3, given: 0 })
    const current = currentAt(openCircuit(pack, 0.8), resistance(pack, 0.8), 150)
    within(before.loss, current ** 2 * resistance(pack, 0.8) * 1e-3, 1e-4)
    within(0.8 - before.charge, (current * 1e-3) / pack.capacity, 1e-4)
  })
})

it('is never drawn below nought', () => {
  const pack = packAt({ ...tenSeries, capacityAh: 1 }, 20)
  const state = new PackState(pack, 0.5, 5, Infinity)
  state.draw({ power: 10, time: 1e5, given: 0 })
  expect([state.charge, state.spent, state.left]).toEqual([0, true, 0])
})

it('that never can give what is asked is never taken for plenty', () => {
  const pack = packAt({ ...tenSeries, dischargeCurrent: 3 }, 20)
  const state = new PackState(pack, 1, 5, 600)
  within(state.most, 3 * (openCircuit(pack, 1) - 3 * resistance(pack, 1)), 1e-12)
})
