import { firstMissed, passagesFor, ridingMargin } from '../../model/readings/passages'
import { type Passage } from '../../model/world/controls'
import { leftAtFinish, type Outcome } from '../../model/forecast/outcome'
import { marginOf } from '../../model/readings/reach'
import { clockAfter } from '../../model/world/zone'
import type { Units } from '../format'
import { wordsIn, type Words } from '../words/words'

/**
 * The answer in a sentence or two: the first control that is missed, or the goal, comes before the charge; without elevation first of all that it is for
 * flat ground.
 *
 * @param passages of the same forecast, in order of the route
 */
export function answerSentence(outcome: Outcome, passages: readonly Passage[], units: Units): string {
  const words = wordsIn(units)
  const said = [
    lateSentence(outcome, passages, words),
    words.answer.charge(marginOf(outcome), leftAtFinish(outcome), outcome),
  ]
    .filter((said) => said !== undefined)
    .join(' ')
  return outcome.route.elevationKnown === 'none' ? words.answer.onFlat(said) : said
}

/** What fails by the clock; undefined if nothing does. */
function lateSentence(outcome: Outcome, passages: readonly Passage[], { answer, place }: Words): string | undefined {
  const { plan } = outcome
  const missed = firstMissed(passages)
  const margin = ridingMargin(outcome)
  if (missed === undefined)
    return margin !== undefined && margin < 0 ? answer.ridingGoalMissed(plan.ridingGoal!, margin) : undefined
  return missed.kind === 'goal'
    ? answer.goalMissed(plan.goal!, missed.margin!)
    : answer.controlMissed(place(missed.name), missed.margin!)
}

/** The answer in one short line: what fails first. */
export function verdictInShort(outcome: Outcome, units: Units): string {
  const { answer, place } = wordsIn(units)
  const missed = firstMissed(passagesFor(outcome))
  const finish = clockAfter(outcome.plan.start, outcome.columns.time.at(-1)!, outcome.zone)
  const said =
    missed === undefined
      ? answer.verdict(marginOf(outcome), leftAtFinish(outcome) / outcome.usable, finish)
      : answer.missed(missed.kind === 'goal' ? answer.goal : place(missed.name), missed.margin!)
  return outcome.route.elevationKnown === 'none' ? answer.onFlatInShort(said) : said
}
