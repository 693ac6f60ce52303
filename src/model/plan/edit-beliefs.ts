import { merged } from './lists'
import type { Plan, PlanBelief } from './schema'

/** How far ahead the weather was forecast. @param days 0 to `mostAhead` */
export const setForecastAhead = (plan: Plan, days: number): Plan => merged<Plan>(plan, { forecastAhead: days })

/** How well the rider knows a figure. @param known undefined for as is usual */
export function setBelief(plan: Plan, path: PlanBelief['path'], known: PlanBelief['known'] | undefined): Plan {
  const others = plan.beliefs.filter((belief) => belief.path !== path)
  return merged(plan, { beliefs: known === undefined ? others : [...others, { path, known }] })
}
