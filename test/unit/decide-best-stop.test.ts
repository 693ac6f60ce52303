import { describe, expect, it } from 'vitest'
import { bestAssist, planWithWay, simpleWithin } from '../../src/model/decide/assist'
import { bestLengths, bestStops, stopPlaces } from '../../src/model/decide/best-stop'
import { chargingStops, planWithStops } from '../../src/model/decide/stop-search'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultCarried, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import type { Route } from '../../src/model/route/route'
import { hourly } from '../rides'
import { courseRoute } from '../routes'

const ratios = [0, 0.5, 1, 1.5, 2, 2.5, 3]

/** How soon a plan can end by the best assist, ridden, s; Infinity where none keeps the reserve. */
function soonest(route: Route, plan: Plan): number {
  const proposal = bestAssist(route, { plan, ratios, aim: { for: 'soonest' } })
  return proposal.code === 'found' ? proposal.best.time : Infinity
}

const hilly = (length: number, crossings: number[] = []): Route => ({
  ...courseRoute({ length, elevation: (d) => 300 + 60 * Math.sin(d / 1300), crossings }),
  waypoints: [
    { name: 'Mill', latitude: 45, longitude: 7, distance: 0.3 * length },
    { name: 'Quarry inn', latitude: 45, longitude: 7, distance: 0.6 * length },
  ],
})

const withPack = (wattHours: number, change: (plan: Plan) => void = () => undefined): Plan => {
  const plan = defaultPlan()
  plan.battery.packs = [{ ...plan.battery.packs[0]!, capacityAh: wattHours / 12, charge: 0.4, chargeCurrent: 20 }]
  plan.sources = plan.sources.map((source) => (source.kind === 'mains' ? { ...source, current: 20 } : source))
  change(plan)
  return plan
}

