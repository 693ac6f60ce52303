import { prepare } from '../../src/model/forecast/prepare'
import { Ride } from '../../src/model/forecast/ride'
import type { Plan } from '../../src/model/plan/schema'
import { forcesAt, noForces, type Forces, type StepConditions } from '../../src/model/ride/forces'
import { courseRoute } from '../routes'

/** Gravity at the sea under 45°, where the courses of the tests lie, m/s². */
export const localGravity = 9.8061977694

/** What acts on a step northward on an even slope that crosses sea level there, as the forecast of a whole plan sets it. @param gradient dimensionless */
export function stepOn(gradient: number, plan: Plan): StepConditions {
  const prepared = prepare(courseRoute({ length: 20, elevation: (d) => (d - 5) * gradient }), plan)
  const { conditions } = prepared
  conditions.prepare(0, new Ride(prepared))
  return conditions.step
}

/** Forces there at a speed, m/s. */
export function forcesOn(gradient: number, plan: Plan, speed: number): Forces {
  const into = noForces()
  forcesAt(stepOn(gradient, plan), speed, into)
  return into
}
