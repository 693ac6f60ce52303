import { describe, expect, it } from 'vitest'
import { usualSampling } from '../../src/model/chance/days'
import { HowSure } from '../../src/model/chance/how-sure'
import { ratiosOf } from '../../src/model/decide/assist'
import { bestLengths } from '../../src/model/decide/best-stop'
import { landmarksAt } from '../../src/model/decide/landmarks'
import { adviceOf, dominatedOf, loadOutsOf, rideLoadOut, type LoadOutRide } from '../../src/model/decide/load-outs'
import { sureAssist } from '../../src/model/decide/sure-assist'
import { totalMass } from '../../src/model/forecast/mass'
import { leftAtFinish } from '../../src/model/forecast/outcome'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultCarried, defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { courseRoute, pieces } from '../routes'

const route = courseRoute({ length: 25_000, elevation: (d) => 300 + 60 * Math.sin(d / 1300) })
const named = (number: number) => `Pack ${number}`

function weak(change: (plan: Plan) => void = () => undefined): Plan {
  const plan = defaultPlan()
  plan.battery.packs = [{ ...plan.battery.packs[0]!, capacityAh: 3.2 }]
  plan.stops = [{ ...defaultStop('stop-1', 'Mill', 9000, 'source-1'), duration: 1800 }]
  change(plan)
  return plan
}

