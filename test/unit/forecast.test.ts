import { describe, expect, it } from 'vitest'
import { changeStop } from '../../src/model/plan/edit'
import { Frames } from '../../src/model/forecast/frames'
import { simulate } from '../../src/model/forecast/simulate'
import { prepare } from '../../src/model/forecast/prepare'
import { Ride as RideUnderWay } from '../../src/model/forecast/ride'
import { Tally, tallyOf } from '../../src/model/forecast/tally'
import { leftAfter } from '../../src/model/forecast/outcome'
import { defaultPack, defaultStop } from '../../src/model/plan/defaults'
import type { WeatherHour } from '../../src/model/plan/day-schema'
import { addStretch, changeStretch } from '../../src/model/plan/edit-stretches'
import type { Plan, PlanStretch } from '../../src/model/plan/schema'
import { airDensity, pressureAt, wheelDragArea } from '../../src/model/ride/air'
import { coasting, packLimits, unpowered, walking } from '../../src/model/ride/motion'
import { near, within } from '../asserts'
import { plainPlan, rideOver } from '../rides'
import { courseRoute, pieces } from '../routes'

type Ride = ReturnType<typeof rideOver>
/** Mean power of a step, W, by a column of work. */
const power = ({ columns }: Ride, work: Float64Array, station: number) =>
  (work[station + 1]! - work[station]!) / (columns.ridingTime[station + 1]! - columns.ridingTime[station]!)
const rest = (distance: number, duration: number) => ({
  ...defaultStop(`stop-${distance}`, 'Inn', distance, null),
  kind: 'rest' as const,
  duration,
})
const assisted = (change: (plan: Plan) => void = () => {}) =>
  plainPlan((plan) => {
    plan.assist.ratio = plan.assist.climbRatio = 1
    change(plan)
  })

describe('a rider who tires', () => {
  const tiring = (change: (plan: Plan) => void = () => {}) =>
    plainPlan((plan) => {
      Object.assign(plan.rider, { power: 180, fade: 0.2, criticalPower: 200 })
      change(plan)
    })

  it('has e^(−c W / CP) of the power left, W being the work in hours of critical power', () => {
    const outcome = rideOver({ length: 60_000 }, tiring())
    for (const station of [500, 2000, 5900]) {
      const hours = outcome.columns.riderWork[station]! / (200 * 3600)
      within(power(outcome, outcome.columns.riderWork, station), 180 * Math.exp(-0.2 * hours), 1e-5, `at ${station}`)
    }
  })

  it('sets out fresh after six hours, and not after less', () => {
    const after = (halt: number) => {
      const outcome = rideOver(
        { length: 60_000 },
        tiring((plan) => (plan.stops = [rest(50_000, halt)])),
      )
      return power(outcome, outcome.columns.riderWork, 5500) / power(outcome, outcome.columns.riderWork, 4900)
    }
    expect(after(6 * 3600)).toBeGreaterThan(1.1)
    expect(after(6 * 3600 - 60)).toBeLessThan(1)
  })
})

describe('small halts', () => {
  it('take their time for each 100 km, evenly, and none while travelling', () => {
    const outcome = rideOver(
      { length: 80_000, crossings: [30_000] },
      plainPlan((plan) => {
        plan.rider.smallHalts = 1800
        plan.crossings = [{ timetable: { kind: 'duration', duration: 600 }, source: null, fillFirst: 'most' }]
      }),
    )
    const { time, ridingTime } = outcome.columns
    near(time[2000]! - ridingTime[2000]!, 360, 1e-6)
    near(time.at(-1)! - ridingTime.at(-1)!, 1440 + 600, 1e-6)
  })
})

describe('effort and assist', () => {
  it('blend from flat to climb between 1 and 5 %', () => {
    const outcome = rideOver(
      pieces([2000, 0], [2000, 0.03], [2000, 0.06]),
      plainPlan((plan) => {
        Object.assign(plan.rider, { power: 100, climbFactor: 1.4 })
        Object.assign(plan.assist, { ratio: 0.5, climbRatio: 2, peakPower: 600 })
      }),
    )
    const at = (station: number) => [
      power(outcome, outcome.columns.riderWork, station),
      power(outcome, outcome.columns.motorWork, station) / power(outcome, outcome.columns.riderWork, station),
    ]
    for (const [station, rider, ratio] of [
      [350, 120, 1.25],
      [550, 140, 2],
    ] as const) {
      within(at(station)[0]!, rider, 1e-4, 'rider')
      within(at(station)[1]!, ratio, 1e-4, 'assist')
    }
    within(at(100)[0]!, 100, 1e-4, 'on the flat')
  })
})

