import { windShare } from '../../src/model/ride/air'
import type { Plan } from '../../src/model/plan/schema'
import { plainPlan, rideOver } from '../rides'
import type { ReferenceCheck } from './check'
import { forcesOn, localGravity, stepOn } from './on-slope'

/** A plan of a mass, kg, in calm air of a density, kg/m³, at sea level. */
const planOf = (mass: number, density: number, change: (plan: Plan) => void = () => {}) =>
  plainPlan((plan) => {
    Object.assign(plan.bike, { mass: mass - 40, luggage: 0 })
    plan.rider.mass = 40
    for (const pack of plan.battery.packs) pack.mass = 0
    plan.weather.seaLevelPressure = (101_325 * density) / 1.225
    change(plan)
  })

/** Inputs of the sample calculation, from memory: 471.8 m in 56.42 s, wind 2.94 m/s from 310° on heading 340°. */
const martinSpeed = 471.8 / 56.42
const martinGradient = 0.003
const martinPlan = planOf(90, 1.2234, ({ rider, bike, weather }) => {
  Object.assign(bike, { dragArea: 0.2565, rolling: 0.0032, drivetrain: 0.97698, rotatingMass: 0.14 / 0.311 ** 2 })
  // The drag area of the paper is that along the axis at the yaw angle, so its wind has no part across.
  Object.assign(weather, {
    windSpeed: (2.94 * Math.cos((30 * Math.PI) / 180)) / windShare(0.1),
    windFromDegrees: 0,
    surroundings: 'farmland with low crops',
  })
  rider.power = 213.16
})
const martin = () => forcesOn(martinGradient, martinPlan, martinSpeed)
const martinStep = () => stepOn(martinGradient, martinPlan)
const bearings = () => martin().resistance - martin().air - martinStep().rolling - martinStep().weightAlong

// The paper's gravity is 9.81 m/s², ours that of the place: 0.04 % less.
const martinRows: [string, number, number, string, () => number][] = [
  ['air speed along the bike', 10.908, 0.001, 'm/s', () => Math.sqrt(martin().air / martinStep().halfDensityArea)],
  ['air', 158.8, 0.1, 'W', () => martin().air * martinSpeed],
  ['rolling', 23.63, 0.015, 'W', () => martinStep().rolling * martinSpeed],
  ['bearings', 1.369, 0.001, 'W', () => bearings() * martinSpeed],
  ['climbing', 22.15, 0.015, 'W', () => martinStep().weightAlong * martinSpeed],
  ['left for gaining speed at 213.16 W', 2.305, 0.05, 'W', () => martin().drive - martin().resistance * martinSpeed],
  [
    'rider’s power, gain of speed from 8.28 to 8.45 m/s included',
    213.16,
    0.05,
    'W',
    () => {
      const gain = (0.5 * martinStep().inertialMass * (8.45 ** 2 - 8.28 ** 2)) / 56.42
      return (martin().resistance * martinSpeed + gain) / martinStep().riderEfficiency
    },
  ],
]

const workedExample = martinRows.map(([what, expected, tolerance, unit, ours]): ReferenceCheck => ({
  quantity: `worked road example: ${what}`,
  sample: '',
  source:
    'Martin, Milliken, Cobb, McFadden and Coggan 1998, J. Appl. Biomech. 14:276-291; inputs from memory, outputs computed from its equations apart from this code',
  unit,
  expected,
  ours,
  tolerance,
  basis: 'from memory',
}))

/** Power against all resistance uphill at 7.5 %, W: inputs of table 1 of van Druenen and Blocken. */
const uphill = (speed: number, dragArea: number) => {
  const plan = planOf(72, 1.225, ({ bike }) => Object.assign(bike, { dragArea, rolling: 0.0032 }))
  return forcesOn(0.075, plan, speed).resistance * speed
}
const saving = (speed: number, dragArea: number) => 100 * (1 - uphill(speed, dragArea) / uphill(speed, 0.473))

const drafting = (
  [
    ['behind one rider, 7.5 %, 6 m/s (“over 7 %”)', 6, 0.261, 7],
    ['in a line of eight, 7.5 %, 8 m/s (“can exceed 16 %”)', 8, 0.164, 16],
  ] as const
).map(([sample, speed, dragArea, expected]): ReferenceCheck => ({
  quantity: 'power saved uphill by less drag area',
  sample,
  source: 'van Druenen and Blocken 2021, Sports Engineering 24:10, doi:10.1007/s12283-021-00345-2',
  unit: '%',
  expected,
  ours: () => saving(speed, dragArea),
  tolerance: 0.5,
  basis: 'published',
}))

/** kg, drag area of rider and wheels, m², Crr, factor of the surface. */
const bikes: [number, number, number, number][] = [
  [80, 0.35, 0.004, 1],
  [120, 0.6, 0.008, 1.25],
  [165, 0.8, 0.012, 2],
]

const atTheWheel = bikes.flatMap(([mass, area, rolling, surface]) =>
  [-0.04, 0, 0.02, 0.05, 0.08, 0.12].flatMap((gradient) =>
    [5, 10, 15, 20, 25, 30, 40].map((speedKmh): ReferenceCheck => {
      const speed = speedKmh / 3.6
      const cosine = Math.cos(Math.atan(gradient))
      const weight = mass * localGravity * (rolling * surface * cosine + Math.sin(Math.atan(gradient)))
      const expected = (0.5 * 1.2 * area * speed * speed + weight + 0.091 + 0.0087 * speed) * speed
      return {
        quantity: 'power at the wheel at a steady speed on a slope',
        sample: `${mass} kg, ${speedKmh} km/h, ${100 * gradient} %`,
        source:
          'air, rolling and weight by elementary mechanics, bearings of Martin et al. 1998, written out in the test',
        unit: 'W',
        expected,
        ours: () => {
          const plan = planOf(mass, 1.2, ({ bike }) =>
            Object.assign(bike, { dragArea: area - 0.0044, rolling, surfaceFactor: surface }),
          )
          return forcesOn(gradient, plan, speed).resistance * speed
        },
        tolerance: 0.01,
        basis: 'computed from published',
      }
    }),
  ),
)

const lifting: ReferenceCheck = {
  quantity: 'work of lifting 122 kg by 1000 m',
  sample: '',
  source: 'm g h with standard gravity; ours has the local one',
  unit: 'Wh',
  expected: 332.3,
  ours: () => {
    const plan = plainPlan(({ rider, bike, assist }) => {
      Object.assign(rider, { mass: 83, power: 200 })
      Object.assign(bike, { mass: 27, luggage: 6 })
      Object.assign(assist, { ratio: 1, climbRatio: 1 })
    })
    return rideOver({ length: 20_000, elevation: (d) => d / 20 }, plan).books.climbing / 3600
  },
  tolerance: 0.2,
  basis: 'computed from published',
}

export const roadChecks: ReferenceCheck[] = [...workedExample, ...drafting, ...atTheWheel, lifting]
