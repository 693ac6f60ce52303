import type { Outcome } from '../forecast/outcome'
import { terrainCuts } from './terrain'
import { walking } from '../ride/integrate'
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
  /** Length on foot, m. */
  walked: number
  /** Lowest W′ balance on it, J. */
  lowest: number
  /** Why it is too hard; empty where it is not. */
  tooHard: ('above critical power' | 'on foot' | 'W′ runs out')[]
}

/**
 * The climbs of the route as `terrainCuts` finds them (1.5 % and more over 500 m, 600 m long, 20 m high), and which are too hard.
 *
 * @param balance of the same forecast and capacity, from `wBalance`
 */
export function climbsOf(outcome: Outcome, capacity: Capacity, { balance }: WBalance): Climb[] {
  const { route } = outcome
  const { distance, elevation } = route.stations
  return route.sections.flatMap((section) => {
    const ends = [section.first, ...terrainCuts(route, section.first, section.last), section.last]
    return ends.slice(1).flatMap((last, k) => {
      const first = ends[k]!
      const rise = elevation[last]! - elevation[first]!
      if (rise < 20 || rise / (distance[last]! - distance[first]!) < 0.015) return []
      return [climbBetween(outcome, capacity, balance, first, last)]
    })
  })
}

function climbBetween(
  { columns, route }: Outcome,
  { criticalPower }: Capacity,
  balance: Float64Array,
  first: number,
  last: number,
): Climb {
  const { distance, elevation } = route.stations
  let walked = 0
  let ascent = 0
  let work = 0
  let time = 0
  for (let i = first; i < last; i++) {
    ascent += Math.max(0, elevation[i + 1]! - elevation[i]!)
    if ((columns.state[i]! & walking) !== 0) walked += distance[i + 1]! - distance[i]!
    else {
      work += columns.riderWork[i + 1]! - columns.riderWork[i]!
      time += columns.ridingTime[i + 1]! - columns.ridingTime[i]!
    }
  }
  const riderPower = time > 0 ? work / time : 0
  const lowest = balance.subarray(first, last + 1).reduce((least, value) => Math.min(least, value), Infinity)
  const tooHard: Climb['tooHard'] = []
  if (riderPower > criticalPower) tooHard.push('above critical power')
  if (walked > 0) tooHard.push('on foot')
  if (lowest <= 0) tooHard.push('W′ runs out')
  return { first, last, start: distance[first]!, end: distance[last]!, ascent, riderPower, walked, lowest, tooHard }
}
