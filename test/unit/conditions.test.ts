import { describe, expect, it } from 'vitest'
import { prepare } from '../../src/model/forecast/prepare'
import { Ride } from '../../src/model/forecast/ride'
import { ridingMass } from '../../src/model/forecast/mass'
import { departure, leftAfter, leftAtFinish, type Halt, type Outcome } from '../../src/model/forecast/outcome'
import type { WeatherPlace } from '../../src/model/plan/day-schema'
import { defaultPlan } from '../../src/model/plan/defaults'
import type { Plan, PlanStretch } from '../../src/model/plan/schema'
import { airDensity, pressureAt } from '../../src/model/ride/air'
import { electricalPower } from '../../src/model/ride/motor'
import { near, within } from '../asserts'
import { courseRoute } from '../routes'

const heading = (d: number) => 0.4 + d / 300
const elevation = (d: number) => 600 + 40 * Math.sin(d / 250)
const route = courseRoute({ length: 3000, latitude: 47, elevation, heading, crossings: [1500] })
const { stations } = route

const stretch = (id: string, start: number, end: number, more: Partial<PlanStretch>): PlanStretch => ({
  id,
  name: id,
  start,
  end,
  surface: null,
  shelter: null,
  speedLimit: null,
  assistRatio: null,
  ...more,
})

function planned(change: (plan: Plan) => void = () => {}): Plan {
  const plan = defaultPlan()
  Object.assign(plan.rider, { power: 140, climbFactor: 1.3 })
  Object.assign(plan.assist, { ratio: 0.8, climbRatio: 2.4, peakPower: 450, electronics: 6, lights: 4 })
  Object.assign(plan.bike, { surfaceFactor: 1.1, rolling: 0.007, dragArea: 0.5, rotatingMass: 2 })
  Object.assign(plan.weather, { windSpeed: 5, windFromDegrees: 70, temperatureCelsius: 9, humidity: 0.8 })
  Object.assign(plan.weather, { seaLevelPressure: 100_200, lapseRate: 0.0055, surroundings: 'farmland with hedges' })
  plan.stretches = [
    stretch('wood', 400, 800, { shelter: 0.3 }),
    stretch('mill', 900, 1200, { surface: 'gravel', assistRatio: 1.7 }),
  ]
  change(plan)
  return plan
}

/** What must hold at each step, written anew. */
function check(plan: Plan, air: (station: number, height: number) => Air): void {
  const prepared = prepare(route, plan)
  const ride = new Ride(prepared)
  ride.freshness = 0.9
  ride.time = 1800
  const mass = ridingMass(plan, route.length)
  const { conditions } = prepared
  const { step } = conditions
  near(step.inertialMass, mass + 2, 1e-9)
  near(step.perMass, 1 / (mass + 2), 1e-15)
  near(step.torqueForce, plan.assist.torque / plan.bike.wheelRadius, 1e-12)
  // Normal gravity at 47° (9.80806 m/s² by Somigliana's formula, NIMA TR8350.2) at 600 m, of which the height takes 3.086e-6 a metre.
  const gravity = 9.808061 - 3.086e-6 * 600
  for (let i = 0; i + 1 < stations.distance.length; i++) {
    conditions.prepare(i, ride)
    const from = stations.distance[i]!
    const run = stations.distance[i + 1]! - from
    if (run === 0) {
      expect(step.length).toBe(0)
      continue
    }
    const rise = stations.elevation[i + 1]! - stations.elevation[i]!
    const length = Math.hypot(run, rise)
    const steepness = Math.min(1, Math.max(0, (rise / run - 0.01) / 0.04))
    const inMill = from >= 900 && from < 1200
    const { density, head, side, wet } = air(i, 0.5 * (stations.elevation[i]! + stations.elevation[i + 1]!))
    // Gusts from the side and ahead at 1.5 m over that at 10 m: the logarithmic profile over hedges, 0.25 m.
    const share = (Math.log(1.5 / 0.25) / Math.log(10 / 0.25)) * (from >= 400 && from < 800 ? 0.3 : 1)
    const what = `at ${from} m`
    within(step.length, length, 1e-12, `length ${what}`)
    within(step.weightAlong, mass * gravity * (rise / length), 2e-5, `weight ${what}`)
    within(step.rolling, 0.007 * (inMill ? 1.5 : 1.1) * wet * mass * gravity * (run / length), 2e-5, `rolling ${what}`)
    within(step.riderPower, 140 * (1 + 0.3 * steepness) * 0.9, 1e-9, `power ${what}`)
    within(step.assistRatio, inMill ? 1.7 : 0.8 + 1.6 * steepness, 1e-9, `assist ${what}`)
    // The wheels' 0.0044 m²: Martin et al. 1998.
    within(step.halfDensityArea, 0.5 * density * 0.5044, 3e-6, `air ${what}`)
    near(step.headWind, share * head, 1e-9, `head wind ${what}`)
    near(step.sideWind, share * side, 1e-9, `side wind ${what}`)
  }
}

