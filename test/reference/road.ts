import { bearingConstant, bearingSlope } from '../../src/model/ride/roll'
import { forces, plainPlan, rideOver } from '../rides'
import type { ReferenceCheck } from './check'

const cosineOf = (gradient: number) => 1 / Math.sqrt(1 + gradient * gradient)

/** Weight and rolling of a mass on a slope, as a step has them. */
const onSlope = (mass: number, gravity: number, rolling: number, gradient: number) => ({
  weightAlong: mass * gravity * gradient * cosineOf(gradient),
  rolling: rolling * mass * gravity * cosineOf(gradient),
})

/** Inputs of the sample calculation, from memory: 471.8 m in 56.42 s, wind 2.94 m/s from 310° on heading 340°. */
const martinSpeed = 471.8 / 56.42
const martinWind = 2.94 * Math.cos((30 * Math.PI) / 180)
const martinStep = {
  // The drag area of the paper is that along the axis at the yaw angle, so its wind has no part across.
  halfDensityArea: 0.5 * 1.2234 * (0.2565 + 0.0044),
  headWind: martinWind,
  ...onSlope(90, 9.81, 0.0032, 0.003),
  inertialMass: 90 + 0.14 / 0.311 ** 2,
  riderEfficiency: 0.97698,
}
const martin = (riderPower = 0) => forces({ ...martinStep, riderPower }, martinSpeed)
const martinTotal = 213.16

const martinRows: [string, number, number, string, () => number][] = [
  ['air speed along the bike', 10.908, 0.001, 'm/s', () => Math.sqrt(martin().air / martinStep.halfDensityArea)],
  ['air', 158.8, 0.1, 'W', () => martin().air * martinSpeed],
  ['rolling', 23.63, 0.01, 'W', () => martinStep.rolling * martinSpeed],
  ['bearings', 1.369, 0.001, 'W', () => (bearingConstant + bearingSlope * martinSpeed) * martinSpeed],
  ['climbing', 22.15, 0.01, 'W', () => martinStep.weightAlong * martinSpeed],
  [
    'left for gaining speed at 213.16 W',
    2.305,
    0.02,
    'W',
    () => martin(martinTotal).drive - martin(martinTotal).resistance * martinSpeed,
  ],
  [
    'rider’s power, gain of speed from 8.28 to 8.45 m/s included',
    martinTotal,
    0.02,
    'W',
    () => {
      const gain = (0.5 * martinStep.inertialMass * (8.45 ** 2 - 8.28 ** 2)) / 56.42
      return (martin().resistance * martinSpeed + gain) / martinStep.riderEfficiency
    },
  ],
]

const workedExample = martinRows.map(([what, expected, tolerance, unit, ours]): ReferenceCheck => ({
  quantity: `worked road example: ${what}`,
  source:
    'Martin, Milliken, Cobb, McFadden and Coggan 1998, J. Appl. Biomech. 14:276-291; inputs from memory, outputs computed from its equations apart from this code',
  unit,
  expected,
  ours,
  tolerance,
  basis: 'from memory',
}))

/** Rider's power uphill at 7.5 %, W: inputs of table 1 of van Druenen and Blocken. */
const uphill = (speed: number, dragArea: number) =>
  (forces({ halfDensityArea: 0.5 * 1.225 * (dragArea + 0.0044), ...onSlope(72, 9.81, 0.0032, 0.075) }, speed)
    .resistance *
    speed) /
  0.98
const saving = (speed: number, dragArea: number) => 100 * (1 - uphill(speed, dragArea) / uphill(speed, 0.473))
const blocken = 'van Druenen and Blocken 2021, Sports Engineering 24:10, doi:10.1007/s12283-021-00345-2'

const drafting: ReferenceCheck[] = [
  {
    quantity: 'power saved behind one rider, 7.5 %, 6 m/s (“over 7 %”)',
    source: blocken,
    unit: '%',
    expected: 7,
    ours: () => saving(6, 0.261),
    tolerance: 0.5,
    basis: 'published',
  },
  {
    quantity: 'power saved in a line of eight, 7.5 %, 8 m/s (“can exceed 16 %”)',
    source: blocken,
    unit: '%',
    expected: 16,
    ours: () => saving(8, 0.164),
    tolerance: 0.5,
    basis: 'published',
  },
  ...(
    [
      ['alone at 6 m/s', 6, 0.473, 402.55],
      ['second of two at 6 m/s', 6, 0.261, 373.93],
      ['alone at 8 m/s', 8, 0.473, 603.71],
      ['seventh of eight at 8 m/s', 8, 0.164, 504.83],
    ] as const
  ).map(([where, speed, dragArea, expected]): ReferenceCheck => ({
    quantity: `power uphill at 7.5 %, ${where}`,
    source: `inputs of table 1 of ${blocken}; outputs computed apart from this code`,
    unit: 'W',
    expected,
    ours: () => uphill(speed, dragArea),
    tolerance: 0.01,
    basis: 'computed from published',
  })),
]

/** km/h, gradient, power at the wheel, W: 120 kg, Crr 0.008, CdA 0.60 m², 1.2 kg/m³, standard gravity, no bearings. */
const wheelPowers: [number, number, number][] = [
  [15, 0, 65.3],
  [20, 0, 114.0],
  [25, 0, 185.9],
  [20, 0.02, 244.7],
  [20, 0.05, 440.4],
  [20, 0.08, 635.2],
  [15, 0.08, 456.2],
]

const wheel = wheelPowers.map(([speedKmh, gradient, expected]): ReferenceCheck => ({
  quantity: `power at the wheel, 120 kg, ${speedKmh} km/h, ${gradient * 100} %`,
  source: 'air, rolling and weight by elementary mechanics, computed apart from this code',
  unit: 'W',
  expected,
  ours: () => {
    const slope = onSlope(120, 9.80665, 0.008, gradient)
    const speed = speedKmh / 3.6
    const { air } = forces({ halfDensityArea: 0.5 * 1.2 * 0.6, ...slope }, speed)
    return (air + slope.rolling + slope.weightAlong) * speed
  },
  tolerance: 0.05,
  basis: 'computed from published',
}))

const lifting: ReferenceCheck = {
  quantity: 'work of lifting 122 kg by 1000 m',
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

export const roadChecks: ReferenceCheck[] = [...workedExample, ...drafting, ...wheel, lifting]
