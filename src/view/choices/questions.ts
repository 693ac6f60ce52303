import type { AssistAsk, AssistProposal, NoAssist } from '../../model/decide/assist'
import { Asked } from './asked.svelte'

/** What the rider can ask here, with what was found last. */
export const assistAsked = new Asked<AssistProposal | NoAssist, Omit<AssistAsk, 'plan'>>(
  (queue, route, plan, tell, wish) => queue.run('bestAssist', route, [{ plan, ...wish }], tell),
)
