import { defaultPlan } from '../model/plan/defaults'
import type { Names } from '../model/plan/names'
import type { Plan } from '../model/plan/schema'

/** What of a plan goes with the rider from day to day. */
const parts = [
  'rider',
  'needs',
  'bike',
  'assist',
  'battery',
  'sources',
  'kit',
  'steps',
  'learnt',
  'beliefs',
] as const satisfies (keyof Plan)[]

/** The plan of a new day: rider and bike of a plan, else the defaults, and nothing of a route. */
export function newPlan(names: Names, riderAndBike?: Plan): Plan {
  const plan = defaultPlan(names)
  if (riderAndBike === undefined) return plan
  return { ...plan, ...Object.fromEntries(parts.map((part) => [part, riderAndBike[part]])) }
}

/** Whether an edit changed rider or bike. */
export const changesRider = (before: Plan, after: Plan): boolean => parts.some((part) => before[part] !== after[part])
