import { describe, expect, it } from 'vitest'
import { Batteries } from '../../src/model/forecast/batteries'
import { prepare } from '../../src/model/forecast/prepare'
import { defaultPack, defaultPlan } from '../../src/model/plan/defaults'
import type { Plan, PlanPack } from '../../src/model/plan/schema'
import { near, within } from '../asserts'
import { rideOver } from '../rides'
import { courseRoute } from '../routes'

/** What the pack in use gives of a mean power, W, over a time, s. */
function draw(batteries: Batteries, power: number, time: number): number {
  const load = { power, time, given: NaN }
  batteries.inUse.draw(load)
  return load.given
}

const batteriesOf = (plan: Plan) => new Batteries(prepare(courseRoute({ length: 1000 }), plan))

const withPacks = (...packs: Partial<PlanPack>[]): Plan => {
  const plan = defaultPlan()
  plan.battery.packs = packs.map((pack, i) => ({ ...defaultPack(`pack-${i}`, `Pack ${i}`), ...pack }))
  return plan
}

describe('Batteries', () => {
  it('drains what it loses, its own heat included', () => {
    const batteries = batteriesOf(withPacks({}))
    const before = batteries.left()
    expect(draw(batteries, 250, 600)).toBe(250)
    within(before - batteries.left(), batteries.drained(), 1e-12, 'fall of the charge')
    // In so long a step the curve of the voltage bends, hence the tolerance.
    within(batteries.drained(), 250 * 600 + batteries.inUse.loss, 0.02, 'drained')
    expect(batteries.inUse.loss).toBeGreaterThan(0)
  })

  it('gives no more than the pack can, and says how much that was', () => {
    const batteries = batteriesOf(withPacks({ dischargeCurrent: 2 }))
    const { most } = batteries.inUse
    expect(draw(batteries, 500, 1)).toBe(most)
    expect(most).toBeLessThan(90)
  })

  it('goes on draining below the charge at which the motor stops', () => {
    const batteries = batteriesOf(withPacks({ charge: 0.08 }))
    expect(batteries.inUse.spent).toBe(true)
    expect(batteries.left()).toBe(0)
    expect(draw(batteries, 8, 600)).toBe(8)
    expect(batteries.drained()).toBeGreaterThan(4800)
  })

  it('begins with the first pack that is not spent, and swaps to the next', () => {
    const batteries = batteriesOf(withPacks({ charge: 0.05 }, { charge: 0.5 }, { charge: 0.9 }))
    expect(batteries.active).toBe(1)
    expect(batteries.swap()).toEqual({ off: 1, on: 2 })
    expect(batteries.active).toBe(2)
  })
})

describe('a pack without a floor', () => {
  it('is spent by its cut-off voltage, so that the next takes its place', () => {
    const plan = withPacks({ floor: 0, capacityAh: 1 }, {})
    const { halts, columns, emptyAt } = rideOver({ length: 30_000 }, plan)
    expect(halts.filter(({ kind }) => kind === 'swap')).toHaveLength(1)
    expect(columns.pack.at(-1)).toBe(1)
    expect(emptyAt).toBeUndefined()
  })
})

describe('electric books after the last pack is spent', () => {
  it('hold, with the electronics that go on', () => {
    const { electric, emptyAt, columns } = rideOver({ length: 40_000 }, withPacks({ capacityAh: 2 }))
    expect(emptyAt).toBeLessThan(30_000)
    const spent = electric.motorWork + electric.motorLoss + electric.electronics + electric.packLoss
    within(spent, electric.drained, 1e-3, 'spent')
    const from = Math.ceil(emptyAt! / 10) + 1
    const drainedAfter = columns.drained.at(-1)! - columns.drained[from]!
    expect(drainedAfter).toBeGreaterThan(1000)
    near(columns.motorWork.at(-1)! - columns.motorWork[from]!, 0, 0, 'motor work after')
  })
})
