import type { Outcome } from '../model/forecast/outcome'
import type { ReadRoute } from '../model/route/reading'
import { gapWordsIn } from '../view/words/gaps'
import { whichWordsIn } from '../view/words/which'
import { wordsIn } from '../view/words/words'

/** Something found in the route file, or that the route and the plan do not fit: a code with its values, SI. */
export interface Note {
  code: string
  [value: string]: number | string | boolean
}

/** All that was found, for a script. */
export function notesOn(reading: ReadRoute, outcome: Outcome): Note[] {
  const { question, rides, all } = reading.arrangement
  const asked =
    question === undefined
      ? []
      : [{ code: 'whichRide', question, rides: rides.length, length: all.length, between: all.between }]
  return [...reading.route.notes, ...asked, ...mendedAndBeside(reading, outcome)]
}

/** The same for who reads it: in the words of the page where it has a sentence, with why each gap is a crossing or ridden. */
export function sentencesOn(reading: ReadRoute, outcome: Outcome): string[] {
  const { note } = wordsIn('metric').route
  const { which } = whichWordsIn('metric')
  const { gap } = gapWordsIn('metric')
  const { arrangement, route, gaps } = reading
  return [
    ...(arrangement.question === undefined ? [] : [which(arrangement)]),
    ...route.notes.map(note),
    ...gaps.map(gap),
    ...mendedAndBeside(reading, outcome).map(({ code, ...values }) =>
      [code, ...Object.entries(values).map(([name, value]) => `${name} ${value}`)].join(', '),
    ),
  ]
}

function mendedAndBeside({ route, proposals }: ReadRoute, { plan }: Outcome): Note[] {
  const notes: Note[] = []
  for (const [code, count] of Object.entries(route.counts)) if (count > 0) notes.push({ code, count })
  for (const { kind, from, to, time } of proposals)
    notes.push({ code: 'looksTravelled', kind, length: to - from, time })
  const beyond = plan.stops.filter(({ distance }) => distance > route.length).length
  if (beyond > 0) notes.push({ code: 'stopsBeyondRoute', count: beyond })
  return notes
}
