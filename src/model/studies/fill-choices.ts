import type { Alternative } from '../battery/alternatives'
import { fillChoices, type FillFirst } from '../battery/fill-order'
import type { Outcome } from '../forecast/outcome'
import { simulate } from '../forecast/simulate'
import { crossingsFor } from '../plan/crossings'
import { changeStop } from '../plan/edit'
import { changeCrossing } from '../plan/edit-day'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'

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
    const plan = filledBy(outcome.plan, outcome.route, filling, fillFirst)
    const { halts } = plan === outcome.plan ? outcome : simulate(outcome.route, plan)
    const halt = halts.find(({ stop, gap }) => stop === filling || gap === filling)
    return halt === undefined
      ? { energy: 0, time: 0 }
      : { energy: halt.leftAfter - halt.leftBefore, time: halt.depart - halt.arrive }
  }
  return { most: brought('most'), 'in use': brought('in use'), emptiest: brought('emptiest') }
}

/** What the other orders would bring, as changes: of those that bring the same one alone. */
export function otherOrders(outcome: Outcome, filling: Filling): Alternative[] {
  const { plan, route } = outcome
  const halt =
    typeof filling === 'string' ? plan.stops.find(({ id }) => id === filling) : crossingsFor(route, plan)[filling]
  const brought = broughtBy(outcome, filling)
  const seen = new Set<number>()
  return fillChoices
    .filter((order) => order !== halt?.fillFirst)
    .map((order): Alternative => {
      const gain = brought[order].energy - brought[halt?.fillFirst ?? 'most'].energy
      return { change: { code: 'fillOrder', order }, mass: 0, gain }
    })
    .filter(({ gain }) => !seen.has(gain!) && seen.add(gain!))
}

/** A plan with a stop or a crossing that fills the packs in another order. */
export const filledBy = (plan: Plan, route: Route, filling: Filling, fillFirst: FillFirst): Plan =>
  typeof filling === 'string'
    ? changeStop(plan, filling, { fillFirst })
    : changeCrossing(plan, filling, { fillFirst }, crossingsFor(route, plan))
