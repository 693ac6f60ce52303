import { describe, expect, it } from 'vitest'
import { defaultPack, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { broughtBy } from '../../src/model/studies/fill-choices'
import { freeStretch } from '../../src/view/sheet/pinPlace'
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
    expect(brought.most).toBeGreaterThanOrEqual(Math.max(brought['in use'], brought.emptiest) * (1 - 1e-9))
    expect(brought.most).toBeGreaterThan(1.2 * brought['in use'])
  })

  it('is what the forecast has for the order that is planned', () => {
    const halt = outcome.halts[0]!
    expect(brought.most).toBe(halt.leftAfter - halt.leftBefore)
    plan.stops[0]!.fillFirst = 'in use'
    const inUse = rideOver({ length: 20_000 }, plan).halts[0]!
    expect(inUse.leftAfter - inUse.leftBefore).toBe(brought['in use'])
    expect(inUse.charges[0]!.pack).toBe(0)
  })
})

describe('where a new stretch is laid', () => {
  it('is from the cursor on where that is free, up to the next', () => {
    expect(freeStretch([], 10_000, 50_000)).toEqual({ start: 10_000, end: 15_000 })
    expect(freeStretch([{ start: 12_000, end: 20_000 }], 10_000, 50_000)).toEqual({ start: 10_000, end: 12_000 })
  })
  it('is else in the middle of the longest free part, and nowhere where all is taken', () => {
    expect(freeStretch([{ start: 12_000, end: 20_000 }], 15_000, 50_000)).toEqual({ start: 32_500, end: 37_500 })
    expect(freeStretch([{ start: 0, end: 50_000 }], undefined, 50_000)).toBeUndefined()
  })
})
