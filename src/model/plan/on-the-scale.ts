import { nominalVoltage, ratedEnergyWh } from '../battery/pack'
import { joulesPerWattHour } from '../units'
import { defaultPack } from './defaults'
import { setFields } from './edit'
import { merged } from './lists'
import type { Numbered } from './names'
import { bikeParameters, packParameters, type Parameter } from './parameters'
import { most, type Plan } from './schema'

/** Mass of the bike's packs, kg. */
export const packsMass = ({ battery }: Plan): number => battery.packs.reduce((sum, { mass }) => sum + mass, 0)

/** Mass of the bike with its packs, as a scale says it, without luggage, kg. */
export const massOnScale = (plan: Plan): number => plan.bike.mass + packsMass(plan)

/** The number that `massOnScale` is, with the bounds that the bike's own mass leaves it. */
export function scaleParameter(plan: Plan): Parameter {
  const { min, max, default: usual, ...rest } = bikeParameters.mass
  const packs = packsMass(plan)
  return { ...rest, min: min + packs, max: max + packs, default: usual + packs }
}

/** The bike's own mass from what a scale says of it with its packs. @param mass kg */
export const setMassOnScale = (plan: Plan, mass: number): Plan =>
  setFields(plan, 'bike', { mass: within(bikeParameters.mass, mass - packsMass(plan)) })

/** How many packs there are, and the energy of each when new, J: what is asked of a rider who knows no more of them. */
export const packCount: Parameter = { quantity: 'count', min: 1, max: most.packs, default: 2 }
export const packEnergy: Parameter = {
  quantity: 'packEnergy',
  min: 50 * joulesPerWattHour,
  max: 3000 * joulesPerWattHour,
  default: 500 * joulesPerWattHour,
}

/**
 * So many packs, all alike and new, in place of those there were; the bike with its packs stays as heavy as it was. A pack's mass goes with its
 * energy, as that of the pack of the defaults (judgement).
 *
 * @param energy of each when new, J
 */
export function setPacks(plan: Plan, count: number, energy: number, named: Numbered): Plan {
  const usual = defaultPack('', '')
  const like = {
    ...usual,
    capacityAh: energy / joulesPerWattHour / nominalVoltage(usual),
    mass: within(packParameters.mass, (usual.mass * energy) / joulesPerWattHour / ratedEnergyWh(usual)),
  }
  const packs = Array.from({ length: count }, (_, i) => ({ ...like, id: `pack-${i + 1}`, name: named(i + 1) }))
  const changed = merged(plan, { battery: merged(plan.battery, { packs }) })
  return setMassOnScale(changed, massOnScale(plan))
}

const within = ({ min, max }: Parameter, value: number) => Math.min(Math.max(value, min), max)
