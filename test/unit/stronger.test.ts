import { describe, expect, it } from 'vitest'
import { defaultMains, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { strongerLater } from '../../src/model/studies/stronger'
import { near } from '../asserts'
import { plainPlan, rideOver } from '../rides'
import { pieces, type Course } from '../routes'

/** A hill on which one of 60 W with a motor of twice that just has to get off, and a longer one that asks for the motor. */
const hills = pieces([1000, 0], [2000, 0.104], [1000, 0], [4000, 0.08])
const flat = pieces([30_000, 0])

const planned = (change: (plan: Plan) => void) =>
  plainPlan((plan) => {
    plan.rider.power = 60
    plan.battery.packs.length = 1
    change(plan)
  })
const scarce = planned(({ assist, battery }) => {
  assist.ratio = assist.climbRatio = 2
  battery.packs[0]!.charge = 0.23
})
const charging = planned((plan) => {
  plan.assist.ratio = plan.assist.climbRatio = 1
  plan.sources = [{ ...defaultMains('source-1', 'Slow'), current: 1 }]
  plan.stops = [{ ...defaultStop('stop-1', 'Inn', 29_000, 'source-1'), goal: 'charge', chargeTo: 0.9 }]
})

/** By how much 5 % more power makes the same day longer, s, by two forecasts. */
function longer(course: Course, plan: Plan): number {
  const time = (share: number) =>
    rideOver(course, { ...plan, rider: { ...plan.rider, power: share * plan.rider.power } }).columns.time.at(-1)!
  return time(1.05) - time(1)
}

describe('more power that makes the day longer', () => {
  it('is told where a hill just ridden takes the charge that the next one asks for', () => {
    const later = strongerLater(rideOver(hills, scarce))!
    expect(later.time).toBeGreaterThan(300)
    near(later.time, longer(hills, scarce), 1e-6)
    expect(later.more).toBe(0.05)
    expect(later.causes.map(({ code }) => code)).toEqual(['motorOff', 'onFoot'])
    const [off] = later.causes
    near((off as { length: number }).length, 3100, 100, 'farther without the motor')
  })

  it('is told where one stands longer at a slow charger', () => {
    const later = strongerLater(rideOver(flat, charging))!
    near(later.time, longer(flat, charging), 1e-6)
    const [cause, ...others] = later.causes
    expect(others).toEqual([])
    expect(cause).toMatchObject({ code: 'charging' })
    expect((cause as { time: number }).time).toBeGreaterThan(later.time)
  })

  it('is told where it spends a pack that else lasts, and the next has to be put in', () => {
    const swapping = planned((plan) => {
      plan.assist.ratio = plan.assist.climbRatio = 1
      const [pack] = plan.battery.packs
      plan.battery.packs = [
        { ...pack!, charge: 0.25 },
        { ...pack!, id: 'pack-2', charge: 1 },
      ]
      plan.battery.swapTime = 3600
    })
    // As far as the first pack lasts at the planned power, and a little less.
    const { halts } = rideOver(flat, swapping)
    expect(halts.map(({ kind }) => kind)).toEqual(['swap'])
    const short = pieces([halts[0]!.distance - 100, 0])
    const outcome = rideOver(short, swapping)
    expect(outcome.halts).toEqual([])
    const later = strongerLater(outcome)!
    near(later.time, longer(short, swapping), 1e-6)
    expect(later.causes).toEqual([{ code: 'swaps', count: 1 }])
  })

  it('is told from a minute on, and the weather is the cause where it changes and nothing else did', () => {
    const outcome = rideOver(
      flat,
      planned(() => {}),
    )
    const earlier = longer(flat, outcome.plan)
    expect(earlier).toBeLessThan(-100)
    /** The same day, had it been shorter: as by a wind that has turned since. */
    const had = (later: number, table: Plan['weather']['table'] = []) =>
      strongerLater({
        ...outcome,
        plan: { ...outcome.plan, weather: { ...outcome.plan.weather, table } },
        columns: { ...outcome.columns, time: outcome.columns.time.map((time) => time + earlier - later) },
      })
    expect(had(59.9)).toBeUndefined()
    near(had(60.1)!.time, 60.1, 1e-6)
    expect(had(600)).toMatchObject({ causes: [] })
    const { temperatureCelsius, windSpeed, windFromDegrees } = outcome.plan.weather
    const hour = {
      time: outcome.plan.start,
      temperatureCelsius,
      windSpeed,
      windFromDegrees,
      rainPerHour: 0,
      pressure: null,
    }
    expect(had(600, [{ name: 'Mill', distance: 0, hours: [hour] }])).toMatchObject({ causes: [{ code: 'weather' }] })
  })

  it('does not name the weather where something else is known', () => {
    const { temperatureCelsius, windSpeed, windFromDegrees } = charging.weather
    const hour = {
      time: charging.start,
      temperatureCelsius,
      windSpeed,
      windFromDegrees,
      rainPerHour: 0,
      pressure: null,
    }
    const weather = { ...charging.weather, table: [{ name: 'Mill', distance: 0, hours: [hour] }] }
    expect(strongerLater(rideOver(flat, { ...charging, weather }))!.causes.map(({ code }) => code)).toEqual([
      'charging',
    ])
  })

  it('is not told where it is not so: with charge enough, and with the motor off', () => {
    const without = (plan: Plan) => ({ ...plan, assist: { ...plan.assist, ratio: 0, climbRatio: 0 } })
    const full = (plan: Plan) => ({
      ...plan,
      battery: { ...plan.battery, packs: plan.battery.packs.map((pack) => ({ ...pack, charge: 1 })) },
    })
    expect(strongerLater(rideOver(hills, full(scarce)))).toBeUndefined()
    expect(strongerLater(rideOver(hills, without(scarce)))).toBeUndefined()
    expect(strongerLater(rideOver(flat, without(charging)))).toBeUndefined()
  })
})
