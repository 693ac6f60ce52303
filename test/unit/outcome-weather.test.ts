import { describe, expect, it } from 'vitest'
import { indexAtOrBelow } from '../../src/model/columns'
import { simulate } from '../../src/model/forecast/simulate'
import type { WeatherHour } from '../../src/model/plan/day-schema'
import type { Plan } from '../../src/model/plan/schema'
import { near, within } from '../asserts'
import { plainPlan } from '../rides'
import { courseRoute } from '../routes'

const hour = (time: string, change: Partial<WeatherHour>): WeatherHour => ({
  time: `2027-06-19T${time}`,
  temperatureCelsius: null,
  windSpeed: null,
  windFromDegrees: null,
  rainPerHour: null,
  pressure: null,
  ...change,
})
const north = courseRoute({ length: 100_000 })
const assisted = (change: (plan: Plan) => void) =>
  plainPlan((plan) => {
    plan.start = '2027-06-19T09:00'
    Object.assign(plan.assist, { ratio: 1, climbRatio: 1 })
    plan.weather.windSpeed = 5
    change(plan)
  })
const table = (hours: WeatherHour[]) => (plan: Plan) =>
  void (plan.weather.table = [{ name: 'Start', distance: 0, hours }])

describe('hourly weather in the forecast', () => {
  it('a wind that turns at noon gives the energy of the two halves computed apart, within 0.5 %', () => {
    const turning = simulate(
      north,
      assisted(
        table([
          hour('09:00', { windSpeed: 5, windFromDegrees: 0 }),
          hour('11:59', { windSpeed: 5, windFromDegrees: 0 }),
          hour('12:01', { windSpeed: 5, windFromDegrees: 180 }),
        ]),
      ),
    )
    const against = simulate(
      north,
      assisted((plan) => void (plan.weather.windFromDegrees = 0)),
    )
    const behind = simulate(
      north,
      assisted((plan) => void (plan.weather.windFromDegrees = 180)),
    )
    const noon = indexAtOrBelow(turning.columns.time, 3 * 3600)
    const last = north.stations.distance.length - 1
    near(north.stations.distance[noon]! / 1000, 55, 15, 'km at noon: well inside the ride')
    const apart = against.columns.drained[noon]! + behind.columns.drained[last]! - behind.columns.drained[noon]!
    within(turning.electric.drained, apart, 0.005, 'energy')
    const time = against.columns.ridingTime[noon]! + behind.columns.ridingTime[last]! - behind.columns.ridingTime[noon]!
    within(turning.columns.ridingTime[last]!, time, 0.005, 'time')
    expect(
      Math.abs(against.electric.drained / turning.electric.drained - 1),
      'the wind matters, so that the check can fail',
    ).toBeGreaterThan(0.05)
  })

  it('a table that says the same all day is the plan’s one weather', () => {
    const one = simulate(
      north,
      assisted(() => {}),
    )
    const told = simulate(
      north,
      assisted((plan) => {
        const { temperatureCelsius, windSpeed, windFromDegrees } = plan.weather
        table([hour('06:00', { temperatureCelsius, windSpeed, windFromDegrees, rainPerHour: 0 })])(plan)
      }),
    )
    within(told.electric.drained, one.electric.drained, 1e-6, 'energy')
    within(told.columns.time.at(-1)!, one.columns.time.at(-1)!, 1e-6, 'time')
  })

  it('rain costs energy by the wet road, and none once it has dried', () => {
    const dry = simulate(north, assisted(table([hour('06:00', { rainPerHour: 0 })])))
    const wet = simulate(north, assisted(table([hour('06:00', { rainPerHour: 2 })])))
    const dried = simulate(
      north,
      assisted(
        table([
          hour('06:00', { rainPerHour: 2 }),
          hour('07:00', { rainPerHour: 0 }),
          hour('08:00', { rainPerHour: 0 }),
        ]),
      ),
    )
    expect(wet.books.rolling / dry.books.rolling, 'rolling on a wet road').toBeCloseTo(1.1, 3)
    expect(wet.columns.time.at(-1)!).toBeGreaterThan(dry.columns.time.at(-1)!)
    within(dried.electric.drained, dry.electric.drained, 1e-6, 'dried')
  })
})
