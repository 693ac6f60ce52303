import type { Halt, Outcome } from '../outcome/outcome'

/** Indices of two packs of the plan: the one in use on arrival and the one in use from there. */
export interface Swap {
  off: number
  on: number
}

/**
 * The swap of packs that is made at a halt: one that is planned there, or that of a spent pack.
 *
 * @returns undefined where no swap is planned; one pack twice where none is left to be put in
 */
export function swapAt({ plan, columns }: Outcome, { kind, station, stop, gap }: Halt): Swap | undefined {
  const source = gap === undefined ? plan.stops.find(({ id }) => id === stop)?.source : plan.crossings[gap]?.source
  const planned = plan.sources.find(({ id }) => id === source)?.kind === 'swap'
  if (kind !== 'swap' && !planned) return undefined
  const on = columns.pack[station]!
  return { off: columns.pack[station - 1] ?? on, on }
}
