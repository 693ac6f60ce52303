import type { Spread } from '../../model/studies/spread'
import { firstMissed } from '../../model/readings/passages'
import { type Passage } from '../../model/world/controls'
import { leftAtFinish, type Outcome } from '../../model/forecast/outcome'
import { marginOf } from '../../model/readings/reach'
import type { Units } from '../format'
import { wordsIn, type Words } from '../words/words'

/**
 * The answer in a sentence or two: the first control that is missed, or the goal, comes before the charge.
 *
 * @param passages of the same forecast, in order of the route
 */
export function answerSentence(outcome: Outcome, passages: readonly Passage[], units: Units): string {
  const words = wordsIn(units)
  return [
    lateSentence(outcome, passages, words),
    words.answer.charge(marginOf(outcome), leftAtFinish(outcome), outcome),
  ]
    .filter((said) => said !== undefined)
    .join(' ')
}

/** What fails by the clock; undefined if nothing does. */
function lateSentence({ plan }: Outcome, passages: readonly Passage[], { answer, place }: Words): string | undefined {
  const missed = firstMissed(passages)
  if (missed === undefined) return undefined
  return missed.kind === 'goal'
    ? answer.goalMissed(plan.goal!, missed.margin!)
    : answer.controlMissed(place(missed.name), missed.margin!)
}

/** Between what ends the day is likely to go, in a few words. */
export function rangeInShort({ harder, easier }: Spread, units: Units): string {
  const { answer } = wordsIn(units)
  const inShort = (outcome: Outcome) =>
    outcome.emptyAt === undefined
      ? answer.left(leftAtFinish(outcome) / outcome.usable)
      : answer.motorOff(outcome.emptyAt)
  const worse = inShort(harder)
  const better = inShort(easier)
  return worse === better ? worse : answer.between(worse, better)
}
