import type { Stations } from './route'

/**
 * What is climbed and descended along a range of stations, m, neither negative; over a crossing nothing is.
 *
 * @param first station index
 * @param last station index, not below `first`
 */
export function ascentBetween(
  { distance, elevation }: Pick<Stations, 'distance' | 'elevation'>,
  first: number,
  last: number,
): { ascent: number; descent: number } {
  let ascent = 0
  let descent = 0
  for (let i = first; i < last; i++) {
    if (distance[i + 1] === distance[i]) continue
    const rise = elevation[i + 1]! - elevation[i]!
    ascent += Math.max(rise, 0)
    descent -= Math.min(rise, 0)
  }
  return { ascent, descent }
}
