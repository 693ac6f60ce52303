import { describe, expect, it } from 'vitest'
import { addSource } from '../../src/model/plan/edit'
import {
  addMeterReading,
  beforeTrial,
  changeMeterReading,
  changeTrial,
  removeMeterReading,
  takeTrial,
  untakeTrial,
} from '../../src/model/plan/edit-trial'
import { defaultPlan } from '../../src/model/plan/defaults'
import { readPlan } from '../../src/model/plan/check'
import { writePlan } from '../../src/model/plan/write'
import type { CarriedSource, Plan } from '../../src/model/plan/schema'
import { wordsIn } from '../../src/view/words/words'

const { plan: empty, id } = addSource(defaultPlan(), 'carried', wordsIn('metric').names)
const of = (plan: Plan) => plan.sources.find((source): source is CarriedSource => source.id === id)!
const times = (plan: Plan) => of(plan).trial!.readings.map(({ time }) => time)

describe('a trial of charging in the plan', () => {
  it('takes readings one after another, changes and removes them', () => {
    const three = addMeterReading(addMeterReading(addMeterReading(empty, id!), id!), id!)
    expect(times(three)).toEqual([1200, 2400, 3600])
    const changed = changeMeterReading(three, id!, 1, { voltage: 38.1, current: 4.7, charge: 0.61 })
    expect(of(changed).trial!.readings[1]).toMatchObject({ time: 2400, voltage: 38.1, current: 4.7, charge: 0.61 })
    expect(times(removeMeterReading(changed, id!, 0))).toEqual([2400, 3600])
    expect(readPlan(writePlan(changed))).toEqual({ ok: true, plan: changed })
    let many = empty
    for (let k = 0; k < 25; k++) many = addMeterReading(many, id!)
    expect(times(many)).toHaveLength(20)
    expect(readPlan(writePlan(many)).ok).toBe(true)
  })

  it('is taken over in source and pack, looked at again from what was stated, and undone to just that', () => {
    const ready = changeTrial(addMeterReading(empty, id!), id!, { pack: 'pack-2' })
    const once = takeTrial(ready, id!, { efficiency: 0.9, packHealth: 0.8, health: 0.95 })
    const twice = takeTrial(once, id!, { efficiency: 0.88, packHealth: 0.81, health: 1 })
    const source = of(twice)
    expect([source.converter.efficiency, source.carried.health]).toEqual([0.88, 1])
    expect(twice.battery.packs.map(({ health }) => health)).toEqual([1, 0.81])
    expect(source.trial!.stated).toEqual({ efficiency: 0.955, packHealth: 1, health: 1 })
    const before = beforeTrial(source, twice.battery.packs[1]!)
    expect([before.source.converter.efficiency, before.pack.health]).toEqual([0.955, 1])
    expect(untakeTrial(twice, id!)).toEqual(ready)
    expect(untakeTrial(ready, id!)).toBe(ready)
  })
})
