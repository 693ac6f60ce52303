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

const newLength = 5000 // m
const leastLength = 100 // m

/**
 * Where a new stretch of up to 5 km is laid: from the cursor on, else in the longest part that has none; undefined where nothing is free.
 *
 * @param stretches ascending, none overlapping
 * @param cursor ridden distance, m
 * @param length of the route, m
 */
export function freeStretch(
  stretches: readonly { start: number; end: number }[],
  cursor: number | undefined,
  length: number,
): { start: number; end: number } | undefined {
  const edges = [0, ...stretches.flatMap(({ start, end }) => [start, end]), length]
  let best: { start: number; end: number } | undefined
  for (let i = 0; i < edges.length; i += 2) {
    const [start, end] = [edges[i]!, edges[i + 1]!]
    if (cursor !== undefined && start <= cursor && cursor + leastLength <= end)
      return { start: cursor, end: Math.min(end, cursor + newLength) }
    if (end - start >= leastLength && (best === undefined || end - start > best.end - best.start)) best = { start, end }
  }
  if (best === undefined) return undefined
  const middle = 0.5 * (best.start + best.end)
  const half = Math.min(newLength, best.end - best.start) / 2
  return { start: middle - half, end: middle + half }
}
