import type { Refusal } from '../battery/refusal'
import type { Outcome } from '../forecast/outcome'
import type { Leg } from './legs'
import { footCauses, onFootBetween, type FootCause } from './on-foot'

/** Something worth saying of a leg. Places are ridden distances, m; times, s; what a halt charges, J. */
export type LegNote =
  | { code: 'reserveReached'; at: number }
  | { code: 'motorOff'; at: number }
  | { code: 'walking'; cause: FootCause }
  | { code: 'nextPack'; at: number }
  | { code: 'crossing'; time: number; added: number }
  | { code: 'untilOpen'; control: string; time: number }
  | { code: 'stop'; stop: string; time: number; added: number }
  | { code: 'notCharged'; refusal: Refusal }

/** What is worth saying of a leg: where the reserve is reached and the motor stops, walking, and then its halts in order. */
export function legNotes(outcome: Outcome, leg: Leg): LegNote[] {
  const { plan, reserveAt, emptyAt } = outcome
  const notes: LegNote[] = []
  const isHere = (at: number | undefined): at is number => at !== undefined && at > leg.start && at <= leg.end
  if (isHere(reserveAt)) notes.push({ code: 'reserveReached', at: reserveAt })
  if (isHere(emptyAt)) notes.push({ code: 'motorOff', at: emptyAt })
  const walked = onFootBetween(outcome, leg.first, leg.last)
  for (const cause of footCauses) if (walked[cause] > 0) notes.push({ code: 'walking', cause })
  for (const { kind, distance, arrive, depart, leftBefore, leftAfter, refusal, ...halt } of leg.halts) {
    const time = depart - arrive
    const added = leftAfter - leftBefore
    if (kind === 'swap') notes.push({ code: 'nextPack', at: distance })
    else if (kind === 'crossing') notes.push({ code: 'crossing', time, added })
    else if (kind === 'control') {
      const { name } = plan.controls.find(({ id }) => id === halt.control)!
      notes.push({ code: 'untilOpen', control: name, time })
    } else {
      const { name } = plan.stops.find(({ id }) => id === halt.stop)!
      notes.push({ code: 'stop', stop: name, time, added })
      if (refusal !== undefined) notes.push({ code: 'notCharged', refusal })
    }
  }
  return notes
}
