import { interpolate } from '../model/columns'
import type { Outcome } from '../model/forecast/outcome'
import { readingAt } from '../model/readings/at'
import { joulesPerWattHour, kilometresPerHour, metresPerKilometre } from '../model/units'
import { Fault } from './arguments'

/** A place of the ride as a script reads it. */
export interface StationReport {
  km: number
  elevation_m: number
  gradient_pct: number
  speed_kmh: number
  /** The fastest that bends, braking for what comes, and the rider's own limits allow there. */
  limit_kmh: number
  rider_W: number
  motor_W: number
  /** Taken from inside the packs so far. */
  used_Wh: number
  charge_pct: number
  /** Since the start, on passing; on arrival where there is a halt. */
  time_s: number
}

const most = 1_000_000

/**
 * The ride at each multiple of a distance, the start included, and at the finish. Powers and gradient are those of the 10 m step there;
 * all else is interpolated.
 *
 * @param every m
 * @throws Fault where these would be too many
 */
export function stationsOf(outcome: Outcome, every: number): StationReport[] {
  const { length, usable } = outcome
  const count = Math.max(1, Math.ceil(length / every - 1e-6))
  if (count > most) throw new Fault(`--every ${every} would give ${count} stations; ${most} are the most.`)
  const places = Array.from({ length: count }, (_, k) => k * every)
  return [...places, length].map((place) => {
    const { distance, elevation, gradient, speed, riderPower, motorPower, drained, left, time } = readingAt(
      outcome,
      place,
    )
    return {
      km: distance / metresPerKilometre,
      elevation_m: elevation,
      gradient_pct: 100 * gradient,
      speed_kmh: speed / kilometresPerHour,
      limit_kmh: Math.sqrt(interpolate(outcome.route.stations.distance, outcome.limits, place)) / kilometresPerHour,
      rider_W: riderPower,
      motor_W: motorPower,
      used_Wh: drained / joulesPerWattHour,
      charge_pct: (100 * left) / usable,
      time_s: time,
    }
  })
}
