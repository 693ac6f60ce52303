import { leastCharge } from '../../model/readings/reach'
import { readingAt } from '../../model/readings/at'
import type { Outcome } from '../../model/forecast/outcome'
import { place, type Units } from '../format'
import { wordsIn } from '../words/words'

/** What a screen reader says of a place: km, elevation, charge. */
export function placeText(outcome: Outcome, at: number, units: Units): string {
  const { elevation, left } = readingAt(outcome, at)
  const known = outcome.route.elevationKnown === 'none' ? undefined : elevation
  return wordsIn(units).profile.place(at, known, left / outcome.usable)
}

/** Charge on arrival at a stop and on leaving it, as shares; undefined if the outcome has no such stop. */
export function chargesAtStop({ halts, usable }: Outcome, stop: string): { arrive: number; leave: number } | undefined {
  const halt = halts.find((halt) => halt.stop === stop)
  return halt && { arrive: halt.leftBefore / usable, leave: halt.leftAfter / usable }
}

/** What a screen reader says of a stop's pin. */
export function stopText(outcome: Outcome, stop: { id: string; distance: number }, units: Units): string {
  const charges = chargesAtStop(outcome, stop.id)
  const at = Math.min(stop.distance, outcome.length)
  return charges === undefined ? place(at, units) : wordsIn(units).profile.charges(at, charges.arrive, charges.leave)
}

/** The profile in one sentence. */
export function profileSentence(outcome: Outcome, units: Units): string {
  const { route, usable } = outcome
  const lowest = leastCharge(outcome)
  return wordsIn(units).profile.sentence(outcome.length, route.elevationKnown === 'none' ? undefined : route.ascent, {
    charge: lowest.left / usable,
    at: lowest.distance,
  })
}
