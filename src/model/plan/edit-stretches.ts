import { changedIn, freshId, merged, without } from './lists'
import { most, type Plan, type PlanStretch } from './schema'
import { inOrder, roomOf, shortestStretch, stretchFault } from './stretches'

export type StretchEnd = 'start' | 'end'

/**
 * A new stretch that says nothing of its own yet.
 *
 * @param start ridden distance, m
 * @param end ridden distance, m
 * @returns the plan and the new stretch's id; the same plan and no id where it overlaps another, or the plan holds `most.stretches`
 */
export function addStretch(plan: Plan, start: number, end: number): { plan: Plan; id: string | undefined } {
  const { stretches } = plan
  if (stretches.length >= most.stretches || stretchFault(stretches, { start, end })) return { plan, id: undefined }
  const id = freshId('stretch', stretches)
  const stretch = { id, name: '', start, end, surface: null, shelter: null, speedLimit: null, assistRatio: null }
  return { plan: merged(plan, { stretches: inOrder([...stretches, stretch]) }), id }
}

/** Changes a stretch; the same plan where it would overlap another or end before it begins. */
export function changeStretch(plan: Plan, id: string, change: Partial<PlanStretch>): Plan {
  const stretches = changedIn(plan.stretches, id, change)
  const changed = stretches.find((stretch) => stretch.id === id)
  if (stretches === plan.stretches || changed === undefined || stretchFault(stretches, changed)) return plan
  return merged(plan, { stretches: inOrder(stretches) })
}

/**
 * Moves an end of a stretch as near to a place as its neighbour, the route and its own other end let it.
 *
 * @param to ridden distance, m; may lie anywhere
 * @param length of the route, m
 */
export function moveStretchEnd(plan: Plan, id: string, end: StretchEnd, to: number, length: number): Plan {
  const stretch = plan.stretches.find((stretch) => stretch.id === id)
  if (stretch === undefined) return plan
  const room = roomOf(plan.stretches, stretch, length)
  const place = Math.min(Math.max(to, room.from), room.to)
  return changeStretch(
    plan,
    id,
    end === 'start'
      ? { start: Math.min(place, Math.max(room.from, stretch.end - shortestStretch)) }
      : { end: Math.max(place, Math.min(room.to, stretch.start + shortestStretch)) },
  )
}

export const removeStretch = (plan: Plan, id: string): Plan => merged(plan, { stretches: without(plan.stretches, id) })
