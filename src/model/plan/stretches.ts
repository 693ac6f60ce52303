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

/**
 * Factor on the bike's rolling coefficient by the surface: that of the stretch, or where it says nothing, or outside of all, the bike's own.
 *
 * @returns dimensionless
 */
export const rollingFactor = ({ surfaceFactor }: Plan['bike'], stretch: PlanStretch | undefined): number =>
  stretch === undefined || stretch.surface === null ? surfaceFactor : surfaces[stretch.surface].factor
