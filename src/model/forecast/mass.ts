import { comesAlong, kitTotals, meanMass } from '../plan/kit'
import type { Plan } from '../plan/schema'
import { sourceMass, sourcesAlong } from './sources'

/** What the mass at the start is made of, kg: luggage is what the kit list does not name. */
export interface MassParts {
  rider: number
  bike: number
  packs: number
  sources: number
  luggage: number
  kit: number
}

/** The parts of the mass at the start, each counted once. */
export const massParts = (plan: Plan): MassParts => ({
  rider: plan.rider.mass,
  bike: plan.bike.mass,
  packs: plan.battery.packs.reduce((sum, { mass }) => sum + mass, 0),
  sources: sourcesAlong(plan).reduce((sum, source) => sum + sourceMass(source), 0),
  luggage: plan.bike.luggage,
  kit: kitTotals(plan.kit).all,
})

const sumOf = (parts: MassParts): number => Object.values(parts).reduce((sum: number, part: number) => sum + part, 0)

/** Total mass at the start, kg. */
export const totalMass = (plan: Plan): number => sumOf(massParts(plan))

/** Pace by which a ride's times are reckoned before it is ridden: what is used up by the hour, whether the road is wet, m/s. */
export const meanPace = 5.5

/** How long a ride of some metres is reckoned to take where things are used up by the hour, s. */
export const reckonedTime = (length: number): number => length / meanPace

/** Mean mass over a ride, kg: as at the start, less what is eaten and drunk on the way. */
export function ridingMass(plan: Plan, length: number): number {
  const comes = plan.kit.filter(comesAlong)
  const kit = comes.reduce((sum, item) => sum + meanMass(item, reckonedTime(length), length), 0)
  return sumOf({ ...massParts(plan), kit })
}
