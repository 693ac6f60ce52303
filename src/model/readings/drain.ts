import type { Outcome } from '../forecast/outcome'
import type { Route } from '../route/route'

/** Of each station the stretch around it: its first and last station, and the reciprocal of its length, 1/m; 0 where it has none. */
interface Around {
  over: number
  behind: Uint32Array
  ahead: Uint32Array
  perLength: Float64Array
}

const known = new WeakMap<Route, Around>()

/**
 * Drain along the route, evened out over a stretch around each station, so that a map or a profile shows the road and not every flick of the motor.
 *
 * @param outcome the forecast
 * @param over length of the stretch, m
 * @returns J/m, one per station; a stretch never reaches across a crossing
 */
export function drainAlong({ route, columns: { drained } }: Outcome, over: number): Float32Array {
  let around = known.get(route)
  if (around?.over !== over) known.set(route, (around = aroundEach(route, over)))
  const { behind, ahead, perLength } = around
  const result = new Float32Array(drained.length)
  for (let i = 0; i < result.length; i++) result[i] = (drained[ahead[i]!]! - drained[behind[i]!]!) * perLength[i]!
  return result
}

function aroundEach({ stations: { distance }, sections }: Route, over: number): Around {
  const behind = new Uint32Array(distance.length)
  const ahead = new Uint32Array(distance.length)
  const perLength = new Float64Array(distance.length)
  for (const { first, last } of sections) {
    let from = first
    let to = first
    for (let i = first; i <= last; i++) {
      while (distance[i]! - distance[from]! > over / 2) from++
      while (to < last && distance[to]! - distance[i]! < over / 2) to++
      const length = distance[to]! - distance[from]!
      behind[i] = from
      ahead[i] = to
      perLength[i] = length > 0 ? 1 / length : 0
    }
  }
  return { over, behind, ahead, perLength }
}

/** Mean drain of the whole route, J/m. */
export const meanDrain = (outcome: Outcome): number =>
  outcome.length > 0 ? outcome.columns.drained[outcome.columns.drained.length - 1]! / outcome.length : 0
