import { describe, expect, it } from 'vitest'
import { speedLimits } from '../../src/model/ride/bends'
import { imbalance, workIn } from '../../src/model/ride/books'
import { coasting, walking, walkingSpeed } from '../../src/model/ride/integrate'
import { electricalPower, limitShare, mechanicalPower } from '../../src/model/ride/motor'
import { climbShare, fadeShare, pedallingShare } from '../../src/model/ride/rider'
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
  ])('limitShare at %i km/h of 25 is %d', (speed, share) => near(limitShare(speed * kmh, 25 * kmh), share, 1e-12))
  it.each([
    [-0.1, 0],
    [0.01, 0],
    [0.03, 0.5],
    [0.05, 1],
    [0.2, 1],
  ])('climbShare of a gradient of %d is %d', (gradient, share) => near(climbShare(gradient), share, 1e-12))
  it.each([
    [30, 1],
    [31, 0.5],
    [32, 0],
    [50, 0],
  ])('pedallingShare at %i km/h, coasting from 30, is %d', (speed, share) =>
    near(pedallingShare(speed * kmh, 30 * kmh), share, 1e-12),
  )
  it('fades so that its power over time is 1 / (1/P₀ + c t / CP), the solution of dW/dt = P₀ exp(−c W / CP)', () => {
    const [first, critical, fade] = [120, 180, 0.035]
    let work = 0
    for (let second = 0; second < 36_000; second++) {
      const power = first * fadeShare(work, fade, critical)
      work += first * fadeShare(work + power / 2, fade, critical)
    }
    within(first * fadeShare(work, fade, critical), 1 / (1 / first + (fade * 10) / critical), 1e-8, 'after ten hours')
    expect(fadeShare(0, fade, critical)).toBe(1)
  })
})

describe('motor', () => {
  it('mechanicalPower is the inverse of electricalPower', () => {
    for (const power of [1, 50, 250, 750])
      for (const factor of [0.3, 1, 3]) within(mechanicalPower(electricalPower(power, factor), factor), power, 1e-12)
  })
  it('takes nothing while it gives nothing, and gives nothing for less than its own loss', () => {
    expect(electricalPower(0, 1)).toBe(0)
    expect(mechanicalPower(12, 1)).toBe(0)
    expect(mechanicalPower(-5, 1)).toBe(0)
  })
  it('gives the least of ratio, peak, torque and what the pack allows', () => {
    const base = { riderPower: 100, assistRatio: 3 }
    const power = (change: object) => forces({ ...base, ...change }, 5).motor * 5
    near(power({}), 300, 1e-9)
    near(power({ peakPower: 250 }), 250, 1e-9)
    near(power({ torqueForce: 30 }), 150, 1e-9)
    near(power({ packPower: 40 }), 40, 1e-9)
    near(power({ riderPower: 0 }), 0, 0)
    near(power({ coastingSpeed: 3 }), 0, 0)
  })
})

describe('speedLimits', () => {
  it('brakes before a halt and a bend, and takes the tighter of both', () => {
    const { stations } = courseRoute({ length: 200, curvature: (d) => (d === 150 ? 0.1 : 0) })
    const limits = speedLimits(stations, 2, 10, 1, [20])
    expect(limits[20]).toBe(0)
    near(limits[15]!, 20, 1e-9)
    near(limits[19]!, 20, 1e-9)
    near(limits[10]!, 100, 1e-9)
    expect(limits[5]).toBe(100)
  })
})

describe('walking', () => {
  const plan = plainPlan(({ rider }) => (rider.power = 60))
  const hill = rideOver({ length: 400, elevation: (d) => Math.max(0, d - 200) * 0.15 }, plan)

  it('is where the drive cannot hold the hill, at walking pace, and the work is pushed', () => {
    const { columns, books } = hill
    expect(columns.state[35]! & walking).toBe(walking)
    near(columns.speed[35]!, walkingSpeed, 1e-9)
    expect(columns.riderPower[35]).toBe(0)
    expect(books.walkingWork).toBeGreaterThan(130 * 9.8 * 20)
    expect(hill.walked).toBeGreaterThan(150)
    expect(hill.walked).toBeLessThan(205)
  })
  it('leaves the books balanced up to a halt on the hill', () =>
    near(imbalance(hill.books) / workIn(hill.books), 0, 1e-12))
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
    expect(columns.riderPower[100]).toBe(0)
    expect(columns.motorPower[100]).toBe(0)
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
