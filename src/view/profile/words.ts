import { readingAt } from '../../model/readings/at'
import type { Outcome } from '../../model/forecast/outcome'
import { distance, height, percent, place, type Units } from '../format'

/** What a screen reader says of a place: km, elevation, charge. */
export function placeText(outcome: Outcome, at: number, units: Units): string {
  const { elevation, left } = readingAt(outcome, at)
  const parts = [place(at, units), `charge ${percent(left / outcome.usable)}`]
  if (outcome.route.elevationKnown !== 'none') parts.splice(1, 0, `elevation ${height(elevation, units)}`)
  return parts.join(', ')
}

/** Charge on arrival at a stop and on leaving it, as shares; undefined if the outcome has no such stop. */
export function chargesAtStop({ halts, usable }: Outcome, stop: string): { arrive: number; leave: number } | undefined {
  const halt = halts.find((halt) => halt.stop === stop)
  return halt && { arrive: halt.leftBefore / usable, leave: halt.leftAfter / usable }
}

/** What a screen reader says of a stop's pin. */
export function stopText(outcome: Outcome, stop: { id: string; distance: number }, units: Units): string {
  const charges = chargesAtStop(outcome, stop.id)
  const where = place(Math.min(stop.distance, outcome.length), units)
  return charges === undefined
    ? where
    : `${where}, arrives with ${percent(charges.arrive)}, leaves with ${percent(charges.leave)}`
}

/** The profile in one sentence. */
export function profileSentence(outcome: Outcome, units: Units): string {
  const { route, columns, usable } = outcome
  let lowest = 0
  for (let i = 1; i < columns.left.length; i++) if (columns.left[i]! < columns.left[lowest]!) lowest = i
  const ground =
    route.elevationKnown === 'none'
      ? 'no elevation in the file, flat ground assumed'
      : `${height(route.ascent, units)} of ascent`
  return `${distance(outcome.length, units)}, ${ground}; the charge is lowest, ${percent(columns.left[lowest]! / usable)}, at ${place(route.stations.distance[lowest]!, units)}.`
}
