import type { Outcome } from '../forecast/outcome'
import type { Light, LightAlong } from '../world/daylight'
import { departuresOf } from './departures'

/** What part of a ride goes through which light. */
export interface DaylightSummary {
  /** Ridden length in each light, m; and time in motion, s. */
  length: Record<Light, number>
  time: Record<Light, number>
  /** Share of the length in twilight or dark. */
  share: number
  /** Ridden distance, m, and time since the start, s, at which it is first and last twilight or dark; undefined where it never is. */
  first: { distance: number; time: number } | undefined
  last: { distance: number; time: number } | undefined
  /** Energy of the lamps if they burn in twilight and dark only, J. */
  lampEnergy: number
}

/**
 * Light over a whole ride, step by step between stations, by the light in which the forecast rides them: that on leaving the station.
 *
 * @param light of the same route and start
 * @param lampPower W
 */
export function daylightOf(outcome: Outcome, light: LightAlong, lampPower: number): DaylightSummary {
  const { distance } = outcome.route.stations
  const { ridingTime, time } = outcome.columns
  const byLength: Record<Light, number> = { day: 0, twilight: 0, dark: 0 }
  const byTime: Record<Light, number> = { day: 0, twilight: 0, dark: 0 }
  const leaves = departuresOf(outcome)
  let first: DaylightSummary['first']
  let last: DaylightSummary['last']
  for (let i = 0; i + 1 < distance.length; i++) {
    const step = distance[i + 1]! - distance[i]!
    if (step === 0) continue
    const leave = leaves(i)
    const here = light.lightAt(i, { time: leave })
    byLength[here] += step
    byTime[here] += ridingTime[i + 1]! - ridingTime[i]!
    if (here === 'day') continue
    first ??= { distance: distance[i]!, time: leave }
    last = { distance: distance[i + 1]!, time: time[i + 1]! }
  }
  return {
    length: byLength,
    time: byTime,
    share: (byLength.twilight + byLength.dark) / outcome.length,
    first,
    last,
    lampEnergy: lampPower * (byTime.twilight + byTime.dark),
  }
}

/** Why to carry lights: some of the ride is without day; an hour more would be; tunnels and rain alone. */
export type LightsAdvice = 'dark' | 'late' | 'day'

/**
 * Whether to carry lights.
 *
 * @param spare time after the planned finish up to sunset there, s; negative after it, undefined where the sun does not set
 */
export const lightsAdvice = ({ share }: DaylightSummary, spare: number | undefined): LightsAdvice =>
  share > 0 ? 'dark' : spare !== undefined && spare < 3600 ? 'late' : 'day'