describe('load-outs', () => {
  it('are a pack less to two more, with the carried pack and without, in which one does not stop for it any more', () => {
    expect(loadOutsOf(weak(), named).map(({ packs, carried, isPlanned }) => [packs, carried, isPlanned])).toEqual([
      [1, undefined, true],
      [2, undefined, false],
      [3, undefined, false],
    ])
    const carrying = weak((plan) => {
      plan.sources.push(defaultCarried('source-2', 'Carried'))
      plan.stops.push(defaultStop('stop-2', 'Quay', 15_000, 'source-2'))
    })
    const outs = loadOutsOf(carrying, named)
    expect(outs.map(({ packs, carried }) => [packs, carried])).toEqual(
      [1, 2, 3].flatMap((packs) => [
        [packs, 'asWired'],
        [packs, 'without'],
      ]),
    )
    const [wired, without] = outs
    expect(wired!.plan).toEqual(carrying)
    expect(without!.plan.stops.map(({ id }) => id)).toEqual(['stop-1'])
    expect(totalMass(without!.plan)).toBeLessThan(totalMass(wired!.plan))
  })

  it('join the blocks of a carried pack otherwise where that charges more, and leave at home what came back unused', () => {
    // Two blocks of 4 cells in parallel through a converter that draws 5 A at most: in series it draws the same at twice the voltage.
    const plan = weak((plan) => {
      const source = defaultCarried('source-2', 'Carried')
      Object.assign(source.carried, { blocksInSeries: 1, blocksInParallel: 2 })
      source.converter.inputCurrent = 5
      plan.sources = [{ ...source, polarityMeasured: true }]
      plan.battery.packs[0]!.capacityAh = 2
      // One eats there anyway.
      plan.stops = [{ ...defaultStop('stop-2', 'Quay', 9000, 'source-2'), kind: 'food', duration: 1800 }]
      const item = { name: 'Coat', mass: 0.8, count: 1, place: 'bike', use: null } as const
      plan.kit = [
        { ...item, id: 'item-1', mark: 'unused' },
        { ...item, id: 'item-2', mark: 'comes' },
        { ...item, id: 'item-3', mark: 'unused', mass: 0.3, count: 3 },
        { ...item, id: 'item-4', mark: 'unused', mass: 0.4 },
      ]
    })
    const outs = loadOutsOf(plan, named)
    const series = { source: 'source-2', inSeries: 2, inParallel: 1 }
    expect(outs.map(({ packs, carried, kit, isPlanned }) => [packs, carried, kit, isPlanned])).toEqual([
      [1, 'asWired', 'asPlanned', true],
      [1, 'asWired', 'withoutUnused', false],
      // The heaviest alone, but not what weighs less than half a kilogram.
      [1, 'asWired', { without: 'item-3' }, false],
      [1, 'asWired', { without: 'item-1' }, false],
      [1, series, 'asPlanned', false],
      [1, 'without', 'asPlanned', false],
      ...[2, 3].flatMap((packs) => ['asWired', series, 'without'].map((one) => [packs, one, 'asPlanned', false])),
    ])
    const [wired, unused, alone, , rewired] = outs
    const carriedOf = (one: Plan) => one.sources.find((source) => source.kind === 'carried')!
    expect(carriedOf(rewired!.plan)).toMatchObject({
      carried: { blocksInSeries: 2, blocksInParallel: 1 },
      polarityMeasured: false,
    })
    expect(totalMass(rewired!.plan)).toBe(totalMass(wired!.plan))
    expect(totalMass(wired!.plan) - totalMass(unused!.plan)).toBeCloseTo(2.1, 9)
    expect(unused!.plan.kit.map(({ mark }) => mark)).toEqual(['stays', 'comes', 'stays', 'stays'])
    expect(totalMass(wired!.plan) - totalMass(alone!.plan)).toBeCloseTo(0.9, 9)
    expect(alone!.plan.kit.map(({ mark }) => mark)).toEqual(['unused', 'comes', 'stays', 'unused'])
    // It brings more on the way, and is its plan when taken.
    const [now, otherwise] = [wired!, rewired!].map((one) => rideLoadOut(route, { plan: one.plan, sure: undefined }))
    if (now?.code !== 'lasts' || otherwise?.code !== 'lasts') throw new Error('below the reserve')
    expect(otherwise.time).toBeLessThan(now.time)
    expect(simulate(route, otherwise.plan).columns.time.at(-1)).toBe(otherwise.time)
    // The other way round nothing is gained, and it is not offered.
    expect(loadOutsOf(rewired!.plan, named).map(({ carried }) => carried)).not.toContainEqual(
      expect.objectContaining({ inSeries: 1 }),
    )
  })

  it.each([undefined, 0.8])('each row is its plan when taken, sure %s', (sure) => {
    const rides = loadOutsOf(weak(), named).map(({ plan }) => rideLoadOut(route, { plan, sure }))
    for (const ride of rides) {
      if (ride.code !== 'lasts') throw new Error(ride.code)
      const outcome = simulate(route, ride.plan)
      expect(ride.plan.battery.reserve).toBe(weak().battery.reserve)
      expect(outcome.columns.time.at(-1)).toBe(ride.time)
      expect(leftAtFinish(outcome) / outcome.usable).toBeCloseTo(ride.left, 12)
      expect(Math.min(...outcome.columns.left) / outcome.usable).toBeCloseTo(ride.least, 12)
      expect(outcome.reserveAt).toBeUndefined()
      expect(totalMass(ride.plan)).toBe(ride.mass)
      if (sure !== undefined) {
        // By other days than those by which it was found: within three errors of a share of 1,024 and of 256.
        const other = { ...usualSampling, seed: 7 }
        const { reserveAt } = new HowSure(route, { plan: ride.plan, sampling: other, places: [] }).ride(0, other.days)
        const share = reserveAt.filter((at) => Number.isNaN(at)).length / other.days
        expect(share).toBeGreaterThan(sure - 0.08)
        expect(ride.chance.value).toBeGreaterThan(sure - 0.04)
      }
    }
    const [one, two] = rides
    if (one?.code === 'lasts' && two?.code === 'lasts') expect(two.time).toBeLessThan(one.time)
  })

  it('stop elsewhere than planned where the day ends sooner so, and each row is its plan when taken', () => {
    const hilly = {
      ...courseRoute({ length: 18_000, elevation: (d) => 300 + 60 * Math.sin(d / 1300) }),
      waypoints: [{ name: 'Inn', latitude: 45, longitude: 7, distance: 6000 }],
    }
    const plan = weak((plan) => {
      plan.battery.packs[0] = { ...plan.battery.packs[0]!, capacityAh: 4, charge: 0.4, chargeCurrent: 20 }
      plan.rider.power = 80
      plan.sources = plan.sources.map((source) => (source.kind === 'mains' ? { ...source, current: 20 } : source))
      // So near the finish what is charged is of little use.
      plan.stops = [{ ...defaultStop('stop-1', 'Mill', 17_000, 'source-1'), duration: 900 }]
    })
    const sureOf = { sure: undefined, ratios: ratiosOf(plan), aim: { for: 'soonest' } } as const
    const asPlanned = sureAssist(hilly, { plan, ...sureOf }, undefined, (one) => bestLengths(hilly, one))
    const ride = rideLoadOut(hilly, { plan, sure: undefined })
    if (ride.code !== 'lasts' || asPlanned.code !== 'found') throw new Error('below the reserve')
    expect(ride.stops.map(({ place }) => [place.name, place.distance, place.source])).toEqual([
      ['Inn', 6000, 'source-1'],
    ])
    expect(ride.time).toBeLessThan(asPlanned.advice.time - 120)
    const { columns, reserveAt } = simulate(hilly, ride.plan)
    expect([columns.time.at(-1), reserveAt]).toEqual([ride.time, undefined])
    expect(ride.plan.stops.filter(({ source }) => source !== null).map(({ distance }) => distance)).toEqual([6000])
    // With a pack that lasts anyway nothing is moved.
    const strong = { ...plan, battery: { ...plan.battery, packs: [{ ...plan.battery.packs[0]!, capacityAh: 40 }] } }
    const whole = rideLoadOut(hilly, { plan: strong, sure: undefined })
    expect(whole.code === 'lasts' && whole.stops).toEqual([])
  })

  it('keeps more back for a chance than on the day as planned', () => {
    const [plain, careful] = [undefined, 0.9].map((sure) => rideLoadOut(route, { plan: weak(), sure }))
    if (plain?.code !== 'lasts' || careful?.code !== 'lasts') throw new Error('below the reserve')
    expect(careful.chance.value).toBeGreaterThan(plain.chance.value + 0.1)
    expect(careful.time).toBeGreaterThan(plain.time)
  })
})

