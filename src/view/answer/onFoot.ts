import { footCauses, onFoot } from '../../model/readings/on-foot'
import type { Outcome } from '../../model/forecast/outcome'
import type { Units } from '../format'
import { wordsIn } from '../words/words'

/** What is walked on the way and why, a sentence for each cause. */
export function footSentences(outcome: Outcome, units: Units): string[] {
  const walked = onFoot(outcome)
  const { onFoot: words } = wordsIn(units)
  return footCauses.filter((cause) => walked[cause] > 0).map((cause) => `${words(cause, walked[cause])}.`)
}
