import { describe, expect, it } from 'vitest'
import { trainingWorth } from '../../src/model/chance/training'
import { tallyOf } from '../../src/model/forecast/tally'
import { defaultPlan } from '../../src/model/plan/defaults'
import { setFields } from '../../src/model/plan/edit'
import { within } from '../asserts'
import { courseRoute, pieces } from '../routes'

const plan = setFields(defaultPlan(), 'assist', { ratio: 0.3, climbRatio: 0.3 })
/** Four hills of 2 km at 6 %, up and down, in 32 km. */
const hills = courseRoute(
  pieces(
    ...[1, 2, 3, 4].flatMap(
      () =>
        [
          [2000, 0.06],
          [2000, -0.06],
          [4000, 0],
        ] as [number, number][],
    ),
  ),
)
const flat = courseRoute({ length: 32_000 })

describe('what training is worth', () => {
  const worth = trainingWorth(hills, { plan })
  const of = (name: string) => worth.find((one) => one.of === name)!

  it('is about the difference of two forecasts of the day as planned, with its span', () => {
    const taken = tallyOf(hills, plan)
    const stronger = tallyOf(hills, setFields(plan, 'rider', { power: plan.rider.power + 10 }))
    const lighter = tallyOf(hills, setFields(plan, 'rider', { mass: plan.rider.mass - 5 }))
    within(of('power').time.middle, taken.ridingTime - stronger.ridingTime, 0.1)
    within(of('mass').time.middle, taken.ridingTime - lighter.ridingTime, 0.1)
    within(of('mass').energy!.middle, taken.drained - lighter.drained, 0.25)
    for (const { time } of worth) {
      expect(time.low).toBeLessThan(time.middle)
      expect(time.middle).toBeLessThan(time.high)
    }
  })

  it('is more on hills for who weighs less, and takes charge where a motor helps a stronger rider more', () => {
    const level = trainingWorth(flat, { plan })
    expect(of('mass').time.middle).toBeGreaterThan(2 * level.find((one) => one.of === 'mass')!.time.middle)
    expect(of('power').energy!.middle).toBeLessThan(of('mass').energy!.middle)
  })
})
