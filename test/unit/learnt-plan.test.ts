import { describe, expect, it } from 'vitest'
import { makeRandom, normal } from '../../sample-routes/random'
import { Days, usualSampling } from '../../src/model/chance/days'
import { dayOf, uncertainIn } from '../../src/model/chance/figures'
import { bandOf } from '../../src/model/chance/spread'
import { jointIn, planDrawn } from '../../src/model/learn/joint'
import { planOfThatDay, rideNotesSchema, saidIn } from '../../src/model/learn/notes'
import { crossFieldFault } from '../../src/model/plan/check'
import { defaultPlan } from '../../src/model/plan/defaults'
import { setFields } from '../../src/model/plan/edit'
import { asStated, learntOf, takeOver } from '../../src/model/plan/learnt'
import type { Learnt, LearntPath } from '../../src/model/plan/schema'
import * as v from 'valibot'
import { near } from '../asserts'
import { courseRoute } from '../routes'

const figure = (path: LearntPath, middle: number, share: number, stated: number) => ({
  ...{ path, middle, low: middle / (1 + share), high: middle * (1 + share), stated, verdict: 'learnt' as const },
})
const learnt: Learnt = {
  from: [{ name: 'Moor and back', date: '2026-06-20' }],
  figures: [
    figure('rider.power', 104, 0.06, 120),
    figure('assist.ratio', 0.8, 0.08, 0.5),
    figure('assist.climbRatio', 1.2, 0.08, 1),
  ],
  correlations: [
    { a: 'assist.ratio', b: 'rider.power', value: -0.9 },
    { a: 'rider.power', b: 'assist.climbRatio', value: -0.9 },
    { a: 'assist.ratio', b: 'assist.climbRatio', value: 1 },
  ],
}
const plan = defaultPlan()
const hillyRoute = () => courseRoute({ length: 12_000, elevation: (x) => 60 * (1 - Math.cos(x / 900)) })
const taken = takeOver(plan, learnt)

describe('what rides told in a plan', () => {
  it('takes the place of what was stated, and gives it back', () => {
    expect([taken.rider.power, taken.assist.ratio, taken.assist.climbRatio]).toEqual([104, 0.8, 1.2])
    expect(crossFieldFault(taken)).toBeUndefined()
    expect(asStated(taken)).toEqual(plan)
    expect(asStated(plan)).toEqual(plan)
  })

  it('holds of a figure as long as that stands as it was told', () => {
    expect(learntOf(taken, 'rider.power')?.stated).toBe(120)
    const edited = setFields(taken, 'rider', { power: 130 })
    expect(learntOf(edited, 'rider.power')).toBeUndefined()
    expect(asStated(edited).rider.power).toBe(130)
    expect(learntOf(setFields(edited, 'rider', { power: 104 }), 'rider.power')).toBeDefined()
  })
})

