import * as v from 'valibot'
import { packAt, usableEnergy } from '../battery/pack'
import { catalogue } from '../plan/catalogue'
import { weatherTableSchema } from '../plan/day-schema'
import { setFields } from '../plan/edit'
import { mapped, merged } from '../plan/lists'
import type { Parameter } from '../plan/parameters'
import { most, type Plan } from '../plan/schema'
import type { ChargeReading, Said } from './evidence'
import { ratiosOf } from './steps'

const share = v.pipe(v.number(), v.minValue(0), v.maxValue(1))
const within = ({ min, max }: Parameter) =>
  v.optional(v.nullable(v.pipe(v.number(), v.minValue(min), v.maxValue(max))), null)
const { rider, bike, assist, weather } = catalogue

/** What a rider says of a ride that was ridden. Null is what was not said: of charge it is not known, of all else it is as in the plan. */
export const rideNotesSchema = v.object({
  /** What was left of all that is usable in all packs, 0 to 1. */
  chargeStart: v.optional(v.nullable(share), null),
  chargeEnd: v.optional(v.nullable(share), null),
  /** Packs put away, in order: where, ridden distance, m, and what was left in it, 0 to 1. */
  swaps: v.optional(
    v.pipe(
      v.array(
        v.object({
          distance: v.nullable(v.pipe(v.number(), v.minValue(0), v.maxValue(5e7))),
          left: v.nullable(share),
        }),
      ),
      v.maxLength(most.packs - 1),
    ),
    [],
  ),
  /** How many, all like the plan's first. */
  packs: v.optional(v.nullable(v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(most.packs))), null),
  riderMass: within(rider.mass),
  bikeMass: within(bike.mass),
  luggage: within(bike.luggage),
  ratio: within(assist.ratio),
  climbRatio: within(assist.climbRatio),
  /** Of the way at each step of the plan's display, in their order, 0 to 1; in place of the two ratios. */
  shares: v.optional(v.pipe(v.array(v.nullable(share)), v.maxLength(most.steps)), []),
  windSpeed: within(weather.windSpeed),
  windFromDegrees: within(weather.windFromDegrees),
  temperatureCelsius: within(weather.temperatureCelsius),
  /** Weather by the hour, in place of the three figures; empty where none was pasted. */
  table: v.optional(weatherTableSchema, []),
  lamps: v.optional(v.nullable(v.picklist(['always', 'dark', 'off'])), null),
  /** What the rider wants to remember of the ride. */
  text: v.optional(v.pipe(v.string(), v.maxLength(2000)), ''),
  /** Of a ride without a file, s. */
  ridingTime: v.optional(v.nullable(v.pipe(v.number(), v.minValue(60), v.maxValue(10 * 86_400))), null),
})
export type RideNotes = v.InferOutput<typeof rideNotesSchema>

/**
 * The plan of that day: rider and bike of a plan, with what is said of the day in place of what the plan has.
 *
 * @param climbing share of the way on which the climb ratio acts, 0 to 1: where the stronger steps of the display are taken as ridden
 */
export function planOfThatDay(plan: Plan, notes: RideNotes, climbing = 0): Plan {
  const { packs } = plan.battery
  const set = <T extends object>(change: T) =>
    Object.fromEntries(Object.entries(change).filter(([, value]) => value !== null)) as { [K in keyof T]: number }
  const thatDay = mapped(packs, (pack) => (pack.storage === 0 ? pack : { ...pack, storage: 0 }))
  let that: Plan = {
    ...plan,
    weather: { ...plan.weather, table: notes.table },
    battery: merged(plan.battery, { packs: thatDay }),
  }
  if (notes.lamps === 'off') that = setFields(that, 'assist', { lights: 0 })
  else if (notes.lamps !== null) that = setFields(that, 'assist', { lightsOn: notes.lamps })
  that = setFields(that, 'rider', set({ mass: notes.riderMass }))
  that = setFields(that, 'bike', set({ mass: notes.bikeMass, luggage: notes.luggage }))
  const { ratio, climbRatio } = ratiosOf(plan.steps, notes.shares, climbing) ?? notes
  that = setFields(that, 'assist', set({ ratio, climbRatio }))
  const { windSpeed, windFromDegrees, temperatureCelsius } = notes
  that = setFields(that, 'weather', set({ windSpeed, windFromDegrees, temperatureCelsius }))
  if (notes.packs === null || notes.packs === packs.length) return that
  const those = Array.from({ length: notes.packs }, (_, i) => ({ ...thatDay[0]!, id: `that-day-${i + 1}` }))
  return { ...that, battery: { ...that.battery, packs: those } }
}

/**
 * What notes say of the charge, as readings of what is left in all packs.
 *
 * @param plan of that day
 * @param length of the ride, m
 */
export function saidIn(notes: RideNotes, plan: Plan, length: number): Said {
  const { chargeStart, chargeEnd, swaps } = notes
  const usable = plan.battery.packs.map((spec) => usableEnergy(packAt(spec, plan.battery.temperatureCelsius)))
  const all = usable.reduce((sum, energy) => sum + energy, 0)
  const start = chargeStart ?? 1
  const atSwaps: ChargeReading[] = []
  let changed = 0
  for (const [k, { distance, left }] of swaps.slice(0, usable.length - 1).entries()) {
    // What follows one that is not known can't be told.
    if (distance === null || left === null) break
    changed += usable[k]! * (start - left)
    atSwaps.push({ distance, left: start - changed / all })
  }
  return {
    ...(chargeStart === null ? {} : { start: chargeStart }),
    readings: [...atSwaps, ...(chargeEnd === null ? [] : [{ distance: length, left: chargeEnd }])],
  }
}
