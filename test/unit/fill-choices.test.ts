import { describe, expect, it } from 'vitest'
import { defaultPack, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { fillChoices } from '../../src/model/battery/fill-order'
import { broughtBy, filledBy, otherOrders } from '../../src/model/studies/fill-choices'
import { within } from '../asserts'
import { rideOver } from '../rides'

describe('what a stop brings by the order of its packs', () => {
  // A pack in use that is nearly full takes little at constant voltage, while the other could take all.
  const plan = defaultPlan()
  plan.battery.packs = [
    { ...defaultPack('pack-1', 'Nearly full'), charge: 0.97 },
    { ...defaultPack('pack-2', 'Half'), charge: 0.5 },
  ]
  plan.stops = [{ ...defaultStop('stop-1', 'Inn', 2000, 'source-1'), duration: 2700 }]
  const outcome = rideOver({ length: 20_000 }, plan)
  const brought = broughtBy(outcome, 'stop-1')

  it('is most by the order that brings most, and less by another', () => {
    expect(brought.most.energy).toBeGreaterThanOrEqual(
      Math.max(brought['in use'].energy, brought.emptiest.energy) * (1 - 1e-9),
    )
    expect(brought.most.energy).toBeGreaterThan(1.2 * brought['in use'].energy)
  })

  it('is what the forecast has for the order that is planned', () => {
    const halt = outcome.halts[0]!
    expect(brought.most.energy).toBe(halt.leftAfter - halt.leftBefore)
    plan.stops[0]!.fillFirst = 'in use'
    const inUse = rideOver({ length: 20_000 }, plan).halts[0]!
    expect(inUse.leftAfter - inUse.leftBefore).toBe(brought['in use'].energy)
    expect(inUse.charges[0]!.pack).toBe(0)
  })

  it('is told of each order there is, with the time of the halt', () => {
    expect(Object.keys(brought).sort()).toEqual([...fillChoices].sort())
    expect(fillChoices).toHaveLength(3)
    for (const choice of fillChoices) within(brought[choice].time, 2700, 1e-12, choice)
    expect(broughtBy(outcome, 'stop-2')).toEqual({
      most: { energy: 0, time: 0 },
      'in use': { energy: 0, time: 0 },
      emptiest: { energy: 0, time: 0 },
    })
    // Of the two the half-full one is filled first, to more than the other order puts into it.
    within(brought.emptiest.energy, brought.most.energy, 0.05)
    expect(brought.emptiest.energy).toBeGreaterThan(1.2 * brought['in use'].energy)
  })

  it('is offered by the orders that are not planned, each with what it brings more', () => {
    const inUse = rideOver({ length: 20_000 }, { ...plan, stops: [{ ...plan.stops[0]!, fillFirst: 'in use' }] })
    const [best] = otherOrders(inUse, 'stop-1')
    expect(best!.change).toEqual({ code: 'fillOrder', order: 'most' })
    within(best!.gain!, brought.most.energy - brought['in use'].energy, 1e-9)
    const most = rideOver({ length: 20_000 }, { ...plan, stops: [{ ...plan.stops[0]!, fillFirst: 'most' }] })
    for (const { gain } of otherOrders(most, 'stop-1')) expect(gain).toBeLessThan(1)
    const taken = filledBy(inUse.plan, inUse.route, 'stop-1', 'most')
    expect(taken.stops[0]!.fillFirst).toBe('most')
  })

  it('up to a share is the same energy in other times', () => {
    const upTo = {
      ...plan,
      stops: [{ ...plan.stops[0]!, fillFirst: 'most' as const, goal: 'charge' as const, chargeTo: 0.95 }],
    }
    const { most, 'in use': inUse } = broughtBy(rideOver({ length: 20_000 }, upTo), 'stop-1')
    within(inUse.energy, most.energy, 1e-3)
    expect(inUse.time).toBeGreaterThan(most.time + 60)
  })

  it('is told of a crossing too', () => {
    const course = { length: 20_000, crossings: [2000] }
    const across = {
      ...plan,
      stops: [],
      crossings: [
        { timetable: { kind: 'duration' as const, duration: 2700 }, source: 'source-1', fillFirst: 'in use' as const },
      ],
    }
    const crossed = broughtBy(rideOver(course, across), 0)
    within(crossed.most.energy, brought.most.energy, 1e-6)
    within(crossed['in use'].energy, brought['in use'].energy, 1e-6)
  })
})
