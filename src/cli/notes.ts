import type { Outcome } from '../model/forecast/outcome'
import type { ReadRoute } from '../model/route/reading'

/** Something found in the route file, or that the route and the plan do not fit: a code with its values, SI. */
export interface Note {
  code: string
  [value: string]: number | string | boolean
}

export function notesOn({ route, arrangement, proposals }: ReadRoute, { plan }: Outcome): Note[] {
  const { question, rides, all } = arrangement
  const notes: Note[] = [...route.notes]
  if (question !== undefined)
    notes.push({ code: 'whichRide', question, rides: rides.length, length: all.length, between: all.between })
  for (const [code, count] of Object.entries(route.counts)) if (count > 0) notes.push({ code, count })
  for (const { kind, from, to, time } of proposals)
    notes.push({ code: 'looksTravelled', kind, length: to - from, time })
  const beyond = plan.stops.filter(({ distance }) => distance > route.length).length
  if (beyond > 0) notes.push({ code: 'stopsBeyondRoute', count: beyond })
  return notes
}
