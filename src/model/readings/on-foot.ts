import type { Outcome } from '../forecast/outcome'
import { packLimits, unpowered, walking } from '../ride/motion'

/** Why a rider gets off: the hill is too steep for the drive at its best; the packs are spent; or they give the motor too little, as when cold. */
export type FootCause = 'tooSteep' | 'noCharge' | 'weakPack'

export const footCauses: readonly FootCause[] = ['tooSteep', 'noCharge', 'weakPack']

/** Why a step is walked. @param state bits of a step on foot */
export function footCause(state: number): FootCause {
  if ((state & unpowered) !== 0) return 'noCharge'
  return (state & packLimits) !== 0 ? 'weakPack' : 'tooSteep'
}

/**
 * What is walked between two stations, by cause, m.
 *
 * @param first station index
 * @param last station index, not below `first`
 */
export function onFootBetween({ columns, route }: Outcome, first: number, last: number): Record<FootCause, number> {
  const { distance } = route.stations
  const walked: Record<FootCause, number> = { tooSteep: 0, noCharge: 0, weakPack: 0 }
  for (let i = first; i < last; i++) {
    const state = columns.state[i]!
    if ((state & walking) === 0) continue
    walked[footCause(state)] += distance[i + 1]! - distance[i]!
  }
  return walked
}

/** What is walked of the whole ride, by cause, m. */
export const onFoot = (outcome: Outcome): Record<FootCause, number> =>
  onFootBetween(outcome, 0, outcome.route.stations.distance.length - 1)
