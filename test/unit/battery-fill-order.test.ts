import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { MainsCharger } from '../../src/model/battery/charger'
import { fillOrders, type ChargedPack } from '../../src/model/battery/fill-order'
import { packAt, type PackSpec } from '../../src/model/battery/pack'
import { near } from '../asserts'
import { tenSeries } from '../reference/battery-packs'
import { chargePack } from '../reference/charging-parts'

const charger: MainsCharger = { voltage: 42, current: 4, efficiency: 0.88 }
const stop = 45 * 60
const bike: PackSpec = { ...tenSeries, capacityAh: 13.9, floor: 0.08, chargeCurrent: 6 }
const pack = (charge: number, changed: Partial<PackSpec> = {}): ChargedPack => ({
  pack: packAt({ ...bike, ...changed }, 18),
  charge,
})

/** Energy that an order brings in a time, J. */
function brought(packs: readonly ChargedPack[], order: readonly number[], time: number, source = charger): number {
  let left = time
  let stored = 0
  for (const k of order) {
    const run = chargePack(packs[k]!.pack, packs[k]!.charge, source, { time: left })
    left = Math.max(0, left - run.time)
    stored += run.stored
  }
  return stored
}
const most = (packs: readonly ChargedPack[], orders: number[][], time: number, source = charger) =>
  Math.max(...orders.map((order) => brought(packs, order, time, source)))

/** All orders of so many. */
const permutations = (n: number): number[][] =>
  n === 0 ? [[]] : permutations(n - 1).flatMap((rest) => rest.concat(0).map((_, k) => rest.toSpliced(k, 0, n - 1)))

describe('orders of filling', () => {
  it('hold the one that brings 103 Wh in 45 min where the pack in use, nearly full, lets 71 Wh through', () => {
    const packs = [pack(0.88), pack(0.08)]
    const orders = fillOrders(packs, 0)
    expect(orders).toEqual([
      [0, 1],
      [1, 0],
    ])
    const [inUse, other] = orders.map((order) => brought(packs, order, stop) / 3600)
    near(inUse!, 71, 0.5)
    near(other!, 103, 0.5)
  })

  it('hold the fuller pack first too, which takes more energy at the same current as long as it is below constant voltage', () => {
    const packs = [pack(0.3), pack(0.65)]
    const [inUse, other] = fillOrders(packs, 0).map((order) => brought(packs, order, stop))
    expect(other!).toBeGreaterThan(1.04 * inUse!)
  })

  it('begin with the order of use from the pack in use', () => {
    expect(fillOrders([pack(0.1), pack(0.2), pack(0.3)], 1)[0]).toEqual([1, 2, 0])
    expect(fillOrders([pack(0.4)], 0)).toEqual([[0]])
  })

  it('hold the best of all orders of up to four unlike packs, each order once', () => {
    const packs = fc.array(
      fc.record({
        charge: fc.double({ min: 0, max: 1, noNaN: true }),
        capacityAh: fc.integer({ min: 8, max: 20 }),
        chargeCurrent: fc.integer({ min: 2, max: 7 }),
        health: fc.integer({ min: 6, max: 10 }).map((tenth) => tenth / 10),
      }),
      { minLength: 1, maxLength: 4 },
    )
    fc.assert(
      fc.property(
        packs,
        fc.integer({ min: 10, max: 150 }),
        fc.integer({ min: 2, max: 6 }),
        (specs, minutes, current) => {
          const all = specs.map(({ charge, ...spec }) => pack(charge, spec))
          const orders = fillOrders(all, 0)
          for (const order of orders) expect([...order].sort()).toEqual(all.map((_, k) => k))
          expect(new Set(orders.map(String)).size).toBe(orders.length)
          const source = { ...charger, current }
          const best = most(all, permutations(all.length), 60 * minutes, source)
          near(most(all, orders, 60 * minutes, source), best, 1e-6 * best)
        },
      ),
      { seed: 20260618, numRuns: 150 },
    )
  })

  it('count like packs of the same charge once, and pass over full ones', () => {
    expect(fillOrders([pack(0.3), pack(0.3), pack(0.3)], 0)).toEqual([[0, 1, 2]])
    expect(fillOrders([pack(0.3), pack(0.3), pack(0.6)], 0).map((order) => order.indexOf(2))).toEqual([2, 1, 0])
    expect(fillOrders([pack(1), pack(0.6), pack(1)], 0)).toEqual([[0, 1, 2]])
    expect(fillOrders([pack(1), pack(0.6), pack(0.2)], 0)).toEqual([
      [0, 1, 2],
      [2, 1, 0],
    ])
    for (const changed of [{ capacityAh: 10 }, { chargeCurrent: 3 }, { health: 0.9 }, { floor: 0.2 }, { series: 9 }])
      expect(fillOrders([pack(0.3), pack(0.3, changed)], 0)).toHaveLength(2)
  })
})
