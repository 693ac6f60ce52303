import { tallyOf } from '../forecast/tally'
import type { KitItem } from '../plan/day-schema'
import { comesAlong, massOf } from '../plan/kit'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'

/** What something costs: riding time, s, without halts, so that no sailing just caught or missed hides it; energy from the packs, J; work of the rider, J. */
export interface MassCost {
  time: number
  energy: number
  riderWork: number
}

/** What a ride takes, and whether its packs run empty. */
export interface RideTaken extends MassCost {
  runsEmpty: boolean
}

/** Rides a plan for what it takes. */
export function rideTaken(route: Route, plan: Plan): RideTaken {
  const { ridingTime, drained, riderWork, runsEmpty } = tallyOf(route, plan)
  return { time: ridingTime, energy: drained, riderWork, runsEmpty }
}

/** How much more one ride takes than another. */
export const taken = (more: MassCost, less: MassCost): MassCost => ({
  time: more.time - less.time,
  energy: more.energy - less.energy,
  riderWork: more.riderWork - less.riderWork,
})

/** What a kilogram costs: the next one, and the last one that is there; the same where the day is even. */
export interface KilogramCost {
  next: MassCost
  last: MassCost
  /** Why they are not about the same: with one of the two the packs run empty and with the other not, or something else tips, such as where a pack is spent. */
  why: 'runsEmpty' | 'tips' | undefined
}

/** A line of the kit list with its mass, kg, and what it costs: what the ride takes more with it than without it; for what stays home, what it would. */
export interface KitLine extends MassCost {
  item: KitItem
  /** All of it at the start. */
  mass: number
}

/** What the kit list costs, each by the difference of two forecasts. */
export interface KitCosts {
  kilogram: KilogramCost
  /** All that comes along; and of it what came back unused from the last ride. */
  list: MassCost
  unused: MassCost
  lines: KitLine[]
}

/** Costs of two neighbouring kilograms that differ by less than this share are about the same. */
const even = 0.1

const heavier = (plan: Plan, by: number): Plan => ({
  ...plan,
  bike: { ...plan.bike, luggage: plan.bike.luggage + by },
})

const withMark = (plan: Plan, mark: (item: KitItem) => KitItem['mark']): Plan => ({
  ...plan,
  kit: plan.kit.map((item) => ({ ...item, mark: mark(item) })),
})

/** Plans that are ridden to know what the kit costs: as it is, with a kilogram more and less, without the list, without what was unused, and without or with each thing. */
export const plansForKit = (plan: Plan): Plan[] => [
  plan,
  heavier(plan, 1),
  heavier(plan, -1),
  withMark(plan, () => 'stays'),
  withMark(plan, ({ mark }) => (mark === 'unused' ? 'stays' : mark)),
  ...plan.kit.map(({ id }) =>
    withMark(plan, (item) => (item.id !== id ? item.mark : comesAlong(item) ? 'stays' : 'comes')),
  ),
]

/**
 * What the kit costs.
 *
 * @param plan of which `rides` are by `plansForKit`, in that order
 */
export function kitCosts(plan: Plan, rides: readonly RideTaken[]): KitCosts {
  const [now, more, less, without, used, ...each] = rides as [RideTaken, RideTaken, RideTaken, RideTaken, RideTaken]
  const [next, last] = [taken(more, now), taken(now, less)]
  const differ = (key: 'time' | 'energy') => Math.abs(next[key] - last[key]) > even * Math.abs(next[key] + last[key])
  return {
    kilogram: {
      ...{ next, last },
      why: more.runsEmpty !== less.runsEmpty ? 'runsEmpty' : differ('time') || differ('energy') ? 'tips' : undefined,
    },
    list: taken(now, without),
    unused: taken(now, used),
    lines: plan.kit.map((item, i) => {
      const other = (each as RideTaken[])[i]!
      return { item, mass: massOf(item), ...(comesAlong(item) ? taken(now, other) : taken(other, now)) }
    }),
  }
}

/** The list before anything was ridden. */
export const unridden = (items: readonly KitItem[]): KitLine[] =>
  items.map((item) => ({ item, mass: massOf(item), time: 0, energy: 0, riderWork: 0 }))

/** What came back unused from the last ride, heaviest first. */
export const heavyAndUnused = (lines: readonly KitLine[]): KitLine[] =>
  lines.filter(({ item }) => item.mark === 'unused').sort((a, b) => b.mass - a.mass)
