import { simulate } from '../src/model/forecast/simulate'
import type { Outcome } from '../src/model/forecast/outcome'
import { defaultPlan } from '../src/model/plan/defaults'
import { everyDay, type Timetable } from '../src/model/plan/day-schema'
import type { Plan } from '../src/model/plan/schema'
import { forcesAt, noForces, type Forces, type StepConditions } from '../src/model/ride/forces'
import { kilometresPerHour } from '../src/model/units'
import { courseRoute, type Course } from './routes'

/** Conditions of a step on which nothing acts but the bearings, and a limit that does not bind. */
export const idleStep: StepConditions = {
  length: 10,
  inertialMass: 100,
  perMass: 1 / 100,
  halfDensityArea: 0,
  headWind: 0,
  sideWind: 0,
  rolling: 0,
  weightAlong: 0,
  riderPower: 0,
  coastingSpeed: 100,
  assistRatio: 0,
  peakPower: 1e6,
  torqueForce: 1e6,
  limitSpeed: 100,
  packPower: 1e6,
  riderEfficiency: 1,
  motorEfficiency: 1,
  settingOff: 1e6,
  lossFactor: 1,
}

/** Forces at a speed, m/s, under conditions that differ from `idleStep`. */
export function forces(change: Partial<StepConditions>, speed: number): Forces {
  const step = { ...idleStep, ...change }
  step.perMass = 1 / step.inertialMass
  const into = noForces()
  forcesAt(step, speed, into)
  return into
}

/** The default plan with all that varies along the way taken out: no wind, motor, fade, effort on climbs, humidity or cap but 90 km/h. */
export function plainPlan(change: (plan: Plan) => void = () => {}): Plan {
  const plan = defaultPlan()
  Object.assign(plan.weather, { windSpeed: 0, humidity: 0, temperatureCelsius: 15 })
  Object.assign(plan.rider, { climbFactor: 1, fade: 0, coastingSpeed: 70 * kilometresPerHour, smallHalts: 0 })
  Object.assign(plan.assist, { ratio: 0, climbRatio: 0 })
  plan.bike.topSpeed = 90 * kilometresPerHour
  change(plan)
  return plan
}

/** A ride over a course made of formulas. */
export const rideOver = (course: Course, plan: Plan): Outcome => simulate(courseRoute(course), plan)

/** Root of a function that changes sign between two places, by bisection to the last bit. */
export function root(f: (x: number) => number, low: number, high: number): number {
  const rising = f(high) > 0
  for (let k = 0; k < 200; k++) {
    const middle = 0.5 * (low + high)
    if (f(middle) > 0 === rising) high = middle
    else low = middle
  }
  return 0.5 * (low + high)
}

/** Each hour of the day, 40 minutes over the water. */
export const hourly: Timetable = {
  kind: 'every',
  interval: 3600,
  from: '06:00',
  until: '22:00',
  days: [...everyDay],
  boardBefore: 300,
  length: 2400,
}
