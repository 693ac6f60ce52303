import type { Outcome } from '../forecast/outcome'
import type { PlanReading } from '../plan/schema'
import { placesAhead } from '../readings/places-ahead'
import { factors } from '../studies/ride-on'
import { instantOf } from '../world/zone'
import type { AskedWay, RideOn, WayReading } from './on-the-way'

/** Days that are ridden: fewer than before the start, for each is ridden in several ways. */
export const restSampling: AskedWay['sampling'] = { seed: 1, days: 512, replicates: 8 }

/** Readings that can be of this day: after its start, each later than the one before. */
export function fitting(readings: readonly PlanReading[], { started, zone }: Outcome): WayReading[] {
  const fit: WayReading[] = []
  for (const { distance, at, charge } of readings) {
    const time = instantOf(at, zone) - started
    if (time > (fit.at(-1)?.time ?? 0)) fit.push({ distance, time, charge })
  }
  return fit
}

/**
 * What is asked about the rest of a day: every way to ride on, at every place ahead.
 *
 * @param readings at least one, from `fitting`
 * @param power of the rider in place of the plan's from the last reading on, W: a further way, the last; undefined for none
 */
export function askedRest(
  outcome: Outcome,
  readings: readonly WayReading[],
  power: number | undefined,
  sampling = restSampling,
): AskedWay {
  const ways: RideOn[] = factors.map((assist) => ({ assist }))
  if (power !== undefined) ways.push({ assist: 1, power })
  const places = placesAhead(outcome, readings.at(-1)!.distance).map(({ distance }) => distance)
  return { plan: outcome.plan, sampling, readings, proposal: undefined, ways, places }
}
