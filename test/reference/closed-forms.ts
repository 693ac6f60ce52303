import { wheelDragArea } from '../../src/model/ride/air'
import type { Outcome } from '../../src/model/forecast/outcome'
import type { Plan } from '../../src/model/plan/schema'
import { kilometresPerHour } from '../../src/model/units'
import { plainPlan, rideOver, root } from '../rides'
import type { ReferenceCheck } from './check'

/** Gravity at 45° and sea level, m/s², and density of dry air at 15 °C and sea level, kg/m³, as the standards print them. */
const gravity = 9.8061977694
const density = 1.225
/** Bearing friction, N and N s/m: Martin et al. 1998, from memory. */
const bearing = 0.091
const bearingPerSpeed = 0.0087
/** Mass of the plain plan and with its wheels' inertia, kg; its rolling coefficient and drag with the wheels. */
const mass = 85 + 27 + 12 + 6
const inertialMass = mass + 3
const rolling = 0.008
const drag = 0.5 * density * (0.6 + 0.0044)
const efficiency = 0.95

const common = { basis: 'computed from published', unit: 'm/s' } as const
const rest = rolling * mass * gravity + bearing

/** Speed in the middle of a ride, m/s. */
const middleSpeed = ({ columns }: Outcome) => columns.speed[columns.speed.length >> 1]!

/** A ride on which the air does nothing. */
const inVacuum = (change: (plan: Plan) => void = () => {}) =>
  plainPlan((plan) => {
    plan.bike.dragArea = -wheelDragArea
    change(plan)
  })

/** Terminal speed down a slope without pedalling: the positive root of a (v + w)² + b v + c = 0. */
function terminal(slope: number, wind: number): number {
  const cosine = 1 / Math.sqrt(1 + slope * slope)
  const b = bearingPerSpeed + 2 * drag * wind
  const c = drag * wind * wind + bearing + mass * gravity * cosine * (rolling - slope)
  return (-b + Math.sqrt(b * b - 4 * drag * c)) / (2 * drag)
}

/** Wind of the 10 m forecast that is 1 m/s at the rider over this roughness. */
const perRiderWind = Math.log(10 / 0.1) / Math.log(1.5 / 0.1)

// The air thickens on the way down and the speed lags a little behind it, hence a tenth of a percent.
const coasting = [0.02, 0.03, 0.04, 0.05, 0.06]
  .flatMap((slope) => [-2, 0, 1, 3].map((wind) => [slope, wind] as const))
  .filter(([slope, wind]) => terminal(slope, wind) < 80 * kilometresPerHour && terminal(slope, wind) > 3)
  .map(([slope, wind]): ReferenceCheck => ({
    ...common,
    quantity: 'terminal speed, coasting down',
    sample: `${100 * slope} %, head wind ${wind} m/s`,
    source: 'closed form: quadratic of weight, rolling, bearings and air',
    expected: terminal(slope, wind),
    ours: () => {
      const plan = plainPlan(({ rider, weather }) => {
        rider.power = 0
        Object.assign(weather, {
          windSpeed: Math.abs(wind) * perRiderWind,
          windFromDegrees: wind < 0 ? 180 : 0,
          lapseRate: 0,
        })
      })
      // The middle lies at sea level.
      return middleSpeed(rideOver({ length: 6000, elevation: (d) => (3000 - d) * slope }, plan))
    },
    tolerance: 0.001 * terminal(slope, wind),
  }))

/** Steady speed on the flat for a power at the wheel by speed, W; side and head wind in m/s. */
const steady = (power: (speed: number) => number, head = 0, side = 0) =>
  root((v) => (drag * Math.hypot(v + head, side) * (v + head) + bearingPerSpeed * v + rest) * v - power(v), 1, 20)

const rider = 120 * efficiency
const taper = (v: number) => Math.min(1, Math.max(0, (25 / 3.6 - v) / (2 / 3.6)))

const steadySpeeds = (
  [
    ['120 W', () => {}, steady(() => rider)],
    [
      '120 W and a motor of half that at the hub',
      ({ assist }: Plan) => Object.assign(assist, { ratio: 0.5, climbRatio: 0.5, place: 'hub' }),
      steady((v) => rider + 60 * taper(v)),
    ],
    [
      '200 W and as much motor, within the fade-out at 25 km/h',
      (plan: Plan) => {
        plan.rider.power = 200
        Object.assign(plan.assist, { ratio: 1, climbRatio: 1 })
      },
      steady((v) => 200 * efficiency * (1 + taper(v))),
    ],
    [
      '120 W, head wind 2 m/s',
      ({ weather }: Plan) => Object.assign(weather, { windSpeed: 2 * perRiderWind, windFromDegrees: 0 }),
      steady(() => rider, 2),
    ],
    [
      '120 W, side wind 4 m/s',
      ({ weather }: Plan) => Object.assign(weather, { windSpeed: 4 * perRiderWind, windFromDegrees: 90 }),
      steady(() => rider, 0, 4),
    ],
  ] as const
).map(([name, change, expected]): ReferenceCheck => ({
  ...common,
  quantity: 'steady speed on the flat',
  sample: name,
  source: 'root of the cubic power equation, found apart from this code by bisection',
  expected,
  ours: () => middleSpeed(rideOver({ length: 6000 }, plainPlan(change))),
  tolerance: 1e-4,
}))

