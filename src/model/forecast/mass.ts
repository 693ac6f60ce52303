import { comesAlong, kitTotals, meanMass } from '../plan/kit'
import type { Plan } from '../plan/schema'
import { sourceMass, usedSources } from './sources'

/** Total mass at the start, kg: rider, bike, packs, luggage, kit, and the charge sources that are used. */
export const totalMass = (plan: Plan): number => massWith(plan, kitTotals(plan.kit).all)

/** Pace by which a ride's times are reckoned before it is ridden: what is used up by the hour, whether the road is wet, m/s. */
export const meanPace = 5.5

/** How long a ride of some metres is reckoned to take where things are used up by the hour, s. */
export const reckonedTime = (length: number): number => length / meanPace

/** Mean mass over a ride, kg: as at the start, less what is eaten and drunk on the way. */
export function ridingMass(plan: Plan, length: number): number {
  const comes = plan.kit.filter(comesAlong)
  return massWith(
    plan,
    comes.reduce((sum, item) => sum + meanMass(item, reckonedTime(length), length), 0),
  )
}

const massWith = (plan: Plan, kit: number): number =>
  plan.rider.mass +
  plan.bike.mass +
  plan.bike.luggage +
  kit +
  plan.battery.packs.reduce((sum, { mass }) => sum + mass, 0) +
  usedSources(plan).reduce((sum, source) => sum + sourceMass(source), 0)
