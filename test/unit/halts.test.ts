import { describe, expect, it } from 'vitest'
import { ridingMass, totalMass } from '../../src/model/forecast/mass'
import { defaultCarried, defaultMains, defaultPack, defaultStop } from '../../src/model/plan/defaults'
import type { WeatherHour } from '../../src/model/plan/day-schema'
import type { FillFirst } from '../../src/model/battery/fill-order'
import type { Plan } from '../../src/model/plan/schema'
import { sunOn } from '../../src/model/world/daylight'
import { instantOf } from '../../src/model/world/zone'
import { near, within } from '../asserts'
import { plainPlan, rideOver } from '../rides'
import { pieces } from '../routes'

const stop = (distance: number, change: object = {}) => ({
  ...defaultStop(`stop-${distance}`, 'Inn', distance, null),
  ...change,
})

describe('braking in the wet', () => {
  const hour = (time: string, rainPerHour: number): WeatherHour => ({
    time: `2027-06-19T${time}`,
    temperatureCelsius: null,
    windSpeed: null,
    windFromDegrees: null,
    rainPerHour,
    pressure: null,
  })
  const bend = { length: 3000, curvature: (d: number) => (d === 1000 ? 0.1 : 0) }
  const ride = (hours: WeatherHour[]) =>
    rideOver(
      bend,
      plainPlan((plan) => {
        plan.start = '2027-06-19T09:00'
        plan.rider.power = 250
        Object.assign(plan.bike, { lateralAcceleration: 2, braking: 1.5 })
        Object.assign(plan.wet, { braking: 0.6, rolling: 1, rain: 0.5, dryingTime: 3600 })
        plan.stops = [stop(2000)]
        plan.weather.table = [{ name: 'Mill', distance: 0, hours }]
      }),
    )
  const squared = (outcome: ReturnType<typeof rideOver>, distance: number) => outcome.columns.speed[distance / 10]! ** 2

  it.each([
    ['dry', [hour('09:00', 0)], 1],
    ['wet', [hour('09:00', 5)], 0.6],
    ['half wet', [hour('09:00', 0.25)], 0.8],
  ] as const)(
    'on a %s road leaves that share of the grip in bends and before bends, stops and the finish',
    (_, hours, grip) => {
      const outcome = ride([...hours])
      // v² = a / curvature in the bend, and 2 b s at a distance s before it, a stop or the finish: elementary mechanics.
      near(squared(outcome, 1000), (grip * 2) / 0.1, 1e-6, 'in the bend')
      near(squared(outcome, 990), (grip * 2) / 0.1 + 2 * grip * 1.5 * 10, 1e-6, 'before the bend')
      near(squared(outcome, 1990), 2 * grip * 1.5 * 10, 1e-6, 'before the stop')
      near(squared(outcome, 2990), 2 * grip * 1.5 * 10, 1e-6, 'before the finish')
    },
  )

  it('is by the weather about when the rider is there', () => {
    // At 5.5 m/s 3 km take nine minutes: it rains from the fifth to the seventh.
    const outcome = ride([hour('09:00', 0), hour('09:04', 0), hour('09:05', 5), hour('09:06', 5), hour('12:00', 5)])
    near(squared(outcome, 990), 2 / 0.1 + 2 * 1.5 * 10, 1e-6, 'before the rain')
    near(squared(outcome, 1990), 2 * 0.6 * 1.5 * 10, 1e-6, 'in the rain')
  })
})

describe('lights that burn in the dark only', () => {
  const ride = (start: string, change: Partial<Plan['assist']>) =>
    rideOver(
      { length: 40_000, latitude: 45 },
      plainPlan((plan) => {
        plan.start = start
        plan.zone = 'Europe/Rome'
        Object.assign(plan.assist, { ratio: 1, climbRatio: 1, electronics: 4, lights: 10, lightsOn: 'dark', ...change })
      }),
    )

  it('burn through twilight, from the start to sunrise and from sunset on', () => {
    const day = '2027-06-19'
    for (const [start, event] of [
      ['04:45', 'sunrise'],
      ['20:30', 'sunset'],
    ] as const) {
      const { electric, columns } = ride(`${day}T${start}`, {})
      const time = columns.time.at(-1)!
      const began = instantOf(`${day}T${start}`, 'Europe/Rome')
      // Sun times by Meeus's formulas, of the middle of the way; it moves by half a minute on the way.
      const at = sunOn(45.18, 7, day, 'Europe/Rome')[event]! - began
      expect(at).toBeGreaterThan(600)
      expect(at).toBeLessThan(time - 600)
      const burning = event === 'sunrise' ? at : time - at
      near((electric.electronics - 4 * time) / 10, burning, 60, `lights at ${start}`)
    }
  })

  it('burn all the way where they always do, and never at noon', () => {
    const noon = ride('2027-06-19T12:00', {})
    near(noon.electric.electronics, 4 * noon.columns.time.at(-1)!, 1e-6)
    const always = ride('2027-06-19T12:00', { lightsOn: 'always' })
    near(always.electric.electronics, 14 * always.columns.time.at(-1)!, 1e-6)
  })
})