describe('load-outs beside each other', () => {
  const row = (time: number, mass: number, chance: number): LoadOutRide => ({
    ...{ code: 'lasts', mass, plan: weak(), stops: [], time, left: 0.2, least: 0.2 },
    way: { by: 'constant', ratio: 1, time, ridingTime: time, riderWork: 0, left: 0 },
    chance: { value: chance, error: 0.01 },
  })

  it('are no choice where another is as soon, as light and as sure, and better by something', () => {
    const rides = [
      row(3600, 100, 0.8),
      row(3000, 103, 0.8),
      row(3000, 106, 0.8),
      row(2900, 109, 0.9),
      { code: 'belowReserve' as const, mass: 90 },
    ]
    expect(dominatedOf(rides)).toEqual([
      undefined,
      undefined,
      { by: 1, sooner: 0, lighter: 3, surer: 0 },
      undefined,
      undefined,
    ])
  })

  it('are each a choice where what is better is paid for', () => {
    expect(dominatedOf([row(3600, 100, 0.8), row(3600, 103, 0.9)])).toEqual([undefined, undefined])
    expect(dominatedOf([row(3600, 100, 0.8), row(3600, 103, 0.82)])).toEqual([
      undefined,
      { by: 0, sooner: 0, lighter: 3, surer: 0 },
    ])
  })

  it('are advised by the lightest that is hardly later than the soonest, in whatever order they stand', () => {
    const rides = [row(3000, 109, 0.9), row(3200, 103, 0.8), row(3200, 106, 0.8), row(3400, 100, 0.8)]
    expect(adviceOf(rides)).toBe(1)
    expect(adviceOf(rides.toReversed())).toBe(2)
    expect(adviceOf([...rides, { code: 'belowReserve', mass: 90 }])).toBe(1)
    expect(adviceOf([{ code: 'belowReserve', mass: 90 }])).toBe(-1)
  })

  it('are never advised by one that is no choice', () => {
    // The lightest within five minutes of the soonest, but another of its mass is surer.
    expect(adviceOf([row(3000, 103, 0.8), row(3000, 100, 0.8), row(3010, 100, 0.9)])).toBe(2)
  })
})

describe('landmarks', () => {
  it('are names before crossings, feet and tops of climbs, and else the distance', () => {
    const hill = {
      ...courseRoute({ ...pieces([6000, 0], [3000, 0.05], [6000, 0]), crossings: [12_000] }),
      waypoints: [{ name: ' Mill ', latitude: 45, longitude: 7, distance: 2000 }],
    }
    const plan = weak()
    const said = landmarksAt(hill, plan, [2200, 2400, 6050, 8900, 12_100, 13_000, 15_000])
    expect(said.map(({ code }) => code)).toEqual(['named', 'at', 'foot', 'named', 'crossing', 'at', 'finish'])
    expect(said[0]).toEqual({ code: 'named', name: 'Mill', distance: 2200 })
    expect(said[3]).toMatchObject({ name: 'Mill', distance: 8900 })
    const elsewhere = { ...plan, stops: [] }
    expect(landmarksAt(hill, elsewhere, [8900])[0]!.code).toBe('top')
  })
})