describe('a slope', () => {
  it('is rolled on with the cosine of its weight: over a length of the map as on the flat', () => {
    const plan = plainPlan()
    const { books } = rideOver(pieces([500, 0], [1000, 0.2], [500, -0.1]), plan)
    // m g h for 150 m, and C m g cos θ for each metre along the slope, which is C m g for each of the map.
    within(books.rolling / books.climbing, (plan.bike.rolling * plan.bike.surfaceFactor * 2000) / 150, 1e-9)
  })
})

describe('stretches', () => {
  const over = (change: Partial<PlanStretch>, planned = assisted()) => {
    const { plan, id } = addStretch(planned, 2000, 4000)
    return rideOver({ length: 6000, heading: () => 0 }, changeStretch(plan, id!, change))
  }
  const plainRide = rideOver({ length: 6000, heading: () => 0 }, assisted())

  it('have a surface of their own: gravel rolls half as hard again as asphalt', () => {
    const asphalt = assisted((plan) => (plan.bike.surfaceFactor = 1))
    const plain = rideOver({ length: 6000 }, asphalt).books.rolling
    within(over({ surface: 'gravel' }, asphalt).books.rolling, plain * (1 + 0.5 / 3), 1e-9)
  })

  it('have an assist ratio of their own, from their first station to before their last', () => {
    const outcome = over({ assistRatio: 0 })
    const motor = (station: number) => outcome.columns.motorWork[station + 1]! - outcome.columns.motorWork[station]!
    expect([200, 300, 399].map(motor)).toEqual([0, 0, 0])
    for (const station of [150, 199, 400]) expect(motor(station)).toBeGreaterThan(90)
  })

  it('have a speed limit, kept at both ends', () => {
    const { columns, limits } = over({ speedLimit: 4 })
    near(Math.max(...columns.speed.slice(200, 401)), 4, 1e-6)
    expect(columns.speed[195]).toBeGreaterThan(4.2)
    expect(columns.speed[410]).toBeGreaterThan(4.2)
    near(limits[198]! - limits[199]!, limits[199]! - limits[200]!, 1e-9, 'evenly braked for')
  })

  it('have shelter from the wind', () => {
    const windy = assisted((plan) => Object.assign(plan.weather, { windSpeed: 6, windFromDegrees: 0 }))
    const [open, sheltered] = [over({ shelter: 1 }, windy), over({ shelter: 0 }, windy)]
    const air = (outcome: Ride) => outcome.columns.speed[350]!
    expect(air(sheltered)).toBeGreaterThan(air(open) + 0.5)
    near(air(sheltered), plainRide.columns.speed[350]!, 1e-3, 'as without wind')
    near(sheltered.columns.speed[150]!, open.columns.speed[150]!, 1e-9, 'not before it')
  })
})

describe('air and road by the hour', () => {
  const hour = (time: string, change: Partial<WeatherHour> = {}): WeatherHour => ({
    time: `2027-06-19T${time}`,
    temperatureCelsius: null,
    windSpeed: null,
    windFromDegrees: null,
    rainPerHour: null,
    pressure: null,
    ...change,
  })
  const course = courseRoute({
    length: 30_000,
    elevation: (d) => 400 + 300 * Math.sin(d / 3000),
    heading: (d) => 1 + d / 4000,
  })
  const plan = (table: Plan['weather']['table']) =>
    assisted((plan) => {
      plan.start = '2027-06-19T09:00'
      plan.zone = 'Europe/Rome'
      Object.assign(plan.weather, { windSpeed: 5, windFromDegrees: 70, humidity: 0.6, temperatureCelsius: 12, table })
    })

  it('that say what the one weather says come to the same on hills and bends, with wind from all sides', () => {
    const told = [hour('06:00', { windSpeed: 5, windFromDegrees: 70, temperatureCelsius: 12, rainPerHour: 0 })]
    const one = simulate(course, plan([]))
    const hourly = simulate(course, plan([{ name: 'Start', distance: 0, hours: told }]))
    // The one weather reads the density of the air in a table of 20 m of height.
    within(hourly.columns.time.at(-1)!, one.columns.time.at(-1)!, 1e-6, 'time')
    within(hourly.electric.drained, one.electric.drained, 1e-5, 'energy')
    within(hourly.books.air, one.books.air, 1e-5, 'air')
  })

  it('have the density of their pressure and warmth at the height of the road', () => {
    const still = assisted((plan) => {
      Object.assign(plan.weather, { humidity: 0.4, temperatureCelsius: 25, seaLevelPressure: 99_000, lapseRate: 0.006 })
    })
    const high = rideOver({ length: 8000, elevation: () => 1500 }, still)
    // At the steady speed: half density, area and the speed squared, for each metre.
    const density = airDensity(pressureAt(1500, 99_000), 25, 0.4)
    const speed = high.columns.speed[600]!
    const before = rideOver({ length: 6000, elevation: () => 1500 }, still).books.air
    const step = high.books.air - before
    within(step, 2000 * 0.5 * density * (still.bike.dragArea + wheelDragArea) * speed ** 2, 2e-3)
  })
})

