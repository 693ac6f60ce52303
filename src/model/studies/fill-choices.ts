import type { Outcome } from '../forecast/outcome'
import { simulate } from '../forecast/simulate'
import { crossingsFor } from '../plan/crossings'
import { changeStop } from '../plan/edit'
import { changeCrossing } from '../plan/edit-day'
import type { FillFirst, Plan } from '../plan/schema'

/** The orders in which a stop or a crossing can fill the packs. */
export const fillChoices: readonly FillFirst[] = ['most', 'in use', 'emptiest']

/** A stop by its id, or a crossing by its number among the route's. */
export type Filling = string | number

/** What a charge brings, J of usable energy, and the time of its halt, s. */
export interface Brought {
  energy: number
  time: number
}

/** What a stop or crossing brings by each order. Each is a forecast, so this is not for each frame of a gesture. */
export function broughtBy(outcome: Outcome, filling: Filling): Record<FillFirst, Brought> {
  const brought = (fillFirst: FillFirst): Brought => {
    const plan = filledBy(outcome, filling, fillFirst)
    const { halts } = plan === outcome.plan ? outcome : simulate(outcome.route, plan)
    const halt = halts.find(({ stop, gap }) => stop === filling || gap === filling)
    return halt === undefined
      ? { energy: 0, time: 0 }
      : { energy: halt.leftAfter - halt.leftBefore, time: halt.depart - halt.arrive }
  }
  return { most: brought('most'), 'in use': brought('in use'), emptiest: brought('emptiest') }
}

const filledBy = ({ plan, route }: Outcome, filling: Filling, fillFirst: FillFirst): Plan =>
  typeof filling === 'string'
    ? changeStop(plan, filling, { fillFirst })
    : changeCrossing(plan, filling, { fillFirst }, crossingsFor(route, plan))
