import type { Spread } from '../../model/studies/spread'
import { firstMissed } from '../../model/readings/passages'
import { type Passage } from '../../model/world/controls'
import { leftAtFinish, type Outcome } from '../../model/forecast/outcome'
import { marginOf } from '../../model/readings/reach'
import { distance, duration, percent, place, wattHours, type Units } from '../format'
import { shortBy } from '../words'
import { wordsIn } from '../words/words'

/**
 * The answer in a sentence or two: the first control that is missed, or the goal, comes before the charge.
 *
 * @param passages of the same forecast, in order of the route
 */
export function answerSentence(outcome: Outcome, passages: readonly Passage[], units: Units): string {
  return [lateSentence(outcome, passages, units), chargeSentence(outcome, units)]
    .filter((said) => said !== undefined)
    .join(' ')
}

/** What fails by the clock; undefined if nothing does. */
function lateSentence(outcome: Outcome, passages: readonly Passage[], units: Units): string | undefined {
  const missed = firstMissed(passages)
  if (missed === undefined) return undefined
  const late = shortBy(missed.margin!)
  if (missed.kind === 'goal') return `You miss your goal of ${duration(outcome.plan.goal!)} by ${late}.`
  const name = wordsIn(units).place(missed.name)
  return `You miss ${/^control\b/i.test(name) ? '' : 'the control '}${name} by ${late}.`
}

/** Does the charge last, with what margin, or how short and where. */
function chargeSentence(outcome: Outcome, units: Units): string {
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
function endInShort(outcome: Outcome, units: Units): string {
  return outcome.emptyAt === undefined
    ? `${percent(leftAtFinish(outcome) / outcome.usable)} left`
    : `motor off at ${place(outcome.emptyAt, units)}`
}

/** Between what ends the day is likely to go, in a few words. */
export function rangeInShort({ harder, easier }: Spread, units: Units): string {
  const worse = endInShort(harder, units)
  const better = endInShort(easier, units)
  return worse === better ? worse : `between ${worse} and ${better}`
}