describe('days by what rides told', () => {
  it('have figures in their spans, hanging together as told', () => {
    const joint = jointIn(taken)!
    const random = makeRandom(7, 'days')
    const days = Array.from({ length: 4000 }, () => {
      const deviates = Array.from({ length: joint.deviates }, () => normal(random))
      // Without the rider's form.
      return planDrawn(taken, joint, deviates.with(-1, 0))
    })
    const power = days.map(({ rider }) => Math.log(rider.power / 104))
    const ratio = days.map(({ assist }) => Math.log(assist.ratio / 0.8))
    const within = power.filter((value) => Math.abs(value) < Math.log(1.06)).length / days.length
    near(within, 0.8, 0.03)
    const sum = (of: (k: number) => number) => days.reduce((total, _, k) => total + of(k), 0)
    const correlation =
      sum((k) => power[k]! * ratio[k]!) / Math.sqrt(sum((k) => power[k]! ** 2) * sum((k) => ratio[k]! ** 2))
    near(correlation, -0.9, 0.02)
    for (const { assist } of days) near(assist.climbRatio, 1.5 * assist.ratio, 1e-9)
  })

  it('have the form of the day besides, and assist as a share of what is chosen, on stretches too', () => {
    const stretch = { id: 'a', name: '', start: 0, end: 500, surface: null, shelter: null, speedLimit: null }
    const chosen = setFields({ ...taken, stretches: [{ ...stretch, assistRatio: 2 }] }, 'assist', { ratio: 1.6 })
    const joint = jointIn(chosen)!
    const [power, , , form] = [0, 1, 2, 3].map((k) => [0, 0, 0, 0].with(k, 1.2816))
    near(planDrawn(chosen, joint, form!).rider.power, 104 * Math.exp(0.05 * 1.2816), 1e-9)
    const stronger = planDrawn(chosen, joint, power!)
    near(stronger.rider.power, 104 * 1.06, 1e-9)
    near(stronger.assist.ratio, 1.6 / 1.08 ** 0.9, 1e-9)
    near(stronger.stretches[0]!.assistRatio!, 2 / 1.08 ** 0.9, 1e-9)
  })

  it('leave out what the rider states otherwise, and are drawn once, together', () => {
    const route = hillyRoute()
    const edited = setFields(taken, 'rider', { power: 130 })
    expect(jointIn(edited)?.figures.map(({ path }) => path)).toEqual(['assist.ratio', 'assist.climbRatio'])
    expect(jointIn(plan)).toBeUndefined()
    const uncertain = uncertainIn(route, taken)
    expect(uncertain.figures[0]).toBe('learnt')
    expect(uncertain.figures).not.toContain('rider.power')
    expect(uncertainIn(route, edited).figures).toContain('rider.power')
    const deviates = Array<number>(uncertain.deviates.reduce((sum, count) => sum + count, 0)).fill(0)
    expect(dayOf(route, taken, uncertain, deviates.with(3, 1), 0).plan.rider.power).toBeCloseTo(104 * Math.exp(0.05), 9)
  })

  it('are less spread the better rider and bike are known', () => {
    const route = hillyRoute()
    const still = { ...plan, weather: { ...plan.weather, windSpeed: 0 } }
    const width = (told: Learnt) => {
      const days = new Days(route, takeOver(still, told), { ...usualSampling, days: 128 }, [])
      const { low, high } = bandOf(days.ride(0, 128).ridingTime)
      return high - low
    }
    const told = (share: number): Learnt => ({
      ...learnt,
      figures: learnt.figures.map(({ path, middle, stated }) => figure(path, middle, share, stated)),
    })
    expect(width(told(0.02))).toBeGreaterThan(0)
    expect(width(told(0.3))).toBeGreaterThan(1.2 * width(told(0.02)))
    // What one gains the other loses: together they tell more than each alone.
    expect(width(told(0.3))).toBeLessThan(width({ ...told(0.3), correlations: learnt.correlations.slice(2) }))
  })
})

describe('what a rider says of a ride', () => {
  const notes = (said: object) => v.parse(rideNotesSchema, said)

  it('is the plan as it is where nothing is said, but for weather of other days', () => {
    const [first] = plan.battery.packs
    expect(planOfThatDay(plan, notes({}))).toEqual({ ...plan, weather: { ...plan.weather, table: [] } })
    const that = planOfThatDay(plan, notes({ packs: 4, bikeMass: 31, windSpeed: 4, ratio: 1 }))
    expect(that.battery.packs).toHaveLength(4)
    for (const pack of that.battery.packs) expect({ ...pack, id: first!.id }).toEqual(first)
    expect([that.bike.mass, that.bike.luggage, that.weather.windSpeed]).toEqual([31, plan.bike.luggage, 4])
    expect(crossFieldFault(that)).toBeUndefined()
  })

  it('makes readings of all that is left of packs put away and of the charge at the finish', () => {
    const that = planOfThatDay(plan, notes({ packs: 4 }))
    const swaps = [
      { distance: 40_000, left: 0.08 },
      { distance: 90_000, left: 0.12 },
    ]
    const said = saidIn(notes({ chargeStart: 1, chargeEnd: 0.3, swaps }), that, 160_000)
    expect(said.start).toBe(1)
    expect(said.readings.map(({ distance }) => distance)).toEqual([40_000, 90_000, 160_000])
    const left = [(0.08 + 3) / 4, (0.08 + 0.12 + 2) / 4, 0.3]
    said.readings.forEach((reading, k) => near(reading.left, left[k]!, 1e-12))
  })
})
