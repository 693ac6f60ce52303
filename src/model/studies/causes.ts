import { tallyOf } from '../forecast/tally'
import type { Plan } from '../plan/schema'
import { stationNear } from '../route/nearest'
import type { Route } from '../route/route'
import { differingGroups, mixPlans, planGroups, type PlanGroup } from './plan-groups'
import { shapley } from './shapley'

/** What of a ride is compared: until it arrives, in motion, and standing, s; taken from the packs, and the least that is left on arrival anywhere, J. */
export const rideFigures = ['finish', 'riding', 'standing', 'energy', 'least'] as const
export type RideFigures = Record<(typeof rideFigures)[number], number>

/** What a ride is made of: one plan with some groups as in another. Many of them share both plans. */
export interface MixedRide {
  plan: Plan
  other: Plan
  /** Bit i: as in `other` is group i of `planGroups`. */
  set: number
  /** Stations between which times are told, ascending from the first to the last. */
  edges: readonly number[]
}

/** Figures of a ride, and the time from each edge to the next, halts at the first of both included, s. */
export interface RideParts {
  figures: RideFigures
  times: number[]
}

/** What a group of the plan does to the figures, and to the time from each edge to the next, s. */
export interface Cause {
  group: PlanGroup
  change: RideFigures
  times: number[]
}

/** Two plans and what makes the difference between them. */
export interface Explained {
  before: RideFigures
  after: RideFigures
  /** Groups by which they differ, in the order of `planGroups`; the changes of a figure sum to its difference. */
  causes: Cause[]
}

/** Stations that part a route into equal parts of its length. @param parts how many */
export const evenEdges = (route: Route, parts: number): number[] =>
  Array.from({ length: parts + 1 }, (_, i) =>
    i === parts ? route.stations.distance.length - 1 : stationNear(route, (i * route.length) / parts),
  )

/**
 * The rides that it takes to explain a difference: one for each set of the groups by which two plans differ, 256 at most.
 *
 * @param route at least two stations
 * @param plan and `other` valid
 */
export function ridesToExplain(route: Route, plan: Plan, other: Plan, edges: readonly number[]): MixedRide[] {
  const groups = differingGroups(route, plan, other)
  return Array.from({ length: 1 << groups.length }, (_, choice) => ({
    plan,
    other,
    set: groups.reduce((set, group, i) => ((choice >> i) & 1 ? set | (1 << planGroups.indexOf(group)) : set), 0),
    edges,
  }))
}

/** Rides one of them. */
export function rideMixed(route: Route, { plan, other, set, edges }: MixedRide): RideParts {
  const groups = planGroups.filter((_, i) => (set >> i) & 1)
  const mixed = mixPlans(route, plan, other, groups)
  const { arriveTime, ridingTime, drained, least } = tallyOf(route, mixed, edges)
  const finish = arriveTime.at(-1)!
  return {
    figures: { finish, riding: ridingTime, standing: finish - ridingTime, energy: drained, least },
    times: edges.slice(1).map((_, i) => arriveTime[i + 1]! - arriveTime[i]!),
  }
}

/**
 * What each group does, by the mean over all orders in which they may be changed one after the other (see `shapley`).
 *
 * @param rides from `ridesToExplain`
 * @param results of each from `rideMixed`
 */
export function explain(rides: readonly MixedRide[], results: readonly RideParts[]): Explained {
  const all = rides.at(-1)!.set
  const groups = planGroups.filter((_, i) => (all >> i) & 1)
  const shares = (of: (ride: RideParts) => number) => shapley(results.map(of))
  const figures = rideFigures.map((figure) => shares((ride) => ride.figures[figure]))
  const times = results[0]!.times.map((_, part) => shares((ride) => ride.times[part]!))
  return {
    before: results[0]!.figures,
    after: results.at(-1)!.figures,
    causes: groups.map((group, i) => ({
      group,
      change: Object.fromEntries(rideFigures.map((figure, k) => [figure, figures[k]![i]!])) as RideFigures,
      times: times.map((part) => part[i]!),
    })),
  }
}
