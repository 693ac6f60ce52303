import { footCauses, onFoot, type FootCause } from '../../model/readings/on-foot'
import type { Outcome } from '../../model/forecast/outcome'
import { distance, height, type Units } from '../format'

const causes: Record<FootCause, string> = {
  'too steep': 'too steep to ride with this drive',
  'no charge left': 'the motor could climb it, but no charge is left',
  'pack too weak': 'the motor could climb it, but the pack gives it too little',
}

/** `300 m on foot: too steep to ride with this drive`. @param length walked, m */
export const footText = (cause: FootCause, length: number, units: Units): string =>
  `${length < 1000 ? height(length, units) : distance(length, units)} on foot: ${causes[cause]}`

/** What is walked on the way and why, a sentence for each cause. */
export function footSentences(outcome: Outcome, units: Units): string[] {
  const walked = onFoot(outcome)
  return footCauses.filter((cause) => walked[cause] > 0).map((cause) => `${footText(cause, walked[cause], units)}.`)
}
