import { prepare } from '../../src/model/forecast/prepare'
import { Ride } from '../../src/model/forecast/ride'
import { windShare, wheelDragArea } from '../../src/model/ride/air'
import { forcesAt, noForces } from '../../src/model/ride/forces'
import { plainPlan } from '../rides'
import { courseRoute } from '../routes'
import type { ReferenceCheck } from './check'

/** Roughness length, m; wind at 1.5 m and at 1 m over that at 10 m. */
const logLaw: [number, number, number][] = [
  [0.0002, 0.8247, 0.7872],
  [0.005, 0.7504, 0.6971],
  [0.03, 0.6734, 0.6036],
  [0.1, 0.588, 0.5],
  [0.25, 0.4857, 0.3758],
]

const profile = logLaw.flatMap(([roughness, rider, low]): ReferenceCheck[] =>
  (
    [
      [1.5, rider],
      [1, low],
    ] as const
  ).map(([height, expected]) => ({
    quantity: `wind at ${height} m over that at 10 m, roughness ${roughness} m`,
    source: 'logarithmic law, Jia, Sill and Reinhold 1998, J. Wind Eng. Ind. Aerodyn. 73:215-230; classes of WMO-No. 8',
    unit: '1',
    expected,
    ours: () => windShare(roughness, height),
    tolerance: 5e-5,
    basis: 'computed from published',
  })),
)

/** Drag over ½ ρ A at 6 m/s northward in a wind of 5 m/s, as a whole plan gives it. */
function dragOver(windFromDegrees: number): number {
  const plan = plainPlan(({ weather }) => {
    Object.assign(weather, { windSpeed: 5 / windShare(0.1), windFromDegrees, surroundings: 'farmland with low crops' })
  })
  const route = courseRoute({ length: 100 })
  const prepared = prepare(route, plan)
  const { conditions } = prepared
  conditions.prepare(0, new Ride(prepared))
  const into = noForces()
  forcesAt(conditions.step, 6, into)
  return into.air / (0.5 * 1.225 * (plan.bike.dragArea + wheelDragArea))
}

/** Where the wind comes from, degrees from ahead; |v_rel| v_along, m²/s². */
const sides: [number, number][] = [
  [0, 121],
  [60, 81.08],
  [90, 46.86],
  [180, 1],
  [270, 46.86],
]

export const windChecks: ReferenceCheck[] = [
  ...profile,
  ...sides.map(([from, expected]): ReferenceCheck => ({
    quantity: `drag over ½ρA at 6 m/s, wind 5 m/s from ${from}°`,
    source: 'vector sum of ride and wind, isotropic drag area: elementary mechanics, computed apart from this code',
    unit: 'm²/s²',
    expected,
    ours: () => dragOver(from),
    tolerance: 0.006,
    basis: 'computed from published',
  })),
]
