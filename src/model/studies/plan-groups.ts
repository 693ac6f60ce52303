import { crossingsFor } from '../plan/crossings'
import { isEqual } from '../plan/differences'
import type { Plan, PlanCrossing, PlanStop, PlanStretch } from '../plan/schema'
import type { Route } from '../route/route'

/** Parts of a plan that a difference between two plans is told by. */
export const planGroups = ['mass', 'rider', 'bike', 'packs', 'stops', 'weather', 'assist', 'start'] as const
export type PlanGroup = (typeof planGroups)[number]

/** Where each part of the plan belongs with all that stands in it, but for what `apart` names. */
const home: Record<Exclude<keyof Plan, 'format' | 'version' | 'stretches'>, PlanGroup> = {
  start: 'start',
  zone: 'start',
  goal: 'start',
  ridingGoal: 'start',
  legs: 'start',
  rider: 'rider',
  needs: 'rider',
  learnt: 'rider',
  bike: 'bike',
  pedalling: 'bike',
  assist: 'assist',
  steps: 'assist',
  weather: 'weather',
  forecastAhead: 'weather',
  wet: 'weather',
  battery: 'packs',
  sources: 'packs',
  stops: 'stops',
  crossings: 'stops',
  controls: 'stops',
  kit: 'mass',
  readings: 'start',
  beliefs: 'rider',
}

/** What belongs elsewhere than the part it stands in: masses, small halts, and what a stop or a crossing charges with. */
const apart = {
  rider: { mass: 'mass', smallHalts: 'stops' },
  bike: { mass: 'mass', luggage: 'mass' },
  stops: { source: 'packs', fillFirst: 'packs' },
  crossings: { source: 'packs', fillFirst: 'packs' },
} as const satisfies {
  rider: Partial<Record<keyof Plan['rider'], PlanGroup>>
  bike: Partial<Record<keyof Plan['bike'], PlanGroup>>
  stops: Partial<Record<keyof PlanStop, PlanGroup>>
  crossings: Partial<Record<keyof PlanCrossing, PlanGroup>>
}

/** What a stretch states, each by itself: its surface is ridden by the bike, its shelter keeps off the weather. */
const ofStretch = {
  surface: 'bike',
  speedLimit: 'bike',
  shelter: 'weather',
  assistRatio: 'assist',
} as const satisfies Record<Exclude<keyof PlanStretch, 'id' | 'name' | 'start' | 'end'>, PlanGroup>
type Own = keyof typeof ofStretch
const owns = Object.keys(ofStretch) as Own[]

/**
 * One plan with some groups as in another. The mix is valid where both are:
 * - A stop stands where, when and as long as the plan of the stops says; what it charges with, and in which order, says the plan of the packs, by the
 *   stop's id. A stop that the latter does not know keeps its source where that is among those of the packs' plan. Else it is a rest for its time:
 *   a source comes only with the plan whose packs and charging it belongs to, so that what it brings is counted there.
 * - Crossings likewise, by their order.
 * - Stretches are cut where those of either plan begin or end; each piece says of surface and speed limit, shelter, and assist what the plan of that group
 *   says there. So there may be more than a plan in a file can hold.
 *
 * @param route to which both plans belong
 * @param groups that are as in `other`
 * @returns `plan` or `other` itself where none or all of them are
 */
export function mixPlans(route: Route, plan: Plan, other: Plan, groups: readonly PlanGroup[]): Plan {
  if (groups.length === 0) return plan
  if (planGroups.every((group) => groups.includes(group))) return other
  const from = (group: PlanGroup) => (groups.includes(group) ? other : plan)
  const mixed: Plan = { ...plan }
  const take = <Key extends keyof typeof home>(key: Key) => (mixed[key] = from(home[key])[key])
  for (const key of Object.keys(home) as (keyof typeof home)[]) take(key)
  mixed.rider = withApart(mixed.rider, apart.rider, (group) => from(group).rider)
  mixed.bike = withApart(mixed.bike, apart.bike, (group) => from(group).bike)
  if (from('stops') !== from('packs')) {
    mixed.stops = stopsOf(from('stops'), from('packs'))
    mixed.crossings = isEqual(plan.crossings, other.crossings)
      ? plan.crossings
      : crossingsOf(route, from('stops'), from('packs'))
  }
  mixed.stretches = isEqual(plan.stretches, other.stretches) ? plan.stretches : stretchesOf(plan, other, from)
  return mixed
}

/** Groups by which two plans differ, in the order of `planGroups`. */
export function differingGroups(route: Route, plan: Plan, other: Plan): PlanGroup[] {
  const whole = (one: Plan): Plan => ({ ...one, crossings: crossingsFor(route, one) })
  const before = whole(plan)
  return planGroups.filter((group) => !isEqual(whole(mixPlans(route, plan, other, [group])), before))
}

function withApart<T extends object>(
  record: T,
  groups: Partial<Record<keyof T, PlanGroup>>,
  of: (group: PlanGroup) => T,
): T {
  const changed = { ...record }
  for (const key of Object.keys(groups) as (keyof T)[]) changed[key] = of(groups[key]!)[key]
  return changed
}

const stopsOf = ({ stops }: Plan, charging: Plan): PlanStop[] =>
  stops.map((stop) => {
    const named = charging.stops.find(({ id }) => id === stop.id)
    if (named !== undefined) return { ...stop, source: named.source, fillFirst: named.fillFirst }
    return charging.sources.some(({ id }) => id === stop.source) ? stop : { ...stop, source: null }
  })

function crossingsOf(route: Route, plan: Plan, charging: Plan): PlanCrossing[] {
  const named = crossingsFor(route, charging)
  return crossingsFor(route, plan).map(({ timetable }, i) => ({ ...named[i]!, timetable }))
}

function stretchesOf(plan: Plan, other: Plan, from: (group: PlanGroup) => Plan): PlanStretch[] {
  const one = from(ofStretch.surface)
  if (owns.every((own) => from(ofStretch[own]) === one)) return one.stretches
  const mixed = pieces(plan, other, from)
  // Names, and stretches that say nothing, are no difference.
  return (
    [plan, other].find((whole) =>
      isEqual(
        pieces(plan, other, () => whole),
        mixed,
      ),
    )?.stretches ?? mixed
  )
}

/** What is said along the road, in as few pieces as it takes. */
function pieces(plan: Plan, other: Plan, from: (group: PlanGroup) => Plan): PlanStretch[] {
  const ends = [...plan.stretches, ...other.stretches].flatMap(({ start, end }) => [start, end])
  const edges = [...new Set(ends)].sort((a, b) => a - b)
  const found: PlanStretch[] = []
  for (const [i, start] of edges.slice(0, -1).entries()) {
    const end = edges[i + 1]!
    const there = ({ stretches }: Plan) => stretches.find((stretch) => stretch.start <= start && end <= stretch.end)
    const said = Object.fromEntries(owns.map((own) => [own, there(from(ofStretch[own]))?.[own] ?? null])) as Pick<
      PlanStretch,
      Own
    >
    const last = found.at(-1)
    if (last?.end === start && owns.every((own) => last[own] === said[own])) last.end = end
    else if (owns.some((own) => said[own] !== null))
      found.push({ id: `stretch-${found.length + 1}`, name: '', start, end, ...said })
  }
  return found
}
