import { describe, expect, it } from 'vitest'
import { ratedEnergyWh } from '../../src/model/battery/pack'
import { totalMass } from '../../src/model/forecast/mass'
import { crossFieldFault } from '../../src/model/plan/check'
import { defaultPlan } from '../../src/model/plan/defaults'
import { addPack } from '../../src/model/plan/edit'
import { massOnScale, packsMass, scaleParameter, setMassOnScale, setPacks } from '../../src/model/plan/on-the-scale'
import { near } from '../asserts'

const plan = defaultPlan()
const named = (number: number) => `Pack ${number}`

describe('the bike on the scale', () => {
  it('is the bike and its packs, and nothing else', () => {
    near(massOnScale(plan), plan.bike.mass + 2 * plan.battery.packs[0]!.mass, 1e-12)
    near(massOnScale(addPack(plan, named)) - massOnScale(plan), plan.battery.packs[1]!.mass, 1e-12)
  })

  it('gives back what was typed, and weighs as much in the ride', () => {
    const heavier = setMassOnScale(plan, 38.4)
    near(massOnScale(heavier), 38.4, 1e-12)
    near(totalMass(heavier) - totalMass(plan), 38.4 - massOnScale(plan), 1e-12)
    expect(heavier.battery).toBe(plan.battery)
  })

  it('has the bounds that leave the bike its own', () => {
    const { min, max } = scaleParameter(plan)
    expect(setMassOnScale(plan, min).bike.mass).toBe(10)
    expect(setMassOnScale(plan, max).bike.mass).toBe(80)
    expect(setMassOnScale(plan, packsMass(plan)).bike.mass).toBe(10)
  })

  it('stays as heavy when its packs are told anew: so many, new, of that energy', () => {
    const worn = {
      ...plan,
      battery: { ...plan.battery, packs: [{ ...plan.battery.packs[0]!, health: 0.6, charge: 0.5 }] },
    }
    const told = setPacks(setMassOnScale(worn, 41), 3, 400 * 3600, named)
    near(massOnScale(told), 41, 1e-12)
    expect(told.battery.packs.map(({ id, name, health, charge }) => [id, name, health, charge])).toEqual([
      ['pack-1', 'Pack 1', 1, 1],
      ['pack-2', 'Pack 2', 1, 1],
      ['pack-3', 'Pack 3', 1, 1],
    ])
    for (const pack of told.battery.packs) {
      near(ratedEnergyWh(pack), 400, 1e-9)
      near(pack.mass, (3 * 400) / 500.4, 1e-3)
    }
    expect(crossFieldFault(told)).toBeUndefined()
  })
})