/**
 * Time, s, and way, m, of an acceleration at constant power P against F + b v from standstill, first at 0.6 m/s² until the power binds:
 * ∫ m v dv / (P − F v − b v²) and ∫ m v² dv / (P − F v − b v²) by partial fractions.
 */
function acceleration(power: number, speed: number): { time: number; way: number } {
  const b = bearingPerSpeed
  const root1 = (-rest + Math.sqrt(rest * rest + 4 * b * power)) / (2 * b)
  const root2 = root1 + rest / b
  const from = root((v) => (rest + b * v + inertialMass * 0.6) * v - power, 0.1, 10)
  const upTo = (v: number) => {
    const nearest = Math.log(1 - v / root1)
    const other = Math.log(1 + v / root2)
    const first = (-root1 * nearest - root2 * other) / (root1 + root2)
    const zeroth = (other - nearest) / (root1 + root2)
    return { time: first, way: -v + (root1 - root2) * first + root1 * root2 * zeroth }
  }
  const scale = inertialMass / b
  const [begin, end] = [upTo(from), upTo(speed)]
  return {
    time: from / 0.6 + scale * (end.time - begin.time),
    way: (from * from) / 1.2 + scale * (end.way - begin.way),
  }
}

const accelerations = [20, 50, 100, 200, 400, 800].flatMap((place): ReferenceCheck[] => {
  const ride = () => rideOver({ length: 2000 }, inVacuum()).columns
  const speed = ride().speed[place / 10]!
  const exact = acceleration(rider, speed)
  const source = 'closed form without air: constant power against rolling and bearings, partial fractions'
  return [
    {
      ...common,
      quantity: 'time to gain a speed from standstill, 120 W, without air',
      sample: `that had at ${place} m`,
      source,
      unit: 's',
      expected: exact.time,
      ours: () => ride().time[place / 10]!,
      tolerance: 0.002 * exact.time,
    },
    {
      ...common,
      quantity: 'way to gain a speed from standstill, 120 W, without air',
      sample: `that had at ${place} m`,
      source,
      unit: 'm',
      expected: exact.way,
      ours: () => place,
      tolerance: 0.005 * exact.way,
    },
  ]
})

/** Down a slope of 8 % for 200 m, then level: what follows is a coast-down. */
const intoTheFlat = (plan: Plan) => {
  plan.rider.power = 0
  plan.weather.lapseRate = 0
  return rideOver({ length: 1200, elevation: (d) => Math.max(0, 200 - d) * 0.08 }, plan).columns
}

/** Way of a coast-down from a speed to another against a v² + b v + c: ∫ m v dv / (a v² + b v + c). */
function coastDown(a: number, from: number, to: number): number {
  const b = bearingPerSpeed
  const c = rest
  if (a === 0) return (inertialMass / b) * (from - to - (c / b) * Math.log((c + b * from) / (c + b * to)))
  const disc = Math.sqrt(4 * a * c - b * b)
  const whole = (v: number) =>
    Math.log(a * v * v + b * v + c) / (2 * a) - (b / (a * disc)) * Math.atan((2 * a * v + b) / disc)
  return inertialMass * (whole(from) - whole(to))
}

const coastDowns = (
  [
    ['without air', 0, inVacuum()],
    ['with air', drag, plainPlan()],
  ] as const
).map(([name, a, plan]): ReferenceCheck => {
  const { speed } = intoTheFlat(plan)
  return {
    ...common,
    quantity: 'way of a coast-down on the flat',
    sample: name,
    source: 'closed form: ∫ m v dv over rolling, bearings and air',
    unit: 'm',
    expected: coastDown(a, speed[20]!, speed[40]!),
    ours: () => 200,
    tolerance: 0.2,
  }
})

const coastTime: ReferenceCheck = {
  ...common,
  quantity: 'time of a coast-down on the flat, without air, over 400 m',
  sample: '',
  source: 'closed form: (m/b) ln((F + b v₀)/(F + b v))',
  unit: 's',
  expected: (() => {
    const { speed } = intoTheFlat(inVacuum())
    const b = bearingPerSpeed
    return (inertialMass / b) * Math.log((rest + b * speed[20]!) / (rest + b * speed[60]!))
  })(),
  ours: () => {
    const { time } = intoTheFlat(inVacuum())
    return time[60]! - time[20]!
  },
  tolerance: 0.01,
}

const halt: ReferenceCheck = {
  ...common,
  quantity: 'time of braking from 25 km/h to the finish at 1.5 m/s²',
  sample: '',
  source: 'v/a, elementary mechanics',
  unit: 's',
  expected: (25 * kilometresPerHour) / 1.5,
  ours: () => {
    const plan = plainPlan(({ rider, bike }) => {
      rider.power = 400
      bike.topSpeed = 25 * kilometresPerHour
    })
    const braking = (25 * kilometresPerHour) ** 2 / 3
    const { columns, route } = rideOver({ length: 100 * braking, spacing: braking / 2 }, plan)
    const last = route.stations.distance.length - 1
    return columns.time[last]! - columns.time[last - 2]!
  },
  tolerance: 1e-6,
}

export const closedFormChecks: ReferenceCheck[] = [
  ...coasting,
  ...steadySpeeds,
  ...accelerations,
  ...coastDowns,
  coastTime,
  halt,
]
