import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPack, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { interpolate } from '../../src/model/columns'
import { restOfDay } from '../../src/model/studies/rest-of-day'
import { near } from '../asserts'
import { plainPlan } from '../rides'
import { courseRoute } from '../routes'

const route = courseRoute({ length: 60_000, elevation: (d) => 200 + 80 * Math.sin(d / 4000) })
const plan: Plan = plainPlan((plan) => {
  Object.assign(plan.assist, { ratio: 1.5, climbRatio: 1.5 })
  plan.battery.packs = ['One', 'Two'].map((name, k) => ({ ...defaultPack(`pack-${k}`, name), capacityAh: 6 }))
  plan.stops = [{ ...defaultStop('stop-1', 'Mill', 45_000, 'source-1'), duration: 1200 }]
})
const whole = simulate(route, plan)

describe('the rest of a day', () => {
  it('is that of the plan, to the bit, where the reading is what is planned', () => {
    for (const distance of [0, 12_345, 45_000, 52_000]) {
      const rest = restOfDay(route, plan, distance, ({ time, left }) => ({ time, left }))
      expect(rest.finish).toBe(whole.columns.time.at(-1))
      near(rest.left, whole.columns.left.at(-1)!, 1e-9)
      const { ridingTime } = whole.columns
      near(rest.ridingTime, ridingTime.at(-1)! - interpolate(route.stations.distance, ridingTime, distance), 1)
      expect({ reserveAt: rest.reserveAt, emptyAt: rest.emptyAt }).toEqual({
        reserveAt: whole.reserveAt,
        emptyAt: whole.emptyAt,
      })
    }
  })

  it('is later by as much as one is late, and ends with as much less as is missing, where the packs give all the same', () => {
    const missing = 0.05 * whole.usable
    const rest = restOfDay(route, plan, 50_000, ({ time, left }) => ({ time: time + 900, left: left - missing }))
    near(rest.finish, whole.columns.time.at(-1)! + 900, 1)
    // A pack's lower voltage loses a little more to its resistance.
    near(rest.left, whole.columns.left.at(-1)! - missing, 0.1 * missing)
  })

  it('takes what is missing from the pack in use, then from the others, and from none more than it has', () => {
    const empty = restOfDay(route, plan, 10_000, ({ time }) => ({ time, left: 0 }))
    expect(empty.emptyAt).toBe(10_000)
    expect(empty.reserveAt).toBe(10_000)
    expect(empty.finish).toBeGreaterThan(whole.columns.time.at(-1)! + 1800)
    // The second pack holds about half of all: with less than that left, the first is spent and swapped at once.
    const last = restOfDay(route, plan, 10_000, ({ time, usable }) => ({ time, left: 0.4 * usable }))
    const first = restOfDay(route, plan, 10_000, ({ time, usable }) => ({ time, left: 0.6 * usable }))
    expect(last.finish).toBeGreaterThan(first.finish)
    expect(last.emptyAt ?? Infinity).toBeLessThanOrEqual(first.emptyAt ?? Infinity)
    expect(last.emptyAt ?? Infinity).toBeGreaterThan(empty.emptyAt!)
  })

  it('never has more than full packs hold', () => {
    const full = restOfDay(route, plan, 59_900, ({ time, usable }) => ({ time, left: 2 * usable }))
    expect(full.left).toBeLessThanOrEqual(full.usable)
    expect(full.left).toBeGreaterThan(0.98 * full.usable)
  })
})
