/**
 * Where a stop is pinned that nobody pointed to: the middle of the longest stretch without one.
 *
 * @param places of the stops there are, m, ascending
 * @param length of the route, m
 */
export function middleOfLongestStretch(places: readonly number[], length: number): number {
  const ends = [0, ...places, length]
  let best = 0
  for (let i = 1; i + 1 < ends.length; i++) if (ends[i + 1]! - ends[i]! > ends[best + 1]! - ends[best]!) best = i
  return (ends[best]! + ends[best + 1]!) / 2
}
