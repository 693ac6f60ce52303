import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { defaultPlan } from '../../src/model/plan/defaults'
import { rideOver } from '../rides'
import { anyRide } from './any-ride'

const seed = 20270622
/** What the steps of a ride may leave of a difference that is nought, s. */
const rounding = 0.01

describe('with the motor off and one weather all day', () => {
  it(`a stronger rider is never later, nor behind at any place, seed ${seed}`, () => {
    let sooner = 0
    let tired = 0
    fc.assert(
      fc.property(
        anyRide,
        fc.double({ min: 40, max: 300, noNaN: true }),
        fc.double({ min: 0.02, max: 0.3, noNaN: true }),
        ({ course, plan }, power, more) => {
          const riddenWith = (watts: number) =>
            rideOver(course, {
              ...plan,
              assist: { ...plan.assist, ratio: 0, climbRatio: 0 },
              stretches: [],
              stops: [],
              weather: { ...plan.weather, table: [] },
              rider: { ...plan.rider, power: watts },
            })
          const [weaker, stronger] = [riddenWith(power), riddenWith(power * (1 + more))]
          // Who gets off tires no more, and may pass later who rode on.
          fc.pre(weaker.walked === 0 && stronger.walked === 0)
          const [late, soon] = [weaker.columns.time, stronger.columns.time]
          expect(late.findIndex((time, i) => soon[i]! > time + rounding)).toBe(-1)
          if (soon.at(-1)! < 0.9999 * late.at(-1)!) sooner++
          if (plan.rider.fade > 0.01) tired++
        },
      ),
      { seed, numRuns: 150, maxSkipsPerRun: 50 },
    )
    expect(sooner).toBeGreaterThan(20)
    expect(tired).toBeGreaterThan(10)
  })

  it('and over a long day 107.9, 108.1 and 120 W come in that order', () => {
    const time = (power: number) => {
      const plan = defaultPlan()
      plan.rider.power = power
      Object.assign(plan.assist, { ratio: 0, climbRatio: 0 })
      return rideOver({ length: 190_000, elevation: (d) => 30 * Math.sin(d / 2000) }, plan).columns.time.at(-1)!
    }
    const [weak, hardly, strong] = [107.9, 108.1, 120].map(time) as [number, number, number]
    expect(hardly).toBeLessThan(weak)
    expect(weak - hardly).toBeLessThan(120)
    expect(strong).toBeLessThan(hardly)
  })
})
