import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan } from '../../src/model/plan/defaults'
import { setFields } from '../../src/model/plan/edit'
import { hardestTorque, pedalledClimbs, pedallingAt } from '../../src/model/readings/pedalling'
import { assistForTorque } from '../../src/model/studies/torque'
import { near } from '../asserts'
import { courseRoute, pieces } from '../routes'

const gearing = { cadence: 75 / 60, lowestGear: 1, crankLength: 0.17, wheelRadius: 0.35 }

describe('torque at the cranks', () => {
  it('is power over angular speed, as worked by hand', () => {
    // 2.2 m/s on a wheel of 0.35 m is 1.0004 turns a second; 130 W over 2π times that is 20.68 N·m, and over a crank of 0.17 m 121.7 N.
    const { cadence, torque, force } = pedallingAt(130, 2.2, gearing)
    near(cadence, 1.0004, 1e-4)
    near(torque, 20.68, 0.005)
    near(force, 121.7, 0.05)
  })

  it('is less the faster the cranks turn, up to the cadence that the rider likes', () => {
    near(pedallingAt(130, 2.2, { ...gearing, lowestGear: 0.8 }).torque, 20.68 * 0.8, 0.01)
    // 7.5 m/s would be 205 turns a minute in the lowest gear: a higher one is taken. 130 W over 2π × 1.25.
    const fast = pedallingAt(130, 7.5, gearing)
    expect(fast.cadence).toBe(1.25)
    near(fast.torque, 16.55, 0.005)
  })
})

const base = setFields(defaultPlan(), 'assist', { climbRatio: 0.5, ratio: 0.5 })
const outcome = simulate(courseRoute(pieces([1000, 0], [1500, 0.06], [500, 0.11], [1000, 0])), base)

describe('climbs as the pedals feel them', () => {
  it('tell the mean and the hardest 100 m, which lies where it is steepest', () => {
    const climbs = pedalledClimbs(outcome)
    expect(climbs).toHaveLength(1)
    const [{ mean, hardest, hardestAt }] = climbs as [(typeof climbs)[0]]
    expect(hardest.torque).toBeGreaterThan(1.2 * mean.torque)
    expect(hardest.cadence).toBeLessThan(mean.cadence)
    expect(hardestAt).toBeGreaterThan(2500)
    expect(hardestAt).toBeLessThanOrEqual(3000)
    near(hardest.force, hardest.torque / base.pedalling.crankLength, 1e-9)
    expect(hardestTorque(outcome)).toBe(hardest.torque)
    expect(pedalledClimbs(simulate(courseRoute({ length: 3000 }), base))).toEqual([])
  })
})

describe('assist that keeps the torque below a figure', () => {
  const planned = hardestTorque(outcome)

  it('is what is planned where that does', () => {
    expect(assistForTorque(outcome, planned + 0.1)).toEqual({ code: 'asPlanned' })
  })

  it('is the least that does, in steps of 5 %', () => {
    const most = 0.75 * planned
    const found = assistForTorque(outcome, most)
    if (found.code !== 'ratio') throw new Error(found.code)
    const torqueAt = (climbRatio: number) =>
      hardestTorque(simulate(outcome.route, setFields(base, 'assist', { climbRatio })))
    expect(found.ratio).toBeGreaterThan(base.assist.climbRatio)
    expect(torqueAt(found.ratio)).toBeLessThanOrEqual(most)
    expect(torqueAt(found.ratio - 0.05)).toBeGreaterThan(most)
    expect(found.time).toBeLessThan(0)
    expect(found.left).toBeLessThan(0)
  })

  it('is none where the power itself asks for more at the cadence stated: less of it would do', () => {
    const most = 8
    const found = assistForTorque(outcome, most)
    // 8 N·m times 2π × 1.25 turns a second, over the effort on climbs.
    if (found.code !== 'power') throw new Error(found.code)
    near(found.power, (8 * 2 * Math.PI * 1.25) / base.rider.climbFactor, 1e-9)
  })

  it('is none where the motor is too weak for it', () => {
    const weak = setFields(base, 'assist', { peakPower: 60 })
    const climbed = simulate(outcome.route, weak)
    const { power, climbFactor } = base.rider
    const most = (power * climbFactor * 1.05) / (2 * Math.PI * base.pedalling.cadence)
    expect(hardestTorque(climbed)).toBeGreaterThan(most)
    expect(assistForTorque(climbed, most).code).toBe('motor')
  })
})
