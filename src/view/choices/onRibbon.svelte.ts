import type { AssistProposal } from '../../model/decide/assist'

/** The assist that is proposed, and what one more watt-hour is worth by it: along the ribbon, as long as the answer is unfolded. */
interface ShownAssist {
  /** Motor power for each watt of the rider, one entry a station. */
  ratios: Float64Array
  along: AssistProposal['along']
}

class OnRibbon {
  assist = $state.raw<ShownAssist | undefined>()
}
export const onRibbon = new OnRibbon()