interface Air {
  density: number
  head: number
  side: number
  wet: number
}

/** Wind of a speed, m/s, from a direction, degrees, met at a station: from ahead and from the right. */
function met(speed: number, fromDegrees: number, station: number): Pick<Air, 'head' | 'side'> {
  const off = (fromDegrees * Math.PI) / 180 - stations.heading[station]!
  return { head: speed * Math.cos(off), side: speed * Math.sin(off) }
}

describe('the conditions of each step', () => {
  it('follow from route and plan where one weather holds all day', () => {
    check(planned(), (station, height) => {
      const celsius = 9 - 0.0055 * (height - stations.elevation[0]!)
      return { density: airDensity(pressureAt(height, 100_200), celsius, 0.8), ...met(5, 70, station), wet: 1 }
    })
  })

  it('follow from the hour where a table holds', () => {
    const hours = (celsius: number, rain: number): WeatherPlace => ({
      name: 'mill',
      distance: 0,
      hours: ['2027-06-19T06:00', '2027-06-19T07:00'].map((time, k) => ({
        time,
        temperatureCelsius: celsius + 4 * k,
        windSpeed: 6,
        windFromDegrees: 310,
        pressure: 100_900,
        rainPerHour: rain,
      })),
    })
    const plan = planned((plan) => {
      plan.weather.table = [hours(10, 0.3)]
      plan.wet.rolling = 1.2
    })
    const prepared = prepare(route, plan)
    const there = { seaLevelCelsius: 0, windEast: 0, windNorth: 0, pressure: 0, wetness: 0 }
    check(plan, (station, height) => {
      prepared.weather.at({ time: 1800, distance: stations.distance[station]! }, there)
      // Half-way between two hours of 10 and 14 °C.
      const celsius = there.seaLevelCelsius - 0.0055 * height
      near(celsius + 0.0055 * (height - stations.elevation[0]!), 12, 0.01)
      const density = airDensity(pressureAt(height, there.pressure), celsius, 0.8)
      return { density, ...met(6, 310, station), wet: 1 + 0.2 * there.wetness }
    })
  })

  it('let the motor have what the packs give beside electronics and lights', () => {
    const packPower = (change: (plan: Plan) => void) => {
      const prepared = prepare(route, planned(change))
      const ride = new Ride(prepared)
      prepared.conditions.prepare(0, ride)
      return { power: prepared.conditions.step.packPower, most: ride.batteries.inUse.most }
    }
    expect(packPower(() => {}).power).toBe(450)
    const weak = packPower(({ battery }) => battery.packs.forEach((pack) => (pack.dischargeCurrent = 6)))
    expect(weak.most).toBeLessThan(300)
    within(electricalPower(weak.power, planned().assist.lossFactor), weak.most - 10, 1e-9)
    // One that gives no more than electronics and lights take, 10 W, is spent.
    const spent = [0.2, 0.3].map((dischargeCurrent) => {
      const plan = planned(({ battery }) => battery.packs.forEach((pack) => Object.assign(pack, { dischargeCurrent })))
      const { inUse } = new Ride(prepare(route, plan)).batteries
      return [inUse.spent, inUse.most > 10]
    })
    expect(spent).toEqual([
      [true, false],
      [false, true],
    ])
    const empty = packPower(({ battery }) => battery.packs.forEach((pack) => (pack.charge = 0)))
    expect(empty.power).toBe(0)
  })
})

describe('what an outcome says of a station', () => {
  const halt = (station: number, leftAfter: number, depart: number) => ({ station, leftAfter, depart }) as Halt
  const outcome = {
    columns: { left: Float64Array.of(9, 8, 7, 6), time: Float64Array.of(0, 10, 20, 30) },
    halts: [halt(1, 12, 100), halt(1, 13, 200), halt(2, 14, 300)],
  } as unknown as Outcome

  it('is that after the last halt there, else that on arrival', () => {
    expect([0, 1, 2, 3].map((station) => leftAfter(outcome, station))).toEqual([9, 13, 14, 6])
    expect([0, 1, 2, 3].map((station) => departure(outcome, station))).toEqual([0, 200, 300, 30])
    expect(leftAtFinish(outcome)).toBe(6)
    expect(leftAtFinish({ ...outcome, halts: [halt(3, 5, 40)] })).toBe(5)
  })
})
