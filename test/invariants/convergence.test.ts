import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import type { Route } from '../../src/model/route/route'
import { within } from '../asserts'
import { plainPlan, rideOver } from '../rides'
import { refined } from './refined'
import { sampleNames, sampleRoute } from './samples'

/** Finish time, s, and energy from the packs, J. */
function result(route: Route, plan: Plan = defaultPlan()) {
  const { columns, electric } = simulate(route, plan)
  return { time: columns.time.at(-1)!, energy: electric.drained }
}

describe('halving the step moves time and energy by under 0.03 % on the same road', () => {
  it.each(sampleNames)('%s, in half the steps', async (name) => {
    const route = await sampleRoute(name)
    const whole = result(route)
    const half = result(refined(route))
    within(half.time, whole.time, 0.0003, 'time')
    within(half.energy, whole.energy, 0.0003, 'energy')
    expect(half).not.toEqual(whole)
  })

  it.each(sampleNames)(
    '%s, by under 0.1 % where the file is read again with stations half as far apart',
    async (name) => {
      const whole = result(await sampleRoute(name, 10))
      const half = result(await sampleRoute(name, 5))
      within(half.time, whole.time, 0.001, 'time')
      within(half.energy, whole.energy, 0.001, 'energy')
    },
  )
})

describe('order of convergence', () => {
  // Smooth, with nothing in it that has a kink: no motor, bend, cap, fade or crossing; away from start and finish. The steps are short enough
  // that none is divided, since the division follows the error and not the spacing.
  const plan = plainPlan(({ rider, weather }) => {
    rider.power = 200
    Object.assign(weather, { windSpeed: 2, windFromDegrees: 40 })
  })
  const course = (spacing: number) => ({
    length: 8192,
    spacing,
    elevation: (d: number) => 3 * Math.sin((2 * Math.PI * d) / 2048) ** 2,
    // A step has the heading of its middle, as a route read from a file does.
    heading: (d: number) => (2 * Math.PI * (d + spacing / 2)) / 8192,
  })
  /** Time and rider's work between two places that are stations at every spacing, and the speed at the second. */
  const ride = (spacing: number) => {
    const { columns, route } = rideOver(course(spacing), plan)
    const at = (d: number) => route.stations.distance.indexOf(d)
    return {
      time: columns.time[at(6144)]! - columns.time[at(1024)]!,
      work: columns.riderWork[at(6144)]! - columns.riderWork[at(1024)]!,
      speed: columns.speed[at(6144)]!,
    }
  }
  const rides = [16, 8, 4, 2, 1].map(ride)
  it.each(['time', 'work', 'speed'] as const)('%s is of second order', (key) => {
    const changes = rides.slice(1).map((one, i) => Math.abs(one[key] - rides[i]![key]))
    const orders = changes.slice(1).map((change, i) => Math.log2(changes[i]! / change))
    expect(Math.min(...orders), `changes ${changes}, orders ${orders}`).toBeGreaterThan(1.9)
  })
})
