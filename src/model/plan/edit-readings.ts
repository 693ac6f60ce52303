import { merged } from './lists'
import { most, type Plan, type PlanReading } from './schema'

/** Two readings nearer to each other than this are of one place, m: the later counts. */
const samePlace = 50

/** Adds what was read on the way, in order of the route; none above `most.readings`. */
export function addReading(plan: Plan, reading: PlanReading): Plan {
  const others = plan.readings.filter(({ distance }) => Math.abs(distance - reading.distance) > samePlace)
  if (others.length >= most.readings) return plan
  return merged(plan, { readings: [...others, reading].sort((a, b) => a.distance - b.distance) })
}

const ofDay = (plan: Plan) => Object.keys(plan).filter((key) => key !== 'readings') as (keyof Plan)[]

/** Whether two plans are of the same parts, whatever was read on the way. */
export const isSameButReadings = (one: Plan, other: Plan): boolean => ofDay(one).every((key) => one[key] === other[key])

/** @param index of the reading, from 0 */
export const removeReading = (plan: Plan, index: number): Plan =>
  merged(plan, { readings: plan.readings.filter((_, k) => k !== index) })
