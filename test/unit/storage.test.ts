import * as v from 'valibot'
import { describe, expect, it } from 'vitest'
import { chargeAfter, wentFlat, type Stored } from '../../src/model/battery/storage'
import { chargerRefusal } from '../../src/model/battery/refusal'
import { packAt } from '../../src/model/battery/pack'
import { simulate } from '../../src/model/forecast/simulate'
import { planOfThatDay, rideNotesSchema } from '../../src/model/learn/notes'
import { defaultPack, defaultPlan } from '../../src/model/plan/defaults'
import { addPack, changePack } from '../../src/model/plan/edit'
import { courseRoute } from '../routes'
import { near } from '../asserts'

const week = 7 * 86_400
const month = 730.5 * 3600
const bare: Stored = { chemistry: 'nmc', capacityAh: 10, health: 1, charge: 0.1, storage: 0, boardCurrent: 0 }

describe('a pack in store', () => {
  it('is flat when the flat-time vectors say: cells 2 % a month, boards of 0.02, 0.1 and 2 mA', () => {
    // Worked by hand: 1 Ah over 0.2 Ah and 730.5 h of the board a month is 4.66, 3.66 and 0.60 months; 5 Ah over the second 18.3.
    for (const [boardCurrent, charge, months] of [
      [0.00002, 0.1, 4.66],
      [0.0001, 0.1, 3.66],
      [0.002, 0.1, 0.602],
      [0.0001, 0.5, 18.31],
    ] as const) {
      const stored = { ...bare, boardCurrent, charge }
      expect(wentFlat({ ...stored, storage: 0.997 * months * month })).toBe(false)
      expect(wentFlat({ ...stored, storage: 1.003 * months * month })).toBe(true)
    }
  })

  it('is not flat in store where it was not stored, however empty', () => {
    expect(wentFlat({ ...bare, charge: 0 })).toBe(false)
  })

  it('of a worn pack the board takes a larger share', () => {
    const stored = { ...bare, charge: 0.9, storage: 8 * week, boardCurrent: 0.001 }
    near(chargeAfter({ ...stored, health: 0.5 }), 0.9 - (8 * week * 0.02) / month - (0.001 * 8 * 168) / 5, 1e-12)
  })
})

describe('a bike’s pack with weeks in store', () => {
  const plan = changePack(defaultPlan(), 'pack-1', { charge: 0.8, storage: 13 * week })
  const route = courseRoute({ length: 2000 })

  it('begins the day with what is left, as a carried one does', () => {
    const outcome = simulate(route, plan)
    const left = chargeAfter(plan.battery.packs[0]!)
    near(left, 0.8 - (13 * 168) / 730.5 / 50 - (0.0001 * 13 * 168) / plan.battery.packs[0]!.capacityAh, 1e-12)
    const same = simulate(route, changePack(plan, 'pack-1', { charge: left, storage: 0 }))
    expect(outcome.columns.left[0]).toBe(same.columns.left[0])
    expect(outcome.columns.left[0]).toBeLessThan(
      simulate(route, changePack(plan, 'pack-1', { storage: 0 })).columns.left[0]!,
    )
  })

  it('is refused by every charger where it went flat', () => {
    const charger = { voltage: 42, current: 4, efficiency: 0.9 }
    const flat = { ...defaultPack('a', ''), charge: 0.05, storage: 60 * week }
    expect(chargerRefusal(packAt(flat, 20), charger)).toEqual({ code: 'flatInStore' })
    expect(chargerRefusal(packAt({ ...flat, storage: 0 }, 20), charger)).toBeUndefined()
  })

  it('was not in store on another day, and a new pack was not', () => {
    expect(planOfThatDay(plan, v.parse(rideNotesSchema, {})).battery.packs.map(({ storage }) => storage)).toEqual([
      0, 0,
    ])
    const stored = changePack(plan, 'pack-2', { storage: week })
    expect(addPack(stored, String).battery.packs.at(-1)).toMatchObject({ charge: 1, storage: 0 })
  })
})