describe('a pack that is spent', () => {
  // On a hill, where one brakes within a step and the motor works up to it.
  const over = (distance?: number) =>
    rideOver(
      pieces([500, 0], [4000, 0.06], [2000, 0]),
      plainPlan((plan) => {
        plan.assist.ratio = plan.assist.climbRatio = 1
        plan.battery.packs = [
          { ...defaultPack('pack-1', 'One'), charge: 0.2 },
          { ...defaultPack('pack-2', 'Two'), charge: 0.8 },
        ]
        plan.battery.swapTime = 240
        if (distance !== undefined) plan.stops = [stop(distance, { duration: 600 })]
      }),
    ).halts
  const [swap] = over()

  it('takes its time to change on the road', () => {
    expect(over().map(({ kind }) => kind)).toEqual(['swap'])
    near(swap!.depart - swap!.arrive, 240, 1e-9)
    expect(swap!.swap).toEqual({ off: 0, on: 1 })
    expect(swap!.leftAfter).toBe(swap!.leftBefore)
    expect(swap!.distance).toBeGreaterThan(600)
  })

  it('is changed within the time of a stop that stands there', () => {
    const halts = [0, 10, 20].map((more) => over(swap!.distance + more)).find(([, next]) => next?.kind === 'swap')!
    expect(halts.map(({ kind, arrive, depart }) => [kind, Math.round(depart - arrive)])).toEqual([
      ['stop', 600],
      ['swap', 0],
    ])
    expect(halts[1]!.station).toBe(halts[0]!.station)
    expect(halts[1]!.swap).toEqual({ off: 0, on: 1 })
  })
})

describe('a stop that charges', () => {
  const charged = (fillFirst: FillFirst, charges: number[], change: (plan: Plan) => void = () => {}) =>
    rideOver(
      { length: 20_000 },
      plainPlan((plan) => {
        plan.assist.ratio = plan.assist.climbRatio = 0
        Object.assign(plan.assist, { electronics: 0, lights: 0 })
        plan.battery.packs = charges.map((charge, k) => ({ ...defaultPack(`pack-${k}`, `${k}`), charge }))
        plan.sources = [defaultMains('source-1', 'Socket')]
        plan.stops = [stop(1000, { source: 'source-1', duration: 1800, fillFirst })]
        change(plan)
      }),
    ).halts[0]!
  const order = ({ charges }: ReturnType<typeof charged>) => charges.map(({ pack }) => pack)

  it('fills the pack in use first, or the emptiest, as it is told', () => {
    expect(order(charged('in use', [0.5, 0.3, 0.4]))).toEqual([0])
    expect(order(charged('emptiest', [0.5, 0.3, 0.4]))).toEqual([1])
    const long = (plan: Plan) => (plan.stops[0]!.duration = 12 * 3600)
    expect(order(charged('in use', [0.5, 0.3, 0.4], long))).toEqual([0, 1, 2])
    expect(order(charged('emptiest', [0.5, 0.3, 0.4], long))).toEqual([1, 2, 0])
    // The first pack is spent, so that the second is in use.
    expect(order(charged('in use', [0, 0.5, 0.4], long))).toEqual([1, 2, 0])
    expect(order(charged('emptiest', [0.4, 0.4, 0.4], long))).toEqual([0, 1, 2])
  })

  it('fills by the order that brings most: the nearly full one in use last, where half an hour is short', () => {
    expect(order(charged('most', [0.97, 0.3]))[0]).toBe(1)
    const brought = (fillFirst: FillFirst) => {
      const { leftAfter, leftBefore } = charged(fillFirst, [0.97, 0.3])
      return leftAfter - leftBefore
    }
    expect(brought('most')).toBeGreaterThan(1.1 * brought('in use'))
    // Of orders that bring the same, that of their use.
    expect(order(charged('most', [0.4, 0.4]))).toEqual([0])
  })

  it('up to a share ends when all packs together hold it, by the soonest order', () => {
    const upTo = (chargeTo: number, charges: number[]) =>
      charged('most', charges, (plan) => Object.assign(plan.stops[0]!, { goal: 'charge', chargeTo }))
    const half = upTo(0.6, [0.5, 0.3])
    const usable = charged('most', [1, 1]).leftBefore
    within(half.leftAfter, 0.6 * usable, 1e-6)
    expect(half.depart - half.arrive).toBeGreaterThan(600)
    const enough = upTo(0.2, [0.5, 0.3])
    expect(enough.charges).toEqual([])
    expect(enough.depart).toBe(enough.arrive)
  })

  it('says why a source is refused, and stays its time', () => {
    const refused = charged(
      'most',
      [0.5],
      (plan) => (plan.sources = [{ ...defaultMains('source-1', 'High'), voltage: 58.8 }]),
    )
    expect(refused.refusal).toBeDefined()
    expect(refused.charges).toEqual([])
    near(refused.depart - refused.arrive, 1800, 1e-9)
    // Whatever its goal: there is no charge to wait for.
    const waiting = charged('most', [0.5], (plan) => {
      plan.sources = [{ ...defaultMains('source-1', 'High'), voltage: 58.8 }]
      Object.assign(plan.stops[0]!, { goal: 'charge', chargeTo: 0.9 })
    })
    near(waiting.depart - waiting.arrive, 1800, 1e-9)
    expect(waiting.carried).toBeUndefined()
  })

  it('takes from a carried pack what goes in, and the next stop has the rest', () => {
    const halts = rideOver(
      { length: 20_000 },
      plainPlan((plan) => {
        plan.battery.packs = [{ ...defaultPack('pack-0', '0'), charge: 0.2 }]
        plan.sources = [defaultCarried('source-1', 'Box')]
        plan.stops = [1000, 5000].map((distance) => stop(distance, { source: 'source-1', duration: 900 }))
      }),
    ).halts
    expect(halts[0]!.carried!.after).toBeLessThan(halts[0]!.carried!.before)
    expect(halts[1]!.carried!.before).toBe(halts[0]!.carried!.after)
    expect(halts[1]!.carried!.after).toBeLessThan(halts[1]!.carried!.before)
  })
})

