import type { TransferEnd } from '../battery/transfer-run'
import type { Halt, Outcome } from '../forecast/outcome'
import { chargesToShare } from '../plan/stop-goal'

/** How a charge ends that would have come to the same with less on arrival, given the time. */
const complete: readonly TransferEnd[] = ['until', 'full', 'chargerVoltage']

/**
 * Up to what energy a halt charges with however little one arrives; undefined where what it adds is what its time or its source gives.
 * A carried pack is taken to hold what is more to put in.
 *
 * @returns usable energy of all packs on leaving, J
 */
export function chargesUpTo({ plan, usable }: Outcome, halt: Halt): number | undefined {
  const stop = plan.stops.find(({ id }) => id === halt.stop)
  if (stop === undefined || !chargesToShare(stop) || halt.refusal !== undefined) return undefined
  if (halt.charges.length > 0)
    return halt.charges.every(({ run }) => complete.includes(run.end)) ? halt.leftAfter : undefined
  // Nothing was to be put in: one that arrives with less than the share is charged to it.
  const mains = plan.sources.some(({ id, kind }) => id === stop.source && kind === 'mains')
  return mains ? stop.chargeTo * usable : undefined
}