describe('what is left of the charge', () => {
  const low = (charge: number, change: (plan: Plan) => void = () => {}) =>
    assisted((plan) => {
      plan.battery.packs = [{ ...defaultPack('pack-1', 'One'), charge }]
      plan.battery.reserve = 0.1
      change(plan)
    })

  it('passes the reserve, and is empty, where it does first', () => {
    const outcome = rideOver({ length: 60_000 }, low(0.25))
    const { left } = outcome.columns
    const at = outcome.route.stations.distance
    near(outcome.reserve, 0.1 * outcome.usable, 1e-6)
    expect(outcome.reserveAt).toBe(at[left.findIndex((energy) => energy < outcome.reserve)])
    expect(outcome.emptyAt).toBe(at[left.findIndex((energy) => energy === 0)])
    expect(outcome.columns.motorWork.at(-1)).toBe(outcome.columns.motorWork[at.indexOf(outcome.emptyAt!)])
    expect(outcome.leftAtStart).toBe(left[0])
    const full = rideOver({ length: 5000 }, low(1))
    expect([full.reserveAt, full.emptyAt]).toEqual([undefined, undefined])
    // Without a reserve it is passed where the pack is empty.
    const none = rideOver(
      { length: 60_000 },
      low(0.25, (plan) => (plan.battery.reserve = 0)),
    )
    expect(none.reserveAt).toBe(none.emptyAt)
  })

  it('goes to the motor with its losses, to electronics and lights, and to the pack’s own resistance', () => {
    const { electric, columns } = rideOver(
      { length: 30_000 },
      low(1, ({ assist }) => Object.assign(assist, { electronics: 5, lights: 7, lightsOn: 'always' })),
    )
    near(electric.electronics, 12 * columns.ridingTime.at(-1)!, 1e-6)
    within(electric.motorWork + electric.motorLoss + electric.electronics + electric.packLoss, electric.drained, 2e-4)
    expect(electric.motorLoss).toBeGreaterThan(0.05 * electric.motorWork)
    expect(electric.motorWork).toBe(columns.motorWork.at(-1))
    expect(electric.drained).toBe(columns.drained.at(-1))
  })

  it('is told by the step: limited by a weak pack, on foot for want of charge, or coasting', () => {
    const weak = rideOver(
      pieces([1000, 0], [1000, 0.05]),
      low(1, (plan) => {
        plan.battery.packs[0]!.dischargeCurrent = 2
        plan.assist.climbRatio = 4
      }),
    )
    expect(weak.columns.state[150]! & packLimits).toBe(packLimits)
    expect(weak.packLimited).toBeGreaterThan(900)
    const spent = rideOver(
      pieces([1000, 0], [500, 0.15], [500, -0.08]),
      low(0.05, ({ assist }) => (assist.climbRatio = 3)),
    )
    expect(spent.columns.state[120]! & (walking | unpowered)).toBe(walking | unpowered)
    near(spent.walked, 500, 60)
    const down = rideOver(
      pieces([1000, 0], [3000, -0.08]),
      low(1, (plan) => (plan.rider.coastingSpeed = 8)),
    )
    expect(down.columns.state[250]! & coasting).toBe(coasting)
    expect(down.packLimited).toBe(0)
  })
})

describe('a crossing without a sailing', () => {
  it('takes eight days, and is told as having none', () => {
    const { halts } = rideOver(
      { length: 10_000, crossings: [5000] },
      plainPlan((plan) => {
        plan.crossings = [
          {
            timetable: { kind: 'list', times: ['07:00'], days: [], boardBefore: 300, length: 600 },
            source: null,
            fillFirst: 'most',
          },
        ]
      }),
    )
    near(halts[0]!.depart - halts[0]!.arrive, 8 * 86_400, 1e-6)
    expect(halts[0]!.sailing).toBeUndefined()
    expect(halts[0]!.gap).toBe(0)
  })

  it('with one leaves with it', () => {
    const outcome = rideOver(
      { length: 10_000, crossings: [5000] },
      plainPlan((plan) => {
        plan.start = '2027-06-19T06:00'
        plan.zone = 'Europe/Rome'
        plan.crossings = [
          {
            timetable: { kind: 'list', times: ['07:00'], days: [1, 2, 3, 4, 5, 6, 7], boardBefore: 300, length: 600 },
            source: null,
            fillFirst: 'most',
          },
        ]
      }),
    )
    near(outcome.halts[0]!.depart, 3600 + 600, 1e-6)
    expect(leftAfter(outcome, outcome.halts[0]!.station)).toBe(outcome.halts[0]!.leftAfter)
  })
})

