import { openQuestions, type Confirmed } from '../../model/battery/confirmed'
import { usesOf } from '../../model/forecast/sources'
import type { Halt, Outcome } from '../../model/forecast/outcome'
import type { PlanSource } from '../../model/plan/schema'
import type { FoldedWords } from '../words/folded'
import type { SheetWords } from '../words/sheet'

/** What is still to be asked of a source before it may be used. */
export const askedOf = (source: PlanSource | undefined): (keyof Confirmed)[] =>
  source?.kind === 'carried' ? openQuestions(source) : []

/** `Carried pack 1 has 62 % left of 100 %.`; undefined where a halt uses no carried pack. */
export function leftSentence(
  source: PlanSource | undefined,
  { carried }: Halt,
  words: SheetWords['halt'],
): string | undefined {
  if (source === undefined || carried === undefined) return undefined
  return words.left(source.name, carried.before, carried.after)
}

/** What a carried pack has left after each stop and crossing that uses it, in order. */
export function leftSentences(
  { plan, halts }: Outcome,
  source: PlanSource,
  { carried: words }: FoldedWords['packs'],
): string[] {
  const isUsed = usesOf(plan, source.id)
  return halts.flatMap((halt) => {
    if (halt.carried === undefined || !isUsed(halt)) return []
    const name = plan.stops.find(({ id }) => id === halt.stop)?.name ?? words.theCrossing
    return [words.leftAt(name, halt.carried.before, halt.carried.after)]
  })
}
