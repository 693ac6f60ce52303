import { defaultPack, defaultPlan, defaultMains, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { kilometresPerHour, milesPerHour } from '../../src/model/units'

/** A plan for a route of a length, m. */
export type Variant = (length: number) => Plan

const changed = (change: (plan: Plan, length: number) => void): Variant => {
  return (length) => {
    const plan = defaultPlan()
    change(plan, length)
    return plan
  }
}

/** Plans that between them reach every branch of the ride: each is run on every sample route. */
export const variants: Record<string, Variant> = {
  default: changed(() => {}),
  'one weak old cold pack': changed((plan) => {
    plan.battery.temperatureCelsius = -5
    plan.weather.temperatureCelsius = -2
    plan.battery.packs = [{ ...defaultPack('pack-1', 'Old'), capacityAh: 8, health: 0.6, dischargeCurrent: 10 }]
    plan.assist.ratio = 2
    plan.assist.climbRatio = 3
  }),
  'strong head wind': changed((plan) => {
    plan.weather.windSpeed = 14
    plan.weather.surroundings = 'open grassland'
  }),
  '28 mph': changed((plan) => {
    Object.assign(plan.assist, {
      limitSpeed: 28 * milesPerHour,
      ratio: 2.5,
      climbRatio: 3,
      peakPower: 750,
      place: 'hub',
    })
    Object.assign(plan.rider, { power: 180, coastingSpeed: 48 * kilometresPerHour })
    plan.bike.topSpeed = 60 * kilometresPerHour
  }),
  'no assist': changed((plan) => {
    plan.assist.ratio = 0
    plan.assist.climbRatio = 0
  }),
  'too heavy for the hills': changed((plan) => {
    Object.assign(plan.rider, { mass: 150, power: 60, climbFactor: 1 })
    plan.bike.luggage = 80
    plan.assist.climbRatio = 0.2
  }),
  'three stops with charges': changed((plan, length) => {
    plan.battery.packs = [
      { ...defaultPack('pack-1', 'Small'), capacityAh: 7 },
      { ...defaultPack('pack-2', 'Half'), charge: 0.5 },
    ]
    plan.sources.push({ ...defaultMains('source-2', 'Fast'), current: 8 })
    plan.stops = [
      { ...defaultStop('stop-1', 'Bench', 0.2 * length, 'source-1'), duration: 1800 },
      { ...defaultStop('stop-2', 'Inn', 0.5 * length, 'source-2'), goal: 'charge', chargeTo: 0.7 },
      { ...defaultStop('stop-3', 'Mill', 0.8 * length, 'source-1') },
    ]
  }),
  LFP: changed((plan) => {
    plan.battery.packs = [
      { ...defaultPack('pack-1', 'LFP'), chemistry: 'lfp', series: 12, capacityAh: 12, cellResistance: 0.16 },
    ]
  }),
  'four small packs to swap': changed((plan) => {
    plan.battery.packs = [1, 2, 3, 4].map((k) => ({ ...defaultPack(`pack-${k}`, `Pack ${k}`), capacityAh: 2 }))
  }),
}
