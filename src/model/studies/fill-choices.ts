import type { Outcome } from '../forecast/outcome'
import { simulate } from '../forecast/simulate'
import { changeStop } from '../plan/edit'
import type { FillFirst } from '../plan/schema'

/** The orders in which a stop can fill the packs. */
export const fillChoices: readonly FillFirst[] = ['most', 'in use', 'emptiest']

/** What a stop brings by each order, J of usable energy. Each is a forecast, so this is not for each frame of a gesture. */
export function broughtBy(outcome: Outcome, stop: string): Record<FillFirst, number> {
  const brought = (fillFirst: FillFirst) => {
    const plan = changeStop(outcome.plan, stop, { fillFirst })
    const { halts } = plan === outcome.plan ? outcome : simulate(outcome.route, plan)
    const halt = halts.find((halt) => halt.stop === stop)
    return halt === undefined ? 0 : halt.leftAfter - halt.leftBefore
  }
  return { most: brought('most'), 'in use': brought('in use'), emptiest: brought('emptiest') }
}
