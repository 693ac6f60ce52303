import { bendLimits, brakeFor } from '../../src/model/ride/bends'
import { noMotion } from '../../src/model/ride/motion'
import { stepOver } from '../../src/model/ride/step'
import { kilometresPerHour, milesPerHour, metresPerFoot } from '../../src/model/units'
import { idleStep, root } from '../rides'
import { courseRoute } from '../routes'
import type { ReferenceCheck } from './check'

/** Time over 20 m from standstill under a constant thrust at the wheel, by the ride's own steps of 1 m. */
function startOver20(mass: number, thrust: number): number {
  const step = {
    ...idleStep,
    inertialMass: mass,
    perMass: 1 / mass,
    riderPower: 1e5,
    // The drive overcomes the bearings and accelerates by no more than this.
    settingOff: thrust / mass,
  }
  const motion = noMotion()
  let time = 0
  for (let metre = 0; metre < 20; metre++) {
    motion.from = motion.to
    motion.length = 1
    stepOver(step, { from: 1e4, to: 1e4 }, motion)
    time += motion.time
  }
  return time
}

const annexD: ReferenceCheck = {
  quantity: 'time over 20 m from standstill, 150 kg, 250 W mean',
  sample: '',
  source: 'EN 15194:2009, annex D: P = 2 m D²/t³ (read second-hand); taken as the mean power of a constant thrust',
  unit: 's',
  expected: 7.83,
  ours: () =>
    startOver20(
      150,
      root((thrust) => (thrust * 20) / startOver20(150, thrust) - 250, 10, 1000),
    ),
  tolerance: 0.01,
  basis: 'published',
}

/** Radius, m; friction factor accepted; speed, km/h. */
const bends: [number, number, number][] = [
  [3.1, 0.61, 15.5],
  [6.1, 0.52, 20.1],
  [9.2, 0.36, 20.5],
  [15.3, 0.26, 22.5],
  [25.4, 0.18, 24.1],
  [27.5, 0.2, 26.4],
]

const bendSpeeds = bends.map(([radius, friction, expected]): ReferenceCheck => ({
  quantity: 'speed in a bend',
  sample: `${radius} m, friction factor ${friction}`,
  source: 'FHWA-HRT-04-103 (2004), table 19; v = √(f g R)',
  unit: 'km/h',
  expected,
  ours: () => {
    const { stations } = courseRoute({ length: 1000, curvature: (d) => (Math.abs(d - 500) < 50 ? 1 / radius : 0) })
    const limits = bendLimits(stations, friction * 9.80665, 25)
    return 3.6 * Math.sqrt(limits[50]!)
  },
  tolerance: 0.06,
  basis: 'computed from published',
}))

/** Length of road over which the speed limit falls from a speed to standstill, m. */
function brakingLength(speed: number, deceleration: number): number {
  const { stations } = courseRoute({ length: 200, spacing: 1 })
  const limits = bendLimits(stations, 2, 30)
  limits[200] = 0
  brakeFor(limits, stations, 200, deceleration, undefined)
  const i = limits.findIndex((limit) => limit < speed * speed)
  const over = (limits[i - 1]! - speed * speed) / (limits[i - 1]! - limits[i]!)
  return 200 - (stations.distance[i - 1]! + over)
}
const wetDesign = 0.25 * 9.80665

const stopping: ReferenceCheck[] = [
  ...[15, 20, 25, 30, 35, 40, 45, 50].map((speedKmh): ReferenceCheck => ({
    quantity: 'braking length, friction 0.25',
    sample: `from ${speedKmh} km/h`,
    source: 'AASHTO 1999: V²/(254 f), V in km/h (read second-hand)',
    unit: 'm',
    expected: speedKmh ** 2 / (254 * 0.25),
    ours: () => brakingLength(speedKmh * kilometresPerHour, wetDesign),
    tolerance: (0.002 * speedKmh ** 2) / (254 * 0.25),
    basis: 'computed from published',
  })),
  {
    quantity: 'stopping distance from 20 mph, wet, 2.5 s reaction',
    sample: '',
    source: 'AASHTO as printed in FHWA-HRT-04-103 (2004), table 23',
    unit: 'm',
    expected: 38.7,
    ours: () => brakingLength(20 * milesPerHour, wetDesign) + 2.5 * 20 * milesPerHour,
    tolerance: 0.15,
    basis: 'published',
  },
  {
    quantity: 'radius at 20 mph and 20° of lean',
    sample: '',
    source: 'AASHTO 2012: R = 0.067 V²/tan(lean), feet and mph (from memory)',
    unit: 'm',
    expected: ((0.067 * 400) / Math.tan((20 * Math.PI) / 180)) * metresPerFoot,
    ours: () => {
      const lateral = 9.80665 * Math.tan((20 * Math.PI) / 180)
      const limitAt = (radius: number) =>
        bendLimits(courseRoute({ length: 100, curvature: () => 1 / radius }).stations, lateral, 30)[0]!
      return root((radius) => limitAt(radius) - (20 * milesPerHour) ** 2, 1, 100)
    },
    tolerance: 0.1,
    basis: 'from memory',
  },
]

export const limitChecks: ReferenceCheck[] = [annexD, ...bendSpeeds, ...stopping]
