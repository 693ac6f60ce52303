import { interpolate } from '../columns'
import type { Recording, SensorSamples, Span } from './recording'

/** A recorded ride at a glance, s and m. */
export interface RideFacts {
  /** From the first to the last time; and of it in motion, standing and travelling. */
  elapsed: number
  riding: number
  stopped: number
  crossing: number
  length: number
  ascent: number
  /** Means in motion, W and 1/min; undefined where the file has none. */
  power: number | undefined
  heartRate: number | undefined
  cadence: number | undefined
}

/** @param recording of a ride */
export function factsOf(recording: Recording): RideFacts {
  const { route, riding, halts, crossings, start, finish } = recording
  const sum = (times: readonly { time: number }[]) => times.reduce((total, { time }) => total + (time || 0), 0)
  const whole = { from: 0, to: route.length }
  return {
    elapsed: finish - start,
    riding: riding.at(-1)!,
    stopped: sum(halts),
    crossing: sum(crossings),
    length: route.length,
    ascent: route.ascent,
    power: meanOf(recording, 'power', whole),
    heartRate: meanOf(recording, 'heartRate', whole),
    cadence: meanOf(recording, 'cadence', whole),
  }
}

/** A stretch and its riding time, s. */
export interface Stretch extends Span {
  time: number
}

/**
 * The ridden way in stretches of about one length, each with its riding time. None is cut by a halt, a crossing or what is not to be trusted: about
 * those some of the way is left out, for the rider brakes and sets off there.
 *
 * @param length of a stretch to aim at, m
 * @param about left out on either side of where the rider stood, m
 */
export function stretchesOf(
  { route, riding, halts, crossings, untrusted }: Recording,
  length: number,
  about: number,
): Stretch[] {
  const { distance } = route.points
  const left = [
    { from: 0, to: 0 },
    ...[...halts, ...crossings].map((halt) => ({ from: halt.distance, to: halt.distance })),
    { from: route.length, to: route.length },
  ].map(({ from, to }) => ({ from: from - about, to: to + about }))
  const stretches: Stretch[] = []
  let at = 0
  for (const { from, to } of [...left, ...untrusted].sort((a, b) => a.from - b.from)) {
    const free = from - at
    const count = Math.round(free / length)
    for (let k = 0; k < count; k++) {
      const span = { from: at + (k / count) * free, to: at + ((k + 1) / count) * free }
      const time = interpolate(distance, riding, span.to) - interpolate(distance, riding, span.from)
      if (time > 0) stretches.push({ ...span, time })
    }
    at = Math.max(at, to)
  }
  return stretches
}

/**
 * Mean of what a sensor measured while a stretch was ridden, standing left out: each sample counts for the time to the next, 10 s at the most.
 *
 * @returns undefined where nothing was measured
 */
export function meanOf(
  { route, time, halts, sensors }: Recording,
  sensor: Exclude<keyof SensorSamples, 'time'>,
  { from, to }: Span,
): number | undefined {
  if (sensors === undefined) return undefined
  const start = interpolate(route.points.distance, time, from)
  const end = interpolate(route.points.distance, time, to)
  const value = sensors[sensor]
  let sum = 0
  let weight = 0
  let halt = 0
  for (let i = 0; i < value.length; i++) {
    const at = sensors.time[i]!
    while (halt < halts.length && halts[halt]!.arrive + halts[halt]!.time <= at) halt++
    if (!(at >= start && at < end) || Number.isNaN(value[i]!) || at >= (halts[halt]?.arrive ?? Infinity)) continue
    const long = Math.min(10, (sensors.time[i + 1] ?? at + 1) - at)
    sum += long * value[i]!
    weight += long
  }
  return weight > 0 ? sum / weight : undefined
}