describe('the best stop', () => {
  const minutes = [15, 30, 45, 60, 90]

  it.each([
    ['a weak pack on hills', hilly(18_000), withPack(70)],
    ['a stronger pack', hilly(18_000), withPack(95)],
    [
      'a sailing behind both',
      hilly(18_000, [14_000]),
      withPack(70, (plan) => {
        plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
      }),
    ],
  ])('is as good as the best of all places and lengths, ridden: %s', (_, route, plan) => {
    const { options } = bestStops(route, { plan, sure: undefined })
    const single = options.find(
      ({ stops }) => stops.length <= 1 && stops.length === Math.min(1, options.at(-1)!.stops.length),
    )!
    let least = soonest(route, planWithStops(plan, []))
    for (const place of stopPlaces(route, plan))
      for (const duration of minutes)
        least = Math.min(least, soonest(route, planWithStops(plan, [{ place, duration: 60 * duration }])))
    const found = soonest(route, single.plan)
    expect(least).toBeLessThan(Infinity)
    // Its lengths are finer, so that it may be sooner.
    expect(found).toBeLessThan(least + 20)
    expect(Math.abs(single.finish - found)).toBeLessThan(simpleWithin)
    for (const option of options) expect(soonest(route, option.plan)).toBeLessThan(Infinity)
  })

  it('is anywhere by a carried pack, and the place along the way is drawn', () => {
    const route = { ...hilly(24_000), waypoints: [] }
    const plan = withPack(70, (plan) => {
      plan.sources = [defaultCarried('source-2', 'Carried')]
      plan.battery.packs[0]!.charge = 0.3
      plan.rider.power = 70
    })
    const { options, along, around } = bestStops(route, { plan, sure: undefined })
    const { stops } = options.at(-1)!
    const [stop] = stops
    expect(stops.length).toBe(1)
    expect(stop!.place).toMatchObject({ name: '', source: 'source-2', stop: undefined })
    // Foretold for each of many places, of which its own is among the best; and it is no later than the first and the last when they are ridden.
    expect(along.length).toBeGreaterThan(8)
    const own = along.find(({ distance }) => distance === stop!.place.distance)!
    expect(own.finish).toBeLessThan(Math.min(...along.map(({ finish }) => finish)) + 60)
    const ridden = (distance: number) =>
      soonest(route, planWithStops(plan, [{ ...stop!, place: { ...stop!.place, distance } }]))
    const there = ridden(stop!.place.distance)
    for (const { distance } of [along[0]!, along.at(-1)!]) expect(there).toBeLessThan(ridden(distance) + 30)
    expect(there).toBeLessThan(soonest(route, planWithStops(plan, [])))
    expect(around!.from).toBeLessThanOrEqual(own.distance)
    expect(around!.to).toBeGreaterThanOrEqual(own.distance)
    for (const { distance, finish } of along)
      if (distance >= around!.from && distance <= around!.to)
        expect(finish).toBeLessThanOrEqual(own.finish + simpleWithin)
  })

  it('is none where the charge lasts anyway, and the curve rises with each minute of standing', () => {
    const route = hilly(20_000)
    const { options, advice, curves, valley } = bestStops(route, { plan: withPack(900), sure: undefined })
    expect(options[advice]!.stops).toEqual([])
    const { points } = curves[0]!
    expect(points[0]!.duration).toBe(0)
    expect(points.at(-1)!.finish - points[1]!.finish).toBeCloseTo(points.at(-1)!.duration - points[1]!.duration, 0)
    expect(valley!.from).toBe(0)
  })

  it('eats beside the charge: a stop for food that charges stands no longer for it', () => {
    const route = hilly(18_000)
    const plan = withPack(70, (plan) => {
      plan.stops = [{ ...defaultStop('stop-1', 'Mill', 5400, null), kind: 'food', duration: 1800 }]
    })
    const [place] = stopPlaces(route, plan)
    const taken = planWithStops(plan, [{ place: place!, duration: 600 }])
    expect(taken.stops).toEqual([{ ...plan.stops[0]!, source: 'source-1' }])
    expect(simulate(route, taken).columns.time.at(-1)).toBeLessThan(simulate(route, plan).columns.time.at(-1)!)
  })

  it('keeps what is no stop for charge, and puts aside what is', () => {
    const plan = withPack(70, (plan) => {
      plan.stops = [
        { ...defaultStop('stop-1', 'Mill', 5400, 'source-1'), kind: 'food' },
        { ...defaultStop('stop-2', 'Quay', 8000, 'source-1'), kind: 'charge', goal: 'charge' },
        defaultStop('stop-3', 'Well', 9000, null),
      ]
    })
    expect(planWithStops(plan, []).stops.map(({ id, source }) => [id, source])).toEqual([
      ['stop-1', null],
      ['stop-3', null],
    ])
    const [, quay] = chargingStops(plan)
    const taken = planWithStops(plan, [{ ...quay!, duration: 1200 }])
    expect(taken.stops.find(({ id }) => id === 'stop-2')).toMatchObject({
      goal: 'duration',
      duration: 1200,
      source: 'source-1',
    })
  })

  it('finds the length of the stops that are planned', () => {
    const route = hilly(18_000)
    const plan = withPack(70, (plan) => {
      plan.stops = [{ ...defaultStop('stop-1', 'Mill', 5400, 'source-1'), duration: 3 * 3600 }]
    })
    const found = bestLengths(route, plan)
    let least = Infinity
    for (const duration of minutes)
      least = Math.min(least, soonest(route, { ...plan, stops: [{ ...plan.stops[0]!, duration: 60 * duration }] }))
    expect(soonest(route, found)).toBeLessThan(least + 20)
  })

  it('has no place by what cannot charge: another pack, a charger of another voltage', () => {
    const route = hilly(18_000)
    const plan = withPack(70)
    expect(stopPlaces(route, plan).map(({ name }) => name)).toEqual(['Quarry inn', 'Mill'])
    const refused = { ...plan, sources: plan.sources.map((source) => ({ ...source, voltage: 58 })) }
    expect(stopPlaces(route, refused)).toEqual([])
    expect(stopPlaces(route, { ...plan, sources: [{ id: 'swap', name: '', kind: 'swap' as const }] })).toEqual([])
  })
})

describe('an option that is taken', () => {
  it('is the day that was foretold of it, with its assist', () => {
    const route = hilly(18_000)
    const { options, advice } = bestStops(route, { plan: withPack(70), sure: undefined })
    const { plan } = options[advice]!
    const proposal = bestAssist(route, { plan, ratios, aim: { for: 'soonest' } })
    if (proposal.code !== 'found') throw new Error(proposal.code)
    const { columns, reserveAt } = simulate(route, planWithWay(plan, proposal.advice)!)
    expect(columns.time.at(-1)).toBe(proposal.advice.time)
    expect(reserveAt).toBeUndefined()
  })
})
