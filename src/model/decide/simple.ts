import { indexAtOrBelow } from '../columns'
import { roadOf } from '../ride/road'
import type { Aim, Link } from './chain'
import { foretoldAim, isBetter, type DayParts } from './day-parts'
import { foretell } from './foretell'
import type { AssistTable } from './frontier'
import type { AssistedRide, Ridden } from './held'

/** Energy that a foretold ride may lack, as a share of all usable: riding it decides. */
const doubt = 0.003

/** One ratio on the flat and one on climbs, blended as the plan does, and the day ridden so. */
export interface Pair {
  flat: number
  climb: number
  ridden: Ridden
}

/** Of those foretold so many are ridden: until so many lasted. */
const mostTried = 12
const enoughLasted = 4

/**
 * The best pair of ratios of those that the table has: all are foretold, those that look best are ridden.
 *
 * @returns undefined where none of these lasts
 */
export function bestPair(
  day: DayParts,
  table: AssistTable,
  links: readonly Link[],
  held: AssistedRide,
  aim: Aim,
): Pair | undefined {
  const { climb } = roadOf(day.route)
  const { distance } = day.route.stations
  const share = Float64Array.from({ length: day.stretches }, (_, k) => {
    const [from, to] = [day.ends[k]!, day.ends[k + 1]!]
    let sum = 0
    for (let i = from; i < to; i++) sum += climb[i]! * (distance[i + 1]! - distance[i]!)
    return sum / Math.max(1, distance[to]! - distance[from]!)
  })
  const { ratios } = table
  const ascending = Float64Array.from(ratios)
  const sought = foretoldAim(aim)
  const least = day.reserve - doubt * day.planned.usable
  const times = new Float64Array(links.length)
  const energies = new Float64Array(links.length)
  const pairs = ratios.flatMap((flat) =>
    ratios.map((steep) => {
      for (let s = 0; s < links.length; s++) {
        times[s] = 0
        energies[s] = 0
        for (let k = day.parts[s]!; k < day.parts[s + 1]!; k++) {
          const ratio = flat + (steep - flat) * share[k]!
          const low = Math.min(indexAtOrBelow(ascending, ratio), ratios.length - 2)
          const part = (ratio - ascending[low]!) / (ascending[low + 1]! - ascending[low]!)
          const at = ratios.length * k + low
          times[s]! += table.time[at]! + part * (table.time[at + 1]! - table.time[at]!)
          energies[s]! += table.energy[at]! + part * (table.energy[at + 1]! - table.energy[at]!)
        }
      }
      return { flat, climb: steep, ...foretell(links, held, times, energies, least) }
    }),
  )
  let best: Pair | undefined
  let tried = 0
  let lasted = 0
  for (const { flat, climb: steep } of pairs
    .filter(({ lasts }) => lasts)
    .sort((one, other) => (isBetter(one, other, sought) ? -1 : 1))) {
    if (lasted === enoughLasted || ++tried > mostTried) break
    const ridden = day.rideBlended(flat, steep)
    if (!ridden.lasts) continue
    lasted++
    if (isBetter(ridden, best?.ridden, aim)) best = { flat, climb: steep, ridden }
  }
  return best
}
