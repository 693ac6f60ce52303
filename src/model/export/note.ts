import type { Leg } from '../readings/legs'
import type { Outcome } from '../forecast/outcome'
import { footCauses, onFootBetween, type FootCause } from '../readings/on-foot'
import { joulesPerWattHour } from '../units'

const walkingNotes: Record<FootCause, string> = {
  tooSteep: 'walking where it is too steep',
  noCharge: 'walking for want of charge',
  weakPack: 'walking where the pack gives the motor too little',
}

/**
 * What is worth saying of a leg, in plain words: stops and what they charge, swaps, crossings, walking, motor off, reserve.
 *
 * @returns parts joined by '; ', empty if there is nothing
 */
export function legNote(outcome: Outcome, leg: Leg): string {
  const { plan, reserveAt, emptyAt } = outcome
  const parts: string[] = []
  const here = (distance: number | undefined) => distance !== undefined && distance > leg.start && distance <= leg.end
  if (here(reserveAt)) parts.push(`reserve reached at km ${kilometres(reserveAt!)}`)
  if (here(emptyAt)) parts.push(`motor off from km ${kilometres(emptyAt!)}`)
  const walked = onFootBetween(outcome, leg.first, leg.last)
  for (const cause of footCauses) if (walked[cause] > 0) parts.push(walkingNotes[cause])
  for (const halt of leg.halts) {
    const minutes = Math.round((halt.depart - halt.arrive) / 60)
    const added = Math.round((halt.leftAfter - halt.leftBefore) / joulesPerWattHour)
    if (halt.kind === 'swap') parts.push(`next pack at km ${kilometres(halt.distance)}`)
    else if (halt.kind === 'crossing')
      parts.push(added > 0 ? `crossing ${minutes} min, ${added} Wh charged` : `crossing ${minutes} min`)
    else if (halt.kind === 'control')
      parts.push(
        `${plan.controls.find(({ id }) => id === halt.control)?.name ?? 'control'}: ${minutes} min until it opens`,
      )
    else {
      const name = plan.stops.find(({ id }) => id === halt.stop)?.name ?? 'stop'
      parts.push(added > 0 ? `${name}: ${minutes} min, ${added} Wh charged` : `${name}: ${minutes} min`)
      if (halt.refusal !== undefined) parts.push(`not charged: ${halt.refusal}`)
    }
  }
  return parts.join('; ')
}

const kilometres = (distance: number) => (distance / 1000).toFixed(1)
