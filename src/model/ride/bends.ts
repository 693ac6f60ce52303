import type { Stations } from '../route/route'

/**
 * Fastest speed at each station by bends and what the rider won't pass, squared; before braking for them.
 *
 * @param stations the route
 * @param lateralAcceleration accepted in bends, m/s²
 * @param topSpeed m/s
 * @param grip share of the lateral acceleration that the road allows at a station, such as when wet; all of it where absent
 * @returns m²/s², one per station
 * @see v² = a / curvature, elementary mechanics; accepted values in FHWA-HRT-04-103 (2004), table 19
 */
export function bendLimits(
  { curvature }: Stations,
  lateralAcceleration: number,
  topSpeed: number,
  grip?: Float64Array,
): Float64Array {
  const top = topSpeed * topSpeed
  return curvature.map((bend, i) => {
    const accepted = grip === undefined ? lateralAcceleration : lateralAcceleration * grip[i]!
    return bend * top > accepted ? accepted / bend : top
  })
}

/**
 * Lowers limits so that each can be met by braking, backwards from a station to the first that needs no braking for it.
 *
 * @param limits m²/s², one per station; changed in place
 * @param last station to brake for
 * @param braking comfortable deceleration, m/s²
 * @param grip share of it that the road allows, one per station; all of it where absent
 * @param all goes on to the start instead
 * @see v² = v₀² + 2 a s, elementary mechanics
 */
export function brakeFor(
  limits: Float64Array,
  { distance }: Stations,
  last: number,
  braking: number,
  grip: Float64Array | undefined,
  all = false,
): void {
  const gain = 2 * braking
  for (let i = last - 1; i >= 0; i--) {
    const reachable = limits[i + 1]! + (grip === undefined ? gain : gain * grip[i]!) * (distance[i + 1]! - distance[i]!)
    if (limits[i]! > reachable) limits[i] = reachable
    else if (!all) return
  }
}
