import { describe, expect, it } from 'vitest'
import { massParts, totalMass } from '../../src/model/forecast/mass'
import { sourceMass } from '../../src/model/forecast/sources'
import { defaultPlan } from '../../src/model/plan/defaults'
import { addSource, changeSource } from '../../src/model/plan/edit'
import type { KitItem } from '../../src/model/plan/day-schema'
import { provisionsIn, withProvisions } from '../../src/model/plan/kit'
import { wordsIn } from '../../src/view/words/words'
import { near } from '../asserts'

const item = (id: string, change: Partial<KitItem>): KitItem => ({
  ...{ id, name: id, mass: 0.05, count: 4, place: 'bike', mark: 'comes', use: null },
  ...change,
})
const kit = [
  item('oat bar', { covers: 'bars' }),
  item('nut bar', { covers: 'bars', count: 2 }),
  item('bar at home', { covers: 'bars', mark: 'stays', count: 9 }),
  item('bottle', { covers: 'bottles', count: 1 }),
  item('pump', {}),
]

describe('food and water of the kit', () => {
  it('are what comes along of them', () => expect(provisionsIn(kit)).toEqual({ bars: 6, gels: 0, bottles: 1 }))

  it('become as many as the day asks for, by the first thing that covers each', () => {
    const counts = (need: { bars: number; gels: number; bottles: number }) =>
      withProvisions(kit, need).map(({ count }) => count)
    expect(counts({ bars: 7, gels: 3, bottles: 4 })).toEqual([5, 2, 9, 4, 4])
    expect(counts({ bars: 1, gels: 0, bottles: 0 })).toEqual([0, 2, 9, 0, 4])
  })
})

describe('the mass of the ride', () => {
  const { names } = wordsIn('metric')
  const { plan, id } = addSource(defaultPlan(names), 'carried', names)
  const source = plan.sources.find((source) => source.id === id)!

  it('holds a carried pack that comes along, used or not, and not one that stays home', () => {
    const atHome = changeSource(plan, id!, { along: false })
    near(totalMass(plan) - totalMass(atHome), sourceMass(source), 1e-9)
    near(massParts(plan).sources - massParts(atHome).sources, sourceMass(source), 1e-9)
  })

  it('is the sum of its parts', () => {
    const { rider, bike, packs, sources, luggage, kit } = massParts(plan)
    near(rider + bike + packs + sources + luggage + kit, totalMass(plan), 1e-9)
  })
})
