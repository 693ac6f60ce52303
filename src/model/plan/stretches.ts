import { surfaces } from './parameters'
import type { Plan, PlanStretch } from './schema'

/** Stretches by where they begin. */
export const inOrder = (stretches: readonly PlanStretch[]): PlanStretch[] =>
  [...stretches].sort((a, b) => a.start - b.start)

/** Why a stretch can't lie where it is to lie. */
export type StretchFault = { kind: 'order' } | { kind: 'overlap'; with: PlanStretch }

/**
 * What is wrong with the place of a stretch: it ends before it begins, or overlaps another. Touching is fine.
 *
 * @param others the stretches that it may not overlap; one of the same id is passed over
 */
export function stretchFault(
  others: readonly PlanStretch[],
  { id, start, end }: Pick<PlanStretch, 'start' | 'end'> & { id?: string },
): StretchFault | undefined {
  if (!(start < end)) return { kind: 'order' }
  const other = others.find((one) => one.id !== id && one.start < end && start < one.end)
  return other && { kind: 'overlap', with: other }
}

/** A hand does not make a stretch shorter than this, m: two stations. */
export const shortestStretch = 20

/**
 * How far the ends of a stretch can go: to its neighbours, and to the ends of the route.
 *
 * @param stretches of the plan, apart from each other
 * @param length of the route, m
 * @returns ridden distances, m
 */
export function roomOf(
  stretches: readonly PlanStretch[],
  { id, start, end }: PlanStretch,
  length: number,
): { from: number; to: number } {
  const others = stretches.filter((one) => one.id !== id)
  return {
    from: Math.max(0, ...others.filter((one) => one.end <= start).map((one) => one.end)),
    to: Math.min(length, ...others.filter((one) => one.start >= end).map((one) => one.start)),
  }
}

const newLength = 5000 // m
const leastFree = 100 // m

/**
 * Where a new stretch of up to 5 km is laid: from a place on, or up to what ends less than 100 m behind it; where that place is taken, in the
 * middle of the longest part that has none.
 *
 * @param stretches of the plan, apart from each other
 * @param at ridden distance, m; undefined where nobody pointed to one
 * @param length of the route, m
 * @returns ridden distances, m; undefined where nothing is free
 */
export function freeStretch(
  stretches: readonly PlanStretch[],
  at: number | undefined,
  length: number,
): { start: number; end: number } | undefined {
  const edges = [0, ...inOrder(stretches).flatMap(({ start, end }) => [start, end]), length]
  const free = Array.from({ length: edges.length / 2 }, (_, k) => ({ start: edges[2 * k]!, end: edges[2 * k + 1]! }))
    .map(({ start, end }) => ({ start: Math.min(start, length), end: Math.min(end, length) }))
    .filter(({ start, end }) => end - start >= leastFree)
  const here = free.find(({ start, end }) => at !== undefined && start <= at && at <= end)
  if (here !== undefined && at !== undefined) {
    const start = at + leastFree <= here.end ? at : Math.max(here.start, here.end - newLength)
    return { start, end: Math.min(here.end, start + newLength) }
  }
  const [longest] = free.sort((a, b) => b.end - b.start - (a.end - a.start))
  if (longest === undefined) return undefined
  const middle = (longest.start + longest.end) / 2
  const half = Math.min(newLength, longest.end - longest.start) / 2
  return { start: middle - half, end: middle + half }
}

/**
 * Factor on the bike's rolling coefficient by the surface: that of the stretch, or where it says nothing, or outside of all, the bike's own.
 *
 * @returns dimensionless
 */
export const rollingFactor = ({ surfaceFactor }: Plan['bike'], stretch: PlanStretch | undefined): number =>
  stretch === undefined || stretch.surface === null ? surfaceFactor : surfaces[stretch.surface]
