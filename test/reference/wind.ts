import { windShare, wheelDragArea } from '../../src/model/ride/air'
import { plainPlan } from '../rides'
import { forcesOn } from './on-slope'
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
    quantity: 'wind near the ground over that at 10 m',
    sample: `${height} m, roughness ${roughness} m`,
    source: 'logarithmic law, Jia, Sill and Reinhold 1998, J. Wind Eng. Ind. Aerodyn. 73:215-230; classes of WMO-No. 8',
    unit: '1',
    expected,
    ours: () => windShare(roughness, height),
    tolerance: 5e-5,
    basis: 'computed from published',
  })),
)

/** Drag over ½ ρ A at a speed northward in a wind, both m/s, as a whole plan gives it. */
function dragOver(speed: number, wind: number, windFromDegrees: number): number {
  const plan = plainPlan(({ weather }) => {
    Object.assign(weather, {
      windSpeed: wind / windShare(0.1),
      windFromDegrees,
      surroundings: 'farmland with low crops',
    })
  })
  return forcesOn(0, plan, speed).air / (0.5 * 1.225 * (plan.bike.dragArea + wheelDragArea))
}

/** |v_rel| v_along, m²/s². */
function elementary(speed: number, wind: number, fromDegrees: number): number {
  const [ahead, aside] = [Math.cos, Math.sin].map((part) => wind * part((fromDegrees * Math.PI) / 180)) as [
    number,
    number,
  ]
  return Math.hypot(speed + ahead, aside) * (speed + ahead)
}

const sides = [3, 6, 10].flatMap((speed) =>
  [2, 5, 9].flatMap((wind) =>
    Array.from({ length: 24 }, (_, k) => 15 * k).map((from): ReferenceCheck => {
      const expected = elementary(speed, wind, from)
      return {
        quantity: 'drag in a wind from any side, over ½ρA',
        sample: `${speed} m/s, wind ${wind} m/s from ${from}°`,
        source: 'vector sum of ride and wind, isotropic drag area: elementary mechanics, written out in the test',
        unit: 'm²/s²',
        expected,
        ours: () => dragOver(speed, wind, from),
        tolerance: 5e-8 * Math.max(1, Math.abs(expected)),
        basis: 'computed from published',
        ...(Math.abs(expected) < 1e-8 && { loose: 'Ride and wind are equal: the figure is zero but for rounding.' }),
      }
    }),
  ),
)

export const windChecks: ReferenceCheck[] = [...profile, ...sides]
