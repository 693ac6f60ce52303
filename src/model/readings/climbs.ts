import type { Outcome } from '../forecast/outcome'
import { ascentBetween } from '../route/ascent'
import { terrainRuns } from './terrain'
import { walking } from '../ride/motion'
import { footCauses, onFootBetween, type FootCause } from './on-foot'
import type { Capacity, WBalance } from './rider'

/** A climb with what it asks of the rider. */
export interface Climb {
  /** Stations. */
  first: number
  last: number
  /** Ridden distance of its foot and top, m. */
  start: number
  end: number
  ascent: number
  /** Mean power on the pedals while riding it, W. */
  riderPower: number
  /** Length on foot by cause, m. */
  walked: Record<FootCause, number>
  /** Lowest W′ balance on it, J. */
  lowest: number
  /** Why it is too hard: mean power above critical power, W′ runs out, or it is walked. Empty where it is not. */
  tooHard: ('abovePower' | 'wPrimeSpent' | FootCause)[]
}

/**
 * The climbs of the route as `terrainRuns` finds them, and which are too hard.
 *
 * @param balance of the same forecast and capacity, from `wBalance`
 */
export const climbsOf = (outcome: Outcome, capacity: Capacity, { balance }: WBalance): Climb[] =>
  outcome.route.sections
    .flatMap(({ first, last }) => terrainRuns(outcome.route, first, last))
    .filter(({ terrain }) => terrain === 'climb')
    .map(({ first, last }) => climbBetween(outcome, capacity, balance, first, last))

function climbBetween(
  outcome: Outcome,
  { criticalPower }: Capacity,
  balance: Float64Array,
  first: number,
  last: number,
): Climb {
  const { columns, route } = outcome
  const { distance } = route.stations
  let work = 0
  let time = 0
  for (let i = first; i < last; i++) {
    if ((columns.state[i]! & walking) !== 0) continue
    work += columns.riderWork[i + 1]! - columns.riderWork[i]!
    time += columns.ridingTime[i + 1]! - columns.ridingTime[i]!
  }
  const riderPower = time > 0 ? work / time : 0
  const lowest = balance.subarray(first, last + 1).reduce((least, value) => Math.min(least, value), Infinity)
  const { ascent } = ascentBetween(route.stations, first, last)
  const walked = onFootBetween(outcome, first, last)
  const tooHard: Climb['tooHard'] = footCauses.filter((cause) => walked[cause] > 0)
  if (riderPower > criticalPower) tooHard.push('abovePower')
  if (lowest <= 0) tooHard.push('wPrimeSpent')
  return { first, last, start: distance[first]!, end: distance[last]!, ascent, riderPower, walked, lowest, tooHard }
}
