import { describe, expect, it } from 'vitest'
import { bendLimits, brakeFor } from '../../src/model/ride/bends'
import { imbalance, workIn } from '../balance'
import { coasting, walking, walkingSpeed } from '../../src/model/ride/motion'
import { electricalPower, mechanicalPower } from '../../src/model/ride/motor'
import { climbShare, freshnessAfter } from '../../src/model/ride/rider'
import { near, within } from '../asserts'
import { forces, plainPlan, rideOver } from '../rides'
import { courseRoute } from '../routes'

const kmh = 1 / 3.6

describe('shares', () => {
  it.each([
    [22, 1],
    [23, 1],
    [24, 0.5],
    [25, 0],
    [30, 0],
  ])('at %i km/h of 25 the motor gives %d of its power', (speed, share) =>
    near(forces({ riderPower: 100, assistRatio: 1, limitSpeed: 25 * kmh }, speed * kmh).motor, 100 * share, 1e-9),
  )
  it.each([
    [-0.1, 0],
    [0.01, 0],
    [0.03, 0.5],
    [0.05, 1],
    [0.2, 1],
  ])('climbShare of a gradient of %d is %d', (gradient, share) => near(climbShare(gradient), share, 1e-12))
  it.each([
    [30, 100],
    [31, 50],
    [32, 0],
    [50, 0],
  ])('at %i km/h, coasting from 30, %d of 100 W are pedalled', (speed, power) =>
    near(forces({ riderPower: 100, coastingSpeed: 30 * kmh }, speed * kmh).rider, power, 1e-9),
  )
  it('freshnessAfter goes on as the exponential of the work', () => {
    let freshness = 1
    for (let k = 0; k < 1000; k++) freshness = freshnessAfter(freshness, 0.0005)
    within(freshness, Math.exp(-0.5), 1e-11, 'freshness')
  })
})

describe('motor', () => {
  it('mechanicalPower is the inverse of electricalPower', () => {
    for (const power of [1, 50, 250, 750])
      for (const factor of [0.3, 1, 3]) within(mechanicalPower(electricalPower(power, factor), factor), power, 1e-12)
  })
  it('takes nothing while it gives nothing', () => {
    expect(electricalPower(0, 1)).toBe(0)
    expect(mechanicalPower(0, 1)).toBe(0)
    expect(mechanicalPower(-5, 1)).toBe(0)
  })
  it('gives the least of ratio, peak, torque and what the pack allows', () => {
    const base = { riderPower: 100, assistRatio: 3 }
    const power = (change: object) => forces({ ...base, ...change }, 5).motor
    near(power({}), 300, 1e-9)
    near(power({ peakPower: 250 }), 250, 1e-9)
    near(power({ torqueForce: 30 }), 150, 1e-9)
    near(power({ packPower: 40 }), 40, 1e-9)
    near(power({ riderPower: 0 }), 0, 0)
    near(power({ coastingSpeed: 3 }), 0, 0)
  })
})

describe('limits', () => {
  it('brakes before a halt and a bend, and takes the tighter of both', () => {
    const { stations } = courseRoute({ length: 200, curvature: (d) => (d === 150 ? 0.1 : 0) })
    const limits = bendLimits(stations, 2, 10)
    brakeFor(limits, stations, 20, 1, undefined, true)
    limits[20] = 0
    brakeFor(limits, stations, 20, 1, undefined)
    expect(limits[20]).toBe(0)
    near(limits[15]!, 20, 1e-9)
    near(limits[19]!, 20, 1e-9)
    near(limits[10]!, 100, 1e-9)
    expect(limits[5]).toBe(100)
  })
  it('is for one halt up to the first station that needs no braking for it, and for all of a route up to its start', () => {
    const { stations } = courseRoute({ length: 50 })
    const braked = (all: boolean | undefined, grip?: Float64Array) => {
      const limits = Float64Array.of(400, 30, 10, 90, 36, 0)
      brakeFor(limits, stations, 5, 1, grip, all)
      return [...limits]
    }
    // Each 10 m at 1 m/s² is 20 m²/s².
    expect(braked(undefined)).toEqual([400, 30, 10, 40, 20, 0])
    expect(braked(true)).toEqual([50, 30, 10, 40, 20, 0])
    expect(braked(true, Float64Array.of(1, 1, 1, 0.5, 0.25, 1))).toEqual([50, 30, 10, 15, 5, 0])
  })
  it('in bends are the speed at which the accepted acceleration is reached, up to the top speed', () => {
    const { stations } = courseRoute({ length: 30, curvature: (d) => d / 1000 })
    expect([...bendLimits(stations, 2, 12)]).toEqual([144, 144, 100, 2 / 0.03])
    expect([...bendLimits(stations, 2, 12, Float64Array.of(1, 0.5, 0.5, 1))]).toEqual([144, 100, 50, 2 / 0.03])
  })
})

describe('walking', () => {
  const plan = plainPlan(({ rider }) => (rider.power = 60))
  const hill = rideOver({ length: 400, elevation: (d) => Math.max(0, d - 200) * 0.15 }, plan)

  it('is where the drive cannot hold the hill, at walking pace, and the work is pushed', () => {
    const { columns, books } = hill
    expect(columns.state[35]! & walking).toBe(walking)
    near(columns.speed[35]!, walkingSpeed, 1e-9)
    expect(columns.riderWork[36]).toBe(columns.riderWork[35])
    expect(books.walkingWork).toBeGreaterThan(130 * 9.8 * 20)
    expect(hill.walked).toBeGreaterThan(150)
    expect(hill.walked).toBeLessThan(205)
  })
  it('leaves the books balanced up to a halt on the hill', () =>
    near(imbalance(hill.books) / workIn(hill.books), 0, 1e-5))
  it('needs no push on the flat', () => expect(rideOver({ length: 400 }, plan).walked).toBe(0))
})

describe('coasting', () => {
  it('is where neither rider nor motor gives power', () => {
    const plan = plainPlan(({ assist, rider }) => {
      assist.ratio = 1
      rider.coastingSpeed = 25 * kmh
    })
    const { columns } = rideOver({ length: 2000, elevation: (d) => -0.06 * d }, plan)
    expect(columns.state[100]! & coasting).toBe(coasting)
    expect(columns.riderWork[101]).toBe(columns.riderWork[100])
    expect(columns.motorWork[101]).toBe(columns.motorWork[100])
  })
})

describe('a crossing', () => {
  it('takes its time, no energy, and is left from standstill', () => {
    const plan = plainPlan(
      (plan) =>
        (plan.crossings = [{ timetable: { kind: 'duration', duration: 1800 }, source: null, fillFirst: 'most' }]),
    )
    const { columns, halts, route } = rideOver({ length: 4000, crossings: [2000] }, plan)
    const [halt] = halts
    expect(halt).toMatchObject({ kind: 'crossing', gap: 0 })
    const before = halt!.station
    near(columns.time[before + 1]! - columns.time[before]!, 1800, 1e-9)
    expect(columns.drained[before + 1]).toBe(columns.drained[before])
    expect(columns.ridingTime[before + 1]).toBe(columns.ridingTime[before])
    expect(columns.speed[before + 1]).toBe(0)
    expect(route.stations.distance[before + 1]).toBe(2000)
  })
})
