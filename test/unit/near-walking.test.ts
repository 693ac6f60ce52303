import { describe, expect, it } from 'vitest'
import { ridingMass } from '../../src/model/forecast/mass'
import type { Plan } from '../../src/model/plan/schema'
import { nearWalking } from '../../src/model/studies/near-walking'
import { airDensity, pressureAt, wheelDragArea } from '../../src/model/ride/air'
import { near } from '../asserts'
import { plainPlan, root } from '../rides'
import { courseRoute, pieces } from '../routes'

const hill = (gradient: number) =>
  courseRoute({
    length: 6000,
    elevation: (d) => gradient * Math.max(0, Math.min(d, 5000) - 3000),
  })
const plan = (change: (plan: Plan) => void = () => {}) =>
  plainPlan((plan) => {
    plan.rider.power = 100
    plan.assist.ratio = plan.assist.climbRatio = 1
    change(plan)
  })

/**
 * Mass, kg, that pedals and motor just hold on a slope at 4.5 km/h: power at the wheel is weight along the road, rolling, air and bearings times speed.
 *
 * @see Martin et al. 1998, J. Appl. Biomech. 14:276-291
 */
function mostMass({ rider, bike }: Plan, gradient: number): number {
  const speed = 4.5 / 3.6
  const density = airDensity(pressureAt(100 * gradient), 15, 0)
  const air = 0.5 * density * (bike.dragArea + wheelDragArea) * speed ** 2
  const force = (2 * rider.power * bike.drivetrain) / speed - air - 0.091 - 0.0087 * speed
  return (force * Math.sqrt(1 + gradient ** 2)) / (9.806 * (gradient + bike.rolling * bike.surfaceFactor))
}
/** The slope on which so much more mass than the plan's is the most. */
const slopeFor = (plan: Plan, more: number) =>
  root((gradient) => mostMass(plan, gradient) - ridingMass(plan, 6000) - more, 0.05, 0.3)

describe('how near a plan stands to walking', () => {
  it('is the mass by which the drive can not hold the hill any more, at the place where it gets off', () => {
    const planned = plan()
    const { heavier, lighter } = nearWalking(hill(slopeFor(planned, 5)), planned)
    expect(lighter).toBeUndefined()
    near(heavier!.mass, 5, 0.7, 'mass')
    near(heavier!.distance, 3000, 60, 'place')
    expect(heavier!.cause).toBe('tooSteep')
    near(heavier!.length, 2000, 60, 'on foot')
    near(heavier!.tried, 0.08 * ridingMass(planned, 6000), 1e-9)
  })

  it('is the mass less with which it would be ridden, where it is walked', () => {
    const planned = plan()
    const { heavier, lighter } = nearWalking(hill(slopeFor(planned, -5)), planned)
    expect(heavier).toBeUndefined()
    near(lighter!.mass, 5, 0.7, 'mass')
    near(lighter!.distance, 3000, 60, 'place')
    near(lighter!.length, 2000, 60, 'on foot')
  })

  it('is not told where it is far, nor where speed carries over what is too steep', () => {
    const planned = plan()
    const nowhere = { heavier: undefined, lighter: undefined }
    expect(nearWalking(hill(slopeFor(planned, 15)), planned)).toEqual(nowhere)
    expect(nearWalking(hill(slopeFor(planned, -15)), planned)).toEqual(nowhere)
    const bump = courseRoute({ length: 4000, elevation: (d) => 0.2 * Math.max(0, Math.min(d, 3030) - 3000) })
    expect(nearWalking(bump, planned)).toEqual(nowhere)
  })

  it('is not told of a few metres, nor of what lies beside a place that is walked anyway', () => {
    const planned = plan()
    const [rideable, edge, steep] = [slopeFor(planned, 14), slopeFor(planned, 5), slopeFor(planned, -15)]
    const over = (...parts: Parameters<typeof pieces>) => nearWalking(courseRoute(pieces([3000, 0], ...parts)), planned)
    expect(over([1500, rideable], [400, edge]).heavier!.distance).toBeGreaterThanOrEqual(4500)
    expect(over([1500, rideable], [40, edge]).heavier).toBeUndefined()
    expect(over([300, edge], [500, steep], [300, edge])).toEqual({ heavier: undefined, lighter: undefined })
    const { heavier } = over([300, edge], [1500, 0], [500, steep])
    expect(heavier!.distance).toBeLessThan(3300)
    near(heavier!.length, 300, 80, 'farther on foot than now')
  })

  it('goes both ways on a ride with a hill of either kind', () => {
    const planned = plan()
    const [edge, steep] = [slopeFor(planned, 5), slopeFor(planned, -5)]
    const route = courseRoute(pieces([3000, 0], [1000, edge], [3000, -0.02], [800, steep], [500, 0]))
    const { heavier, lighter } = nearWalking(route, planned)
    near(heavier!.distance, 3000, 60, 'place where heavier')
    near(heavier!.length, 1000, 80, 'farther on foot where heavier')
    near(lighter!.distance, 7000, 60, 'place where lighter')
    near(lighter!.length, 800, 80, 'less on foot where lighter')
    near(lighter!.mass, 5, 0.7, 'mass where lighter')
  })

  it('names the charge where that is what more mass takes', () => {
    const route = courseRoute({ length: 22_000, elevation: (d) => 0.1 * Math.max(0, Math.min(d, 21_000) - 19_000) })
    const charged = plan(({ battery }) => {
      battery.packs.length = 1
      battery.packs[0]!.charge = 0.345
    })
    expect(nearWalking(route, charged).heavier).toMatchObject({ cause: 'noCharge' })
  })
})
