import { ridingMass } from '../forecast/mass'
import type { Outcome } from '../forecast/outcome'
import { roadOf } from '../ride/road'

/**
 * What the climbs of a ride ask for, whoever does it: m g times all ascent, with the mass and gravity that the forecast rides with.
 *
 * @returns kg, and J
 */
export function liftingOf({ route, plan }: Outcome): { mass: number; work: number } {
  const mass = ridingMass(plan, route.length)
  return { mass, work: mass * roadOf(route).gravity * route.ascent }
}
