import { tallyOf } from '../forecast/tally'
import type { KitItem } from '../plan/day-schema'
import { comesAlong, massOf, meanMass } from '../plan/kit'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'

/** What each kilogram of luggage costs on a route with a plan. */
export interface KilogramCost {
  /** Riding time, s/kg: without halts, so that no sailing just caught or missed hides it. */
  time: number
  /** Energy from the packs, J/kg. */
  energy: number
  /** Work of the rider, J/kg. */
  riderWork: number
}

/**
 * What a kilogram costs, by the difference of two whole forecasts, one with more and one with less luggage. Over a single kilogram it
 * would depend by some percent on where a pack happens to be swapped, uphill or at speed; over a few it hardly does.
 * Where the packs run empty, more mass costs time and not energy; the figures say so.
 *
 * @param massChange to either side, kg
 */
export function kilogramCost(route: Route, plan: Plan, massChange = 4): KilogramCost {
  const at = (change: number) => {
    const { ridingTime, drained, riderWork } = tallyOf(route, {
      ...plan,
      bike: { ...plan.bike, luggage: plan.bike.luggage + change },
    })
    return { time: ridingTime, energy: drained, riderWork }
  }
  const more = at(massChange)
  const less = at(-massChange)
  const perKilogram = (key: keyof KilogramCost) => (more[key] - less[key]) / (2 * massChange)
  return { time: perKilogram('time'), energy: perKilogram('energy'), riderWork: perKilogram('riderWork') }
}

/** A line of the kit list with its mass, kg, and what it costs: riding time, s, and energy from the packs, J. */
export interface KitLine {
  item: KitItem
  /** All of it at the start. */
  mass: number
  /** What it costs if it comes along, by its mean mass over the ride; for what stays home, what it would cost. */
  time: number
  energy: number
}

/**
 * What each item costs.
 *
 * @param cost from `kilogramCost`
 * @param time of the whole ride, s
 * @param distance of the whole ride, m
 */
export const kitLines = (items: readonly KitItem[], cost: KilogramCost, time: number, distance: number): KitLine[] =>
  items.map((item) => {
    const mean = meanMass(item, time, distance)
    return { item, mass: massOf(item), time: mean * cost.time, energy: mean * cost.energy }
  })

/** What came back unused from the last ride, heaviest first. */
export const heavyAndUnused = (lines: readonly KitLine[]): KitLine[] =>
  lines.filter(({ item }) => item.mark === 'unused').sort((a, b) => b.mass - a.mass)

/**
 * What a change of the list does: mass at the start, kg, riding time, s, and energy, J; negative where it gets lighter.
 *
 * @param cost from `kilogramCost`
 * @param time of the whole ride, s
 * @param distance of the whole ride, m
 */
export function kitDifference(
  before: readonly KitItem[],
  after: readonly KitItem[],
  cost: KilogramCost,
  time: number,
  distance: number,
): { mass: number; time: number; energy: number } {
  const sum = (items: readonly KitItem[], of: (item: KitItem) => number) =>
    items.filter(comesAlong).reduce((total, item) => total + of(item), 0)
  const mean = (item: KitItem) => meanMass(item, time, distance)
  const change = sum(after, mean) - sum(before, mean)
  return { mass: sum(after, massOf) - sum(before, massOf), time: change * cost.time, energy: change * cost.energy }
}
