import type { Route } from '../route/route'

export type Terrain = 'climb' | 'descent' | 'rolling'

/** A part of the route of one kind, between two stations. */
export interface TerrainRun {
  terrain: Terrain
  first: number
  last: number
}

/** A climb or descent is at least this steep over the window, this long, and this high. Choices. */
const steepEnough = 0.015
const window = 500 // m
const longEnough = 600 // m
const highEnough = 20 // m

/**
 * Climbs, descents and rolling ground of one ridden section, from the smoothed profile: the one rule for legs by terrain and for what is told of climbs.
 * The gradient is taken over 500 m, and what is shorter than 600 m or lower than 20 m counts as rolling, so that no ripple makes a leg.
 *
 * @param first station index, of one ridden section
 * @param last station index, of the same
 * @returns runs from the first to the last station, each beginning where the one before ends
 */
export function terrainRuns(route: Route, first: number, last: number): TerrainRun[] {
  const { distance, elevation } = route.stations
  const length = ({ first, last }: TerrainRun) => distance[last]! - distance[first]!
  const runs: TerrainRun[] = []
  for (const run of runsByGradient(route, first, last)) {
    const previous = runs.at(-1)
    const before = runs.at(-2)
    if (previous?.terrain === run.terrain) previous.last = run.last
    else if (before?.terrain === run.terrain && previous!.terrain === 'rolling' && length(previous!) < longEnough) {
      // A short flat between two climbs, or two descents, belongs to them.
      before.last = run.last
      runs.pop()
    } else runs.push({ ...run })
  }
  // A short crest or trough is cut at its top or bottom.
  for (let k = runs.length - 2; k > 0; k--) {
    const [before, here, after] = [runs[k - 1]!, runs[k]!, runs[k + 1]!]
    if (here.terrain !== 'rolling' || length(here) >= longEnough) continue
    const up = before.terrain === 'climb' ? 1 : -1
    let cut = here.first
    for (let i = here.first; i <= here.last; i++) if (up * (elevation[i]! - elevation[cut]!) > 0) cut = i
    before.last = cut
    after.first = cut
    runs.splice(k, 1)
  }
  // What is short at either end belongs to its neighbour.
  while (runs.length > 1 && length(runs[0]!) < longEnough / 2) runs[1]!.first = runs.shift()!.first
  while (runs.length > 1 && length(runs.at(-1)!) < longEnough / 2) runs.at(-2)!.last = runs.pop()!.last
  return runs
}

/** Runs of one kind by the gradient around each station; what is too short or too low is rolling. */
function runsByGradient({ stations: { distance, elevation } }: Route, first: number, last: number): TerrainRun[] {
  const runs: TerrainRun[] = []
  let behind = first
  let ahead = first
  for (let i = first; i < last; i++) {
    while (behind < i && distance[i]! - distance[behind]! > window / 2) behind++
    while (ahead < last && distance[ahead]! - distance[i]! < window / 2) ahead++
    const gradient = (elevation[ahead]! - elevation[behind]!) / (distance[ahead]! - distance[behind]!)
    const terrain = gradient >= steepEnough ? 'climb' : gradient <= -steepEnough ? 'descent' : 'rolling'
    const run = runs.at(-1)
    if (run?.terrain === terrain) run.last = i + 1
    else runs.push({ terrain, first: i, last: i + 1 })
  }
  for (const run of runs) {
    const long = distance[run.last]! - distance[run.first]! >= longEnough
    const high = Math.abs(elevation[run.last]! - elevation[run.first]!) >= highEnough
    if (!(long && high)) run.terrain = 'rolling'
  }
  return runs
}