describe('a planned swap', () => {
  it('takes the next pack that is not spent, and the same where there is none', () => {
    const halts = rideOver(
      { length: 20_000 },
      plainPlan((plan) => {
        plan.battery.packs = [0.5, 0.02, 0.7].map((charge, k) => ({ ...defaultPack(`pack-${k}`, `${k}`), charge }))
        plan.sources = [{ id: 'source-1', name: 'Swap', kind: 'swap' }]
        plan.stops = [1000, 5000].map((distance) => stop(distance, { source: 'source-1', duration: 300 }))
      }),
    ).halts
    expect(halts.map(({ swap, kind, depart, arrive }) => [kind, swap, Math.round(depart - arrive)])).toEqual([
      ['stop', { off: 0, on: 2 }, 300],
      ['stop', { off: 2, on: 0 }, 300],
    ])
  })
})

describe('the mass that is ridden', () => {
  it('is all that is carried, and of food and water the mean, at 5.5 m/s', () => {
    const plan = plainPlan(({ kit, rider, bike, battery }) => {
      Object.assign(rider, { mass: 80 })
      Object.assign(bike, { mass: 20, luggage: 5 })
      battery.packs = [
        { ...defaultPack('pack-1', 'One'), mass: 3 },
        { ...defaultPack('pack-2', 'Two'), mass: 2 },
      ]
      const item = { name: 'x', count: 1, place: 'bike', mark: 'comes', use: null } as const
      kit.push({ ...item, id: 'a', mass: 2, use: { by: 'time', rate: 0.5 / 3600 } })
      kit.push({ ...item, id: 'b', mass: 1, count: 2, use: { by: 'distance', rate: 2e-5 } })
      kit.push({ ...item, id: 'c', mass: 7, mark: 'stays' })
    })
    near(totalMass(plan), 114, 1e-12)
    // 55 km take 10,000 s: 0.5 kg/h for 2.78 h of the water, and 1.1 kg of the food, half of each on the mean.
    near(ridingMass(plan, 55_000), 114 - (0.5 * 10_000) / 3600 / 2 - 1.1 / 2, 1e-9)
    // A source comes along where a stop uses it.
    plan.sources = [{ ...defaultMains('source-1', 'Socket'), mass: 1.5 }]
    near(totalMass(plan), 114, 1e-12)
    plan.stops = [stop(5, { source: 'source-1' })]
    near(totalMass(plan), 115.5, 1e-12)
    // A carried pack with its converter and both leads.
    const box = defaultCarried('source-1', 'Box')
    Object.assign(box.carried, { blocksInSeries: 2, blocksInParallel: 1, blockMass: 1.2 })
    box.converter.mass = 0.4
    box.sourceCable.mass = 0.11
    box.outputCable.mass = 0.07
    plan.sources = [box]
    near(totalMass(plan), 114 + 2.4 + 0.58, 1e-9)
    plan.sources = [{ id: 'source-1', name: 'Swap', kind: 'swap' }]
    near(totalMass(plan), 114, 1e-12)
  })
})
