import { describe, expect, it } from 'vitest'
import { usableEnergy, packAt, usableLeft } from '../../src/model/battery/pack'
import { prepare } from '../../src/model/forecast/prepare'
import { Ride } from '../../src/model/forecast/ride'
import { simulate } from '../../src/model/forecast/simulate'
import { Tally } from '../../src/model/forecast/tally'
import { defaultCarried, defaultMains, defaultPack, defaultStop } from '../../src/model/plan/defaults'
import type { Control } from '../../src/model/plan/day-schema'
import type { Plan, PlanStop } from '../../src/model/plan/schema'
import { instantOf } from '../../src/model/world/zone'
import { near, within } from '../asserts'
import { plainPlan } from '../rides'
import { courseRoute } from '../routes'

const route = courseRoute({ length: 20_000, elevation: (d) => 20 * Math.sin(d / 700) })
const stop = (distance: number, source: string | null, change: Partial<PlanStop> = {}): PlanStop => ({
  ...defaultStop(`stop-${distance}`, 'Inn', distance, source),
  duration: 900,
  goal: 'duration',
  ...change,
})
const plan = (change: (plan: Plan) => void) =>
  plainPlan((plan) => {
    plan.zone = 'Europe/Rome'
    plan.start = '2027-06-19T06:00'
    Object.assign(plan.assist, { ratio: 1, climbRatio: 2 })
    Object.assign(plan.battery, { packs: [{ ...defaultPack('one', 'One'), charge: 0.6 }], reserve: 0.1, swapTime: 60 })
    change(plan)
  })
const ridden = (change: (plan: Plan) => void) => simulate(route, plan(change))

describe('what is noted of a halt', () => {
  it('is when and where, with what was left before and after, and nothing of sources that are none', () => {
    const { halts, columns } = ridden((plan) => {
      plan.sources = [defaultMains('plug', 'Plug')]
      plan.stops = [stop(4000, null), stop(8000, 'plug'), stop(12_000, 'plug')]
    })
    const [rest, first, second] = halts
    const station = 400
    expect(rest).toEqual({
      kind: 'stop',
      station,
      distance: 4000,
      arrive: columns.time[station],
      depart: columns.time[station]! + 900,
      leftBefore: columns.left[station],
      leftAfter: columns.left[station],
      packsBefore: [rest!.packsBefore[0]],
      charges: [],
      stop: 'stop-4000',
    })
    expect(rest!.packsBefore[0]).toBeLessThan(0.6)
    for (const halt of [first!, second!]) {
      expect(Object.keys(halt)).not.toContain('carried')
      expect(halt.charges).toHaveLength(1)
      const [{ pack, run }] = halt.charges as [(typeof halt.charges)[0]]
      expect([pack, run.time]).toEqual([0, 900])
      within(halt.leftAfter - halt.leftBefore, run.stored, 1e-9)
    }
    const pack = packAt({ ...defaultPack('one', 'One') }, plan(() => {}).battery.temperatureCelsius)
    within(usableLeft(pack, first!.packsBefore[0]!), first!.leftBefore, 1e-9)
  })

  it('tells of a carried pack what it had and has', () => {
    const { halts } = ridden((plan) => {
      const source = { ...defaultCarried('box', 'Box'), polarityMeasured: true, fullVoltageKnown: true }
      plan.sources = [source]
      plan.stops = [stop(8000, 'box'), stop(12_000, 'box')]
    })
    const [first, second] = halts
    if (first!.refusal !== undefined) throw new Error(first!.refusal.code)
    expect(first!.carried!.after).toBeLessThan(first!.carried!.before)
    expect(second!.carried!.before).toBe(first!.carried!.after)
  })

  it('waits at a control until it opens, by the clock of the day', () => {
    const control = (time: string): Control =>
      ({ id: 'gate', name: 'Gate', distance: 10_000, opens: { by: 'clock', time, day: 0 }, closes: null }) as Control
    const { halts, columns } = ridden((plan) => (plan.controls = [control('07:30')]))
    const station = 1000
    expect(halts).toHaveLength(1)
    expect(halts[0]).toMatchObject({ kind: 'control', control: 'gate', arrive: columns.time[station] })
    // An hour and a half after the start at six.
    near(halts[0]!.depart, 5400, 1e-6)
    expect(instantOf('2027-06-19T07:30', 'Europe/Rome') - instantOf('2027-06-19T06:00', 'Europe/Rome')).toBe(5400)
    expect(ridden((plan) => (plan.controls = [control('06:01')])).halts).toEqual([])
  })

  it('goes on with the next pack where one is spent, in the time that a swap takes', () => {
    const { halts, columns, usable } = ridden((plan) => {
      const packs = [0.15, 0.9, 0.8].map((charge, k) => ({ ...defaultPack(`pack-${k}`, ''), charge }))
      plan.battery.packs = packs
    })
    const swap = halts.find(({ kind }) => kind === 'swap')!
    expect(swap).toMatchObject({ swap: { off: 0, on: 1 }, charges: [] })
    near(swap.depart - swap.arrive, 60, 1e-9)
    expect([columns.pack[swap.station - 1], columns.pack[swap.station]]).toEqual([0, 1])
    const one = packAt(defaultPack('pack', ''), plan(() => {}).battery.temperatureCelsius)
    within(usable, 3 * usableEnergy(one), 1e-12)
    expect(swap.packsBefore.slice(1)).toEqual([0.9, 0.8])
    within(swap.leftAfter, usableLeft(one, swap.packsBefore[0]!) + usableLeft(one, 0.9) + usableLeft(one, 0.8), 1e-9)
  })
})

describe('a tally', () => {
  it('takes arrivals and departures at its own stations alone', () => {
    const planned = plan((plan) => (plan.stops = [stop(3000, null), stop(5000, null), stop(9000, null)]))
    const { columns } = simulate(route, planned)
    const stations = [100, 500, 1000]
    const column = () => new Float64Array(3)
    const tally = new Tally(stations, column(), column(), column())
    const prepared = prepare(route, planned)
    const ride = new Ride(prepared)
    tally.run(prepared, ride, ride.state())
    expect([...tally.arriveTime]).toEqual(stations.map((station) => columns.time[station]))
    // Of three stops only that at 5 km is at one of them.
    expect([...tally.departTime]).toEqual(stations.map((station, k) => columns.time[station]! + (k === 1 ? 900 : 0)))
    expect([...tally.charge]).toEqual(stations.map((station) => columns.left[station]))
  })
})
