import { createRequire } from 'node:module'
import { chemistries } from '../../src/model/battery/chemistry'
import type { Plan } from '../../src/model/plan/schema'
import { kilometresPerHour, milesPerHour } from '../../src/model/units'
import { plainPlan, rideOver } from '../rides'
import type { ReferenceCheck } from './check'

/** By its path, since tsx would follow the compiler's `paths` from the bare name to the declarations alone. */
const { Solver } = createRequire(import.meta.url)('odex/src/odex.js') as typeof import('odex')
/** Its `Outcome.Converged`. */
const converged = 0

/** A course made of smooth formulas: elevation, m, its slope, and heading, radians, at a distance, m. */
export interface Smooth {
  length: number
  elevation: (x: number) => number
  slope: (x: number) => number
  heading: (x: number) => number
}

/** Waves of a few lengths, m, and heights, m. */
export function waves(length: number, parts: readonly (readonly [number, number])[], turns: number): Smooth {
  const over = (f: (k: number, height: number) => number) =>
    parts.reduce((sum, [wavelength, height]) => sum + f((2 * Math.PI) / wavelength, height), 0)
  return {
    length,
    elevation: (x) => 300 + over((k, height) => height * (1 - Math.cos(k * x))),
    slope: (x) => over((k, height) => height * k * Math.sin(k * x)),
    heading: (x) => (2 * Math.PI * turns * x) / length,
  }
}

interface Ridden {
  time: number
  drained: number
  /** At a quarter, half and three quarters of the way: clock, s, and drained energy, J. */
  quarters: { time: number; drained: number }[]
  riderWork: number
  motorWork: number
}

/**
 * The same ride by ODEX (Hairer, Nørsett and Wanner 1993, extrapolated midpoint rule of variable order), from the formulas of the sources:
 * states are time, kinetic energy, charge, rider's and motor's work over the horizontal distance. Everything is written out here; from the
 * model come only the plan and the table of the open-circuit voltage.
 *
 * @param tolerance relative and absolute
 */
export function byOdex(course: Smooth, plan: Plan, tolerance = 1e-9): Ridden {
  const { rider, bike, assist, weather, battery } = plan
  const [pack] = battery.packs
  const mass = rider.mass + bike.mass + bike.luggage + pack!.mass
  const inertial = mass + bike.rotatingMass
  const sin2 = Math.sin(((45 + course.length / 2 / 111_000) * Math.PI) / 180) ** 2
  const heights = Array.from({ length: 2001 }, (_, i) => course.elevation((i * course.length) / 2000))
  const mean = 0.5 * (Math.min(...heights) + Math.max(...heights))
  const gravity =
    ((9.7803253359 * (1 + 0.00193185265241 * sin2)) / Math.sqrt(1 - 0.00669437999014 * sin2)) *
    (1 - (2 * mean * (1 + 0.00335281 + 0.00344979 - 2 * 0.00335281 * sin2)) / 6378137)
  const weight = mass * gravity
  const densityAt = (height: number) => {
    const kelvin = weather.temperatureCelsius - weather.lapseRate * (height - course.elevation(0)) + 273.15
    return (weather.seaLevelPressure * (1 - (0.0065 * height) / 288.15) ** 5.255876) / (287.05287 * kelvin)
  }
  const wind = (weather.windSpeed * Math.log(1.5 / 0.1)) / Math.log(10 / 0.1)
  const windFrom = (weather.windFromDegrees * Math.PI) / 180
  const clamp = (x: number) => Math.min(1, Math.max(0, x))
  const twoKmh = 2 / 3.6

  const { charge: at, voltage } = chemistries[pack!.chemistry].openCircuit
  const openCircuit = (z: number) => {
    let k = 0
    while (k < at.length - 2 && z > at[k + 1]!) k++
    return pack!.series * (voltage[k]! + ((z - at[k]!) * (voltage[k + 1]! - voltage[k]!)) / (at[k + 1]! - at[k]!))
  }
  const ohm = (pack!.series * pack!.cellResistance) / pack!.capacityAh + pack!.wiringResistance
  const coulombs = 3600 * pack!.capacityAh

  const derivative = (x: number, [, kinetic, charge, work]: number[]): number[] => {
    const speed = Math.sqrt((2 * kinetic!) / inertial)
    const slope = course.slope(x)
    const road = Math.sqrt(1 + slope * slope)
    const climb = clamp((slope - 0.01) / 0.04)
    const fade = Math.exp((-rider.fade * work!) / (3600 * rider.criticalPower))
    const pedal =
      rider.power * (1 + (rider.climbFactor - 1) * climb) * fade * clamp(1 - (speed - rider.coastingSpeed) / twoKmh)
    const ratio = assist.ratio + (assist.climbRatio - assist.ratio) * climb
    const motor =
      Math.min(ratio * pedal, assist.peakPower, (assist.torque / bike.wheelRadius) * speed) *
      clamp((assist.limitSpeed - speed) / twoKmh)
    const head = wind * Math.cos(windFrom - course.heading(x))
    const side = wind * Math.sin(windFrom - course.heading(x))
    const air =
      0.5 * densityAt(course.elevation(x)) * (bike.dragArea + 0.0044) * Math.hypot(speed + head, side) * (speed + head)
    const resistance =
      air + 0.091 + 0.0087 * speed + (bike.rolling * bike.surfaceFactor * weight + weight * slope) / road
    const full = (bike.drivetrain * pedal + (assist.place === 'crank' ? bike.drivetrain : 1) * motor) / speed
    const drive = Math.min(full, Math.max(0, resistance + inertial * 0.6))
    const ease = full > 0 ? drive / full : 0
    const mechanical = motor * ease
    const loss = assist.lossFactor * 0.0013 * mechanical * Math.min(mechanical, 200)
    const power = mechanical + loss + assist.electronics + assist.lights
    const rest = openCircuit(charge!)
    const current = (rest - Math.sqrt(rest * rest - 4 * ohm * power)) / (2 * ohm)
    const pace = road / speed
    return [
      pace,
      (drive - resistance) * road,
      (-current / coulombs) * pace,
      pedal * ease * pace,
      mechanical * pace,
      rest * current * pace,
    ]
  }
  const solve = (from: number, state: number[], to: number) => {
    const solver = new Solver(6)
    solver.relativeTolerance = tolerance
    solver.absoluteTolerance = tolerance
    solver.maxSteps = 1e6
    solver.maxStepSize = 100
    const solution = solver.solve(derivative, from, state, to)
    if (solution.outcome !== converged) throw new Error('odex did not converge.')
    return solution.y
  }

  // Out of standstill the drive allows 0.6 m/s² for longer than this; the energy of that instant is neglected.
  const first = 0.01
  const begun = [Math.sqrt((2 * first) / 0.6), inertial * 0.6 * first, pack!.charge, 0, 0, 0]
  // To the place where the ride meets the parabola of the last braking, found by bisection.
  const lastStart = course.length - 100
  const quarters: number[][] = []
  for (const k of [1, 2, 3])
    quarters.push(
      solve(Math.max(first, ((k - 1) * course.length) / 4), quarters.at(-1) ?? begun, (k * course.length) / 4),
    )
  const state = solve((3 * course.length) / 4, quarters.at(-1)!, lastStart)
  const squared = (y: number[]) => (2 * y[1]!) / inertial
  let low = lastStart
  let high = course.length
  for (let k = 0; k < 40; k++) {
    const middle = 0.5 * (low + high)
    if (squared(solve(lastStart, state, middle)) > 2 * bike.braking * (course.length - middle)) high = middle
    else low = middle
  }
  const end = solve(lastStart, state, low)
  const haltTime = Math.sqrt(squared(end)) / bike.braking
  return {
    time: end[0]! + haltTime,
    drained: end[5]! + (assist.electronics + assist.lights) * haltTime,
    quarters: quarters.map((there) => ({ time: there[0]!, drained: there[5]! })),
    riderWork: end[3]!,
    motorWork: end[4]!,
  }
}

