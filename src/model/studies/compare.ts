import { addPack, changeSource, changeStop, removeStop } from '../plan/edit'
import { mapped } from '../plan/lists'
import type { Numbered } from '../plan/names'
import type { Plan } from '../plan/schema'
import { totalMass } from '../forecast/mass'
import type { Outcome } from '../forecast/outcome'
import { marginOf, reachFrom, type Margin, type Reach } from '../readings/reach'
import { simulate } from '../forecast/simulate'

/** A day with a carried source, with another bike pack in its place, or with neither. */
export interface CarryChoice {
  what: 'carried' | 'pack' | 'neither'
  plan: Plan
  outcome: Outcome
  /** At the start, all in all, kg. */
  mass: number
  /** From the start to the finish, s. */
  time: number
  margin: Margin
  /** From the start. */
  reach: Reach
}

/**
 * A plan in which nothing is charged from a source, so that it stays at home. Stops that are there for charging fall away; others stay as rests,
 * crossings as they are.
 *
 * @param id of the source
 */
export function planWithout(plan: Plan, id: string): Plan {
  const uses = ({ source }: { source: string | null }) => source === id
  const comes = plan.sources.some((source) => source.id === id && source.kind !== 'swap' && source.along === true)
  let without = comes ? changeSource(plan, id, { along: false }) : plan
  for (const stop of plan.stops.filter(uses))
    without = stop.kind === 'charge' ? removeStop(without, stop.id) : changeStop(without, stop.id, { source: null })
  const crossings = mapped(without.crossings, (crossing) => (uses(crossing) ? { ...crossing, source: null } : crossing))
  return crossings === without.crossings ? without : { ...without, crossings }
}

/** Whether a stop or a crossing charges from a source. */
export const isUsed = ({ stops, crossings }: Plan, id: string): boolean =>
  [...stops, ...crossings].some(({ source }) => source === id)

/**
 * Carry it or not: the day with a source at its stops, as it is; with another bike pack, like the last, in its place; and with neither. Two rides are
 * simulated, so this is not for each frame of a gesture.
 *
 * @param outcome of the plan as it is
 * @param id of a charge source
 * @param named what the other pack is called
 * @returns one entry a choice; none where nothing uses the source; without another pack where the plan holds as many as it can
 */
export function carryOrNot(outcome: Outcome, id: string, named: Numbered): CarryChoice[] {
  const { plan, route } = outcome
  if (!isUsed(plan, id)) return []
  const neither = planWithout(plan, id)
  const another = addPack(neither, named)
  return [
    choice('carried', outcome),
    ...(another === neither ? [] : [choice('pack', simulate(route, another))]),
    choice('neither', simulate(route, neither)),
  ]
}

function choice(what: CarryChoice['what'], outcome: Outcome): CarryChoice {
  const { plan, columns } = outcome
  return {
    what,
    plan,
    outcome,
    mass: totalMass(plan),
    time: columns.time.at(-1)!,
    margin: marginOf(outcome),
    reach: reachFrom(outcome, 0),
  }
}
