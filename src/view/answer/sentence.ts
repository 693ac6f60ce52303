import { leftAtFinish, type Outcome } from '../../model/outcome/outcome'
import { marginOf } from '../../model/outcome/reach'
import { distance, percent, place, wattHours, type Units } from '../format'

/** The answer in one sentence: does the charge last, with what margin, or how short and where. */
export function answerSentence(outcome: Outcome, units: Units): string {
  const { verdict, margin, emptyAt, reserveAt } = marginOf(outcome)
  const left = leftAtFinish(outcome)
  const arrival = percent(left / outcome.usable)
  switch (verdict) {
    case 'lasts':
      return `The charge lasts: ${arrival} at the finish, ${wattHours(margin)} above your reserve.`
    case 'reserve':
      return left >= outcome.reserve
        ? `The charge lasts, ${arrival} at the finish, but falls below your reserve from ${place(reserveAt!, units)}.`
        : `The charge just lasts: ${arrival} at the finish, ${wattHours(-margin)} below your reserve from ${place(reserveAt!, units)}.`
    case 'empty':
      return `The charge does not last: the motor stops at ${place(emptyAt!, units)}, ${distance(outcome.length - emptyAt!, units)} before the finish.`
  }
}

/** What a harder or an easier running bike would make of it, in a few words. */
export function endInShort(outcome: Outcome, units: Units): string {
  return outcome.emptyAt === undefined
    ? `${percent(leftAtFinish(outcome) / outcome.usable)} left`
    : `motor off at ${place(outcome.emptyAt, units)}`
}
