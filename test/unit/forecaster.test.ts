import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { faultReport } from '../../src/state/fault-report'
import { Forecaster } from '../../src/state/forecaster'
import { courseRoute } from '../routes'

const route = courseRoute({ length: 20_000, crossings: [9000] })
const plan = { ...defaultPlan(), stops: [defaultStop('stop-1', 'Mill at Tollan', 5000, 'source-1')] }
const moved = (distance: number): Plan => ({ ...plan, stops: plan.stops.map((stop) => ({ ...stop, distance })) })
/** No plan that comes through the door is such; it stands for a fault of the model. */
const broken: Plan = { ...plan, zone: 'Europe/Oslo', battery: { ...plan.battery, packs: undefined as never } }

describe('a fault of the model', () => {
  it('leaves the last good outcome, and the next plan gets out of it', () => {
    const forecaster = new Forecaster()
    const good = forecaster.make(route, plan, false, [])
    expect(good.fault).toBeUndefined()
    expect(good.outcome).toEqual(simulate(route, plan))
    const bad = forecaster.make(route, broken, false, [])
    expect(bad.outcome).toBe(good.outcome)
    expect(bad.fault).toMatchObject({ route, plan: broken })
    expect(bad.fault!.error).toBeInstanceOf(Error)
    const next = forecaster.make(route, moved(7000), false, [])
    expect(next).toEqual({ outcome: simulate(route, moved(7000)) })
  })

  it('does so in the middle of a gesture, whose later frames are right again', () => {
    const forecaster = new Forecaster()
    const first = forecaster.make(route, plan, false, [])
    for (const distance of [5100, 5200, 5300]) forecaster.make(route, moved(distance), true, [first.outcome])
    const before = forecaster.make(route, moved(5400), true, [first.outcome])
    const columns = structuredClone(before.outcome!.columns)
    for (let frame = 0; frame < 3; frame++) {
      const bad = forecaster.make(route, broken, true, [first.outcome])
      expect(bad.fault).toBeDefined()
      expect(bad.outcome).toBe(before.outcome)
    }
    expect(before.outcome!.columns, 'nothing is written into what is shown').toEqual(columns)
    expect(forecaster.make(route, moved(5500), true, [first.outcome]).outcome).toEqual(simulate(route, moved(5500)))
  })

  it('shows nothing of another route', () => {
    const forecaster = new Forecaster()
    forecaster.make(route, plan, false, [])
    const other = courseRoute({ length: 15_000 })
    expect(forecaster.make(other, broken, false, []).outcome).toBeUndefined()
    expect([forecaster.can(other, broken), forecaster.can(other, plan)]).toEqual([false, true])
  })

  it('gives a report that tells the plan, the version and where, and nothing of who and where the ride is', () => {
    const { fault } = new Forecaster().make(route, broken, false, [])
    const text = faultReport(fault!)
    expect(JSON.parse(text)).toMatchObject({
      program: 'wattfare',
      version: expect.stringMatching(/^\d+\.\d+\.\d+$/) as string,
      thrown: expect.stringMatching(/^TypeError: .+/) as string,
      route: { length: 20_000, crossings: 1, stations: route.stations.distance.length },
      plan: { rider: plan.rider, stops: [{ id: 'stop-1', distance: 5000 }] },
    })
    expect((JSON.parse(text) as { at: string[] }).at[0]).toMatch(/:\d+:\d+/)
    expect(text).not.toMatch(/Tollan|Oslo|latitude|longitude|file:|https?:|\/src\//)
    expect(faultReport({ error: 'just so', route, plan })).toContain('Error: just so')
  })
})
