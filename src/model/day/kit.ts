import type { Outcome } from '../outcome/outcome'
import type { KitItem } from '../plan/day-schema'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'

/** Whether an item is on the road: all but what stays home. */
export const comesAlong = ({ mark }: KitItem): boolean => mark !== 'stays'

/** Mass of all of an item, kg, whether it comes along or not. */
export const massOf = ({ mass, count }: KitItem): number => mass * count

/** Mass of what comes along, kg: by place, and all. */
export function kitTotals(items: readonly KitItem[]): Record<KitItem['place'] | 'all', number> {
  const totals = { bike: 0, rider: 0, spare: 0, all: 0 }
  for (const item of items.filter(comesAlong)) {
    totals[item.place] += massOf(item)
    totals.all += massOf(item)
  }
  return totals
}

/**
 * Mass of an item that is left at some point of the ride, kg; what is not used up keeps its mass. Refills are not counted.
 *
 * @param time since the start, s
 * @param distance ridden, m
 */
export function massLeft(item: KitItem, time: number, distance: number): number {
  if (item.use === null) return massOf(item)
  return Math.max(0, massOf(item) - item.use.rate * (item.use.by === 'time' ? time : distance))
}

/**
 * Mean mass of an item over a ride that goes evenly, kg.
 *
 * @param time of the whole ride, s
 * @param distance of the whole ride, m
 */
export function meanMass(item: KitItem, time: number, distance: number): number {
  const all = massOf(item)
  if (item.use === null) return all
  const used = item.use.rate * (item.use.by === 'time' ? time : distance)
  return used <= all ? all - used / 2 : (all * all) / (2 * used)
}

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
 * @param simulate the forecast
 * @param massChange to either side, kg
 */
export function kilogramCost(
  route: Route,
  plan: Plan,
  simulate: (route: Route, plan: Plan) => Outcome,
  massChange = 4,
): KilogramCost {
  const at = (change: number) => {
    const { columns, electric, books } = simulate(route, {
      ...plan,
      bike: { ...plan.bike, luggage: plan.bike.luggage + change },
    })
    return { time: columns.ridingTime.at(-1)!, energy: electric.drained, riderWork: books.riderWork }
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

/** The list with one item replaced by another in its row, under the same id. */
export const replaceItem = (items: readonly KitItem[], id: string, by: Omit<KitItem, 'id'>): KitItem[] =>
  items.map((item) => (item.id === id ? { ...by, id } : item))

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
