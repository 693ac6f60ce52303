import type { Stations } from '../route/route'

/**
 * Fastest speed at each station, squared: bends by their curvature, the rider's top speed, nought at halts, and the braking before them.
 *
 * @param stations the route
 * @param lateralAcceleration accepted in bends, m/s²
 * @param topSpeed m/s
 * @param braking comfortable deceleration, m/s²
 * @param halts station indices at which the rider stands still
 * @param grip share of lateral acceleration and braking that the road allows at a station, such as when wet; all of it where absent
 * @returns m²/s², one per station
 * @see v² = a / curvature, elementary mechanics; accepted values in FHWA-HRT-04-103 (2004), table 19
 */
export function speedLimits(
  stations: Stations,
  lateralAcceleration: number,
  topSpeed: number,
  braking: number,
  halts: readonly number[],
  grip?: (station: number) => number,
): Float64Array {
  const { distance, curvature } = stations
  const count = distance.length
  const squared = new Float64Array(count)
  const top = topSpeed * topSpeed
  for (let i = 0; i < count; i++) {
    const bend = curvature[i]!
    const accepted = grip === undefined ? lateralAcceleration : lateralAcceleration * grip(i)
    squared[i] = bend * top > accepted ? accepted / bend : top
  }
  for (const halt of halts) squared[halt] = 0
  const gain = 2 * braking
  for (let i = count - 2; i >= 0; i--) {
    const step = distance[i + 1]! - distance[i]!
    const reachable = squared[i + 1]! + (grip === undefined ? gain : gain * grip(i)) * step
    if (squared[i]! > reachable) squared[i] = reachable
  }
  return squared
}