const mountain = waves(
  24_000,
  [
    [8000, 60],
    [2400, 14],
    [900, 3],
  ],
  3,
)
const hills = waves(
  40_000,
  [
    [5000, 25],
    [1300, 5],
  ],
  5,
)

const windy = (plan: Plan) => {
  Object.assign(plan.weather, { windSpeed: 5, windFromDegrees: 200 })
  Object.assign(plan.rider, {
    climbFactor: 1.3,
    coastingSpeed: 30 * kilometresPerHour,
    fade: 0.06,
  })
  plan.battery.packs = [{ ...plan.battery.packs[0]!, capacityAh: 30, dischargeCurrent: 60 }]
  plan.battery.temperatureCelsius = 25
}

/** Name, course, plan. Peaks are such that neither the fastest speed downhill nor walking pace is met. */
const rides: [string, Smooth, Plan][] = [
  [
    '24 km of mountain, motor at the crank up to 25 km/h',
    mountain,
    plainPlan((plan) => {
      windy(plan)
      Object.assign(plan.assist, { ratio: 0.5, climbRatio: 2 })
    }),
  ],
  [
    '40 km of hills, motor at the hub up to 28 mph',
    hills,
    plainPlan((plan) => {
      windy(plan)
      plan.rider.coastingSpeed = 40 * kilometresPerHour
      Object.assign(plan.assist, { ratio: 1.5, climbRatio: 2.5, limitSpeed: 28 * milesPerHour, place: 'hub' })
    }),
  ],
  [
    '40 km of hills, motor within its fade-out at 25 km/h',
    hills,
    plainPlan((plan) => {
      windy(plan)
      plan.rider.power = 170
      Object.assign(plan.assist, { ratio: 1, climbRatio: 1 })
    }),
  ],
]

export const odeChecks: ReferenceCheck[] = rides.flatMap(([name, course, plan]): ReferenceCheck[] => {
  const exact = byOdex(course, plan)
  const ours = () => rideOver(course, plan)
  const common = {
    source:
      'du/ds of Martin et al. 1998 and I of Johnson 2002, written out apart from this code, by ODEX (Hairer, Nørsett and Wanner 1993) at 1e-9',
    basis: 'computed from published',
  } as const
  return [
    {
      ...common,
      quantity: 'whole ride: finish time',
      sample: name,
      unit: 's',
      expected: exact.time,
      ours: () => ours().columns.time.at(-1)!,
      tolerance: 0.001 * exact.time,
    },
    {
      ...common,
      quantity: 'whole ride: energy from the pack',
      sample: name,
      unit: 'Wh',
      expected: exact.drained / 3600,
      ours: () => ours().electric.drained / 3600,
      tolerance: (0.001 * exact.drained) / 3600,
    },
    {
      ...common,
      quantity: 'whole ride: motor’s work',
      sample: name,
      unit: 'Wh',
      expected: exact.motorWork / 3600,
      ours: () => ours().books.motorWork / 3600,
      tolerance: (0.001 * exact.motorWork) / 3600,
    },
    {
      ...common,
      quantity: 'whole ride: rider’s work',
      sample: name,
      unit: 'kJ',
      expected: exact.riderWork / 1000,
      ours: () => ours().books.riderWork / 1000,
      tolerance: (0.001 * exact.riderWork) / 1000,
    },
  ]
})