describe('the forecasts of a gesture', () => {
  const [here, there] = [courseRoute({ length: 3000 }), courseRoute({ length: 4000 })]
  const plans = [100, 120, 140, 160, 180].map((power) => assisted((plan) => (plan.rider.power = power)))
  const finish = ({ columns }: Ride) => columns.time.at(-1)

  it('are those of one at a time, and each is read until the one after the next', () => {
    const frames = new Frames()
    let before: Ride | undefined
    for (const plan of plans) {
      const next = frames.next(here, plan, [])
      expect(next.columns).toEqual(simulate(here, plan).columns)
      if (before !== undefined) expect(finish(before)).toBe(finish(simulate(here, before.plan)))
      before = next
    }
  })

  it('are whole where a stop is moved while the bike is braked for it, far before', () => {
    const steep = courseRoute({ length: 4000, elevation: (d) => 400 - 0.06 * d })
    const plan = assisted((plan) => {
      plan.stops = [rest(2000, 600)]
      plan.bike.braking = 0.5
    })
    const frames = new Frames()
    for (const distance of [2000, 2900, 2890, 1600, 3400, 3397]) {
      const moved = changeStop(plan, plan.stops[0]!.id, { distance })
      expect(frames.next(steep, moved, [])).toEqual(simulate(steep, moved))
    }
  })

  it('leave one alone that is kept, those of another route, and all once the gesture has ended', () => {
    const frames = new Frames()
    const kept = frames.next(here, plans[0]!, [])
    for (const plan of plans.slice(1)) frames.next(here, plan, [kept])
    expect(finish(kept)).toBe(finish(simulate(here, plans[0]!)))
    const last = frames.next(here, plans[0]!, [kept])
    for (const plan of plans.slice(1)) frames.next(there, plan, [kept])
    expect(finish(last)).toBe(finish(simulate(here, plans[0]!)))
    const ended = frames.next(there, plans[2]!, [kept])
    frames.end()
    for (const plan of plans) frames.next(there, plan, [kept])
    expect(finish(ended)).toBe(finish(simulate(there, plans[2]!)))
  })

  it('write the columns of one that nobody reads any more anew', () => {
    const frames = new Frames()
    const made = plans.map((plan) => frames.next(here, plan, []).columns.time)
    expect(made[2]).toBe(made[0])
    expect(made[3]).toBe(made[1])
    expect(made[1]).not.toBe(made[0])
  })
})

describe('a ride in a few numbers', () => {
  it('has those of the whole forecast', () => {
    const route = courseRoute(pieces([4000, 0], [1000, 0.05], [2000, -0.02]))
    const plan = assisted((plan) => {
      plan.stops = [rest(2000, 600)]
      plan.battery.packs = [{ ...defaultPack('pack-1', 'One'), charge: 0.5 }]
    })
    const { columns, books, electric } = simulate(route, plan)
    const tally = tallyOf(route, plan)
    expect(tally).toMatchObject({
      time: columns.time.at(-1),
      ridingTime: columns.ridingTime.at(-1),
      riderWork: books.riderWork,
      drained: electric.drained,
      left: columns.left.at(-1),
      least: Math.min(...columns.left),
    })
    expect(tally.leastAt).toBe(columns.left.indexOf(Math.min(...columns.left)))
    const stations = [0, 200, 300, 700]
    const column = () => new Float64Array(stations.length)
    const told = new Tally(stations, column(), column(), column())
    const prepared = prepare(route, plan)
    const ride = new RideUnderWay(prepared)
    told.run(prepared, ride, ride.state())
    expect([...told.arriveTime]).toEqual(stations.map((station) => columns.time[station]))
    expect([...told.charge]).toEqual(stations.map((station) => columns.left[station]))
    expect([...told.departTime]).toEqual(
      stations.map((station) => columns.time[station]! + (station === 200 ? 600 : 0)),
    )
  })
})
