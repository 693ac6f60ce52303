import { ratiosOf, type AssistAsk } from '../../model/decide/assist'
import type { BestStops } from '../../model/decide/best-stop'
import type { LatestStarts } from '../../model/decide/latest-start'
import { loadOutsOf, type LoadOut, type LoadOutRide } from '../../model/decide/load-outs'
import type { SureAsk, SureProposal } from '../../model/decide/sure-assist'
import { plainWords } from '../words/words'
import { Asked } from './asked.svelte'

/* What the rider can ask here, with what was found last. */

/** Share of days on which the charge is to stay above the reserve. */
type Sure = SureAsk['sure']
const soonest: AssistAsk['aim'] = { for: 'soonest' }

/** What the best assist is for: of two aims a latest finish, s since the start. */
export interface AssistWish {
  sure: Sure
  aim: { for: 'soonest' } | { for: 'charge' | 'ease'; by: number }
}

export const assistAsked = new Asked<SureProposal, AssistWish>((queue, route, plan, tell, { sure, aim }) =>
  aim.for === 'ease'
    ? queue.run('easiestAssist', route, [{ plan, sure, ratios: ratiosOf(plan), by: aim.by }], tell)
    : queue.run('sureAssist', route, [{ plan, sure, ratios: ratiosOf(plan), aim: aimOf(aim) }], tell),
)

const aimOf = (aim: AssistWish['aim']): AssistAsk['aim'] =>
  aim.for === 'charge' ? { for: 'charge', by: aim.by } : soonest

/** Stops as they are foretold, and each option's best assist, ridden. */
interface RiddenStops extends BestStops {
  ridden: SureProposal[]
}

const shareOfSearch = 0.6

export const stopsAsked = new Asked<RiddenStops, Sure>(async (queue, route, plan, tell, sure) => {
  const searched = await queue.run('bestStops', route, [{ plan, sure }], (share) => tell(shareOfSearch * share))
  if (!searched.ok) return searched
  const [stops] = searched.results as [BestStops]
  const asks = stops.options.map((option): SureAsk => ({
    plan: option.plan,
    sure,
    ratios: ratiosOf(plan),
    aim: soonest,
  }))
  const ridden = await queue.run('sureAssist', route, asks, (share) =>
    tell(shareOfSearch + (1 - shareOfSearch) * share),
  )
  return ridden.ok ? { ok: true, results: [{ ...stops, ridden: ridden.results }] } : ridden
})

/** A load-out, and how it was ridden. */
export interface LoadOutRow {
  loadOut: LoadOut
  ride: LoadOutRide
}

export const loadOutsAsked = new Asked<LoadOutRow, Sure>(async (queue, route, plan, tell, sure) => {
  const loadOuts = loadOutsOf(plan, plainWords().names.pack)
  const asks = loadOuts.map((loadOut) => ({ plan: loadOut.plan, sure }))
  const ridden = await queue.run('rideLoadOut', route, asks, tell)
  return ridden.ok
    ? { ok: true, results: loadOuts.map((loadOut, k) => ({ loadOut, ride: ridden.results[k]! })) }
    : ridden
}, 1)

export const startAsked = new Asked<LatestStarts, Sure>((queue, route, plan, tell, sure) =>
  queue.run('latestStarts', route, [{ plan, sure }], tell),
)
