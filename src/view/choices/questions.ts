import { usualRatios, type AssistAsk, type AssistProposal, type NoAssist } from '../../model/decide/assist'
import type { BestStops } from '../../model/decide/best-stop'
import type { Plan } from '../../model/plan/schema'
import { Asked } from './asked.svelte'

/* What the rider can ask here, with what was found last. */

export type AssistWish = Omit<AssistAsk, 'plan'>
export const usualWish: AssistWish = { ratios: usualRatios, aim: { for: 'soonest' } }

export const assistAsked = new Asked<AssistProposal | NoAssist, AssistWish>((queue, route, plan, tell, wish) =>
  queue.run('bestAssist', route, [{ plan, ...wish }], tell),
)

/** Stops as they are foretold, and each option's best assist, ridden. */
export interface RiddenStops extends BestStops {
  ridden: (AssistProposal | NoAssist)[]
}

const shareOfSearch = 0.6

export const stopsAsked = new Asked<RiddenStops>(async (queue, route, plan, tell) => {
  const searched = await queue.run('bestStops', route, [plan], (share) => tell(shareOfSearch * share))
  if (!searched.ok) return searched
  const [stops] = searched.results as [BestStops]
  const plans = stops.options.map(({ plan }): AssistAsk & { plan: Plan } => ({ plan, ...usualWish }))
  const ridden = await queue.run('bestAssist', route, plans, (share) =>
    tell(shareOfSearch + (1 - shareOfSearch) * share),
  )
  return ridden.ok ? { ok: true, results: [{ ...stops, ridden: ridden.results }] } : ridden
})
