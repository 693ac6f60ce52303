import type { Route } from '../route/route'

export type Terrain = 'climb' | 'descent' | 'rolling'

/** A climb or descent is at least this steep over the window, this long, and this high. Choices. */
const steepEnough = 0.015
const window = 500 // m
const longEnough = 600 // m
const highEnough = 20 // m

/**
 * Where the terrain changes between climb, descent and rolling ground, from the smoothed profile.
 * The gradient is taken over 500 m, and what is shorter than 600 m or lower than 20 m counts as rolling, so that no ripple makes a leg.
 *
 * @param first station index, of one ridden section
 * @param last station index, of the same
 * @returns station indices between them, ascending
 */
export function terrainCuts(route: Route, first: number, last: number): number[] {
  const { distance, elevation } = route.stations
  const runs: { kind: number; from: number; to: number }[] = []
  let behind = first
  let ahead = first
  for (let i = first; i < last; i++) {
    while (behind < i && distance[i]! - distance[behind]! > window / 2) behind++
    while (ahead < last && distance[ahead]! - distance[i]! < window / 2) ahead++
    const gradient = (elevation[ahead]! - elevation[behind]!) / (distance[ahead]! - distance[behind]!)
    const kind = gradient >= steepEnough ? 1 : gradient <= -steepEnough ? -1 : 0
    const run = runs.at(-1)
    if (run?.kind === kind) run.to = i + 1
    else runs.push({ kind, from: i, to: i + 1 })
  }
  for (const run of runs) {
    const long = distance[run.to]! - distance[run.from]! >= longEnough
    const high = Math.abs(elevation[run.to]! - elevation[run.from]!) >= highEnough
    if (run.kind !== 0 && !(long && high)) run.kind = 0
  }
  // A short flat between two climbs of the same kind belongs to them; a short one elsewhere to its longer neighbour.
  const merged: typeof runs = []
  for (const run of runs) {
    const previous = merged.at(-1)
    const before = merged.at(-2)
    if (previous?.kind === run.kind) previous.to = run.to
    else if (
      previous !== undefined &&
      before?.kind === run.kind &&
      previous.kind === 0 &&
      distance[previous.to]! - distance[previous.from]! < longEnough
    ) {
      before.to = run.to
      merged.pop()
    } else merged.push({ ...run })
  }
  return merged
    .slice(1)
    .map(({ from }) => from)
    .filter(
      (cut) =>
        distance[cut]! - distance[first]! >= longEnough / 2 && distance[last]! - distance[cut]! >= longEnough / 2,
    )
}
