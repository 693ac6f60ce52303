import { describe, expect, it } from 'vitest'
import type { KitItem } from '../../src/model/plan/day-schema'
import { defaultPlan } from '../../src/model/plan/defaults'
import { drawsOf } from '../../src/model/plan/draws'
import type { Plan } from '../../src/model/plan/schema'
import { near } from '../asserts'
import { rideOver } from '../rides'

const thing = (id: string, draws: KitItem['draws'], change: Partial<KitItem> = {}): KitItem => ({
  ...{ id, name: id, mass: 0, count: 1, place: 'bike', mark: 'comes', use: null, draws },
  ...change,
})
const withKit = (...kit: KitItem[]): Plan => ({ ...defaultPlan(), kit })
const gloves = { power: 12, from: 'packs', when: 'always' } as const
const course = { length: 20_000 }

describe('what things of the kit draw', () => {
  const plain = defaultPlan()
  const { electronics, lights } = plain.assist

  it('comes on top of electronics and lights, each piece of what comes along', () => {
    expect(drawsOf(plain)).toEqual({ always: electronics + lights, dark: 0 })
    expect(drawsOf(withKit(thing('gloves', gloves, { count: 2 })))).toEqual({
      always: electronics + lights + 24,
      dark: 0,
    })
    const lamp = thing('lamp', { ...gloves, power: 5, when: 'dark' })
    expect(drawsOf({ ...withKit(lamp), assist: { ...plain.assist, lightsOn: 'dark' } })).toEqual({
      always: electronics,
      dark: lights + 5,
    })
  })

  it('is nothing of what stays at home, or has cells of its own', () => {
    expect(drawsOf(withKit(thing('gloves', gloves, { mark: 'stays' })))).toEqual(drawsOf(plain))
    expect(drawsOf(withKit(thing('gloves', { ...gloves, from: 'own' })))).toEqual(drawsOf(plain))
  })

  it('takes its power times the time from the packs, and by day nothing for the dark', () => {
    const noon = { ...plain, start: '2027-06-19T11:00' }
    const bare = rideOver(course, noon)
    const warm = rideOver(course, { ...noon, kit: [thing('gloves', gloves)] })
    const time = bare.columns.ridingTime.at(-1)!
    near(warm.electric.electronics - bare.electric.electronics, 12 * time, 0.002 * 12 * time)
    const lit = rideOver(course, { ...noon, kit: [thing('lamp', { ...gloves, when: 'dark' })] })
    expect(lit.electric.electronics).toBe(bare.electric.electronics)
    const night = { ...noon, start: '2027-06-19T23:30' }
    const dark = rideOver(course, { ...night, kit: [thing('lamp', { ...gloves, when: 'dark' })] })
    near(dark.electric.electronics - rideOver(course, night).electric.electronics, 12 * time, 0.002 * 12 * time)
  })
})
