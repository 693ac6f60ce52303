import type { Outcome } from '../forecast/outcome'

/**
 * Drain along the route, evened out over a stretch around each station, so that a map or a profile shows the road and not every flick of the motor.
 *
 * @param outcome the forecast
 * @param over length of the stretch, m
 * @returns J/m, one per station; a stretch never reaches across a crossing
 */
export function drainAlong(outcome: Outcome, over: number): Float32Array {
  const { distance } = outcome.route.stations
  const { drained } = outcome.columns
  const result = new Float32Array(distance.length)
  for (const { first, last } of outcome.route.sections) {
    let behind = first
    let ahead = first
    for (let i = first; i <= last; i++) {
      while (distance[i]! - distance[behind]! > over / 2) behind++
      while (ahead < last && distance[ahead]! - distance[i]! < over / 2) ahead++
      const length = distance[ahead]! - distance[behind]!
      result[i] = length > 0 ? (drained[ahead]! - drained[behind]!) / length : 0
    }
  }
  return result
}

/** Mean drain of the whole route, J/m. */
export const meanDrain = (outcome: Outcome): number =>
  outcome.length > 0 ? outcome.columns.drained[outcome.columns.drained.length - 1]! / outcome.length : 0
