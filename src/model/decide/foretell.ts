import type { Link } from './chain'
import type { Reached } from './day-parts'
import type { AssistedRide } from './held'

/** What a table says of some choice of ratios: whether the charge lasts in all parts, and where it ends. */
export interface Foretold extends Reached {
  lasts: boolean
}

/**
 * What comes of times and energies of the parts of a day.
 *
 * @param links of a ride
 * @param times in motion, one a part, s
 * @param energies one a part, J
 * @param least charge on arrival at the end of each part for which it lasts, J
 */
export function foretell(
  links: readonly Link[],
  held: AssistedRide,
  times: ArrayLike<number>,
  energies: ArrayLike<number>,
  least: number,
): Foretold {
  let left = held.leftOnLeaving[0]!
  let time = held.leave[0]!.time
  let lasts = true
  for (let s = 0; s < links.length; s++) {
    const { passage, time: beside } = links[s]!
    time += beside + times[s]!
    left -= energies[s]!
    if (left < least) lasts = false
    if (passage !== undefined) ({ left, time } = passage(left, time))
  }
  return { lasts, time, left }
}
