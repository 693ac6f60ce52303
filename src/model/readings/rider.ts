import type { Outcome } from '../forecast/outcome'
import { powerOf } from './at'
import { departuresOf } from './departures'
import { walking } from '../ride/motion'
import type { Reading } from '../text/reading'

/** One effort of a test, to exhaustion: mean power, W, and duration, s. */
export interface Effort {
  power: number
  duration: number
}

/** Critical power, W, and the work that can be done above it, J. */
export interface Capacity {
  criticalPower: number
  wPrime: number
}

/** Of two efforts: not of 2 to 20 minutes; too alike in duration; the shorter one not the harder; the longer one too weak. */
export type EffortFault = 'duration' | 'alike' | 'order' | 'tooWeak'

/**
 * Critical power and W′ from two efforts to exhaustion: power = W′ / duration + critical power.
 *
 * @param one 2 to 20 minutes
 * @param other at least 3 minutes longer or shorter
 * @returns what is wrong where the efforts do not give a sensible answer
 * @see Monod and Scherrer 1965, Ergonomics 8:329-338; bounds of duration common practice, no source
 */
export function capacityFrom(one: Effort, other: Effort): Reading<Capacity, EffortFault> {
  const [short, long] = one.duration < other.duration ? [one, other] : [other, one]
  if (!(short.duration >= 120 && long.duration <= 1200)) return { ok: false, fault: 'duration' }
  if (long.duration - short.duration < 180) return { ok: false, fault: 'alike' }
  if (long.power >= short.power) return { ok: false, fault: 'order' }
  const criticalPower = (long.power * long.duration - short.power * short.duration) / (long.duration - short.duration)
  const wPrime = (short.power - criticalPower) * short.duration
  return criticalPower > 0 ? { ok: true, value: { criticalPower, wPrime } } : { ok: false, fault: 'tooWeak' }
}

/**
 * W′ balance after some time at one power, differential form, exact for constant power.
 *
 * @param balance before, J
 * @param power W
 * @param time s
 * @returns J; negative where more is asked for than there is
 * @see Skiba et al. 2015, Eur. J. Appl. Physiol. 115:703-713 (equation from memory)
 */
export const balanceAfter = (
  balance: number,
  power: number,
  time: number,
  { criticalPower, wPrime }: Capacity,
): number =>
  power > criticalPower
    ? balance - (power - criticalPower) * time
    : wPrime - (wPrime - balance) * Math.exp((-(criticalPower - power) * time) / wPrime)

/**
 * Time constant of recovery of the integral form of 2012.
 *
 * @param below critical power less the mean of the power below it, W
 * @returns s
 * @see Skiba et al. 2012, MSSE 44:1526-1532 (equation and constants from memory)
 */
export const recoveryTime = (below: number): number => 546 * Math.exp(-0.01 * below) + 316

/** W′ balance along a ride. */
export interface WBalance {
  /** J on arrival at each station. */
  balance: Float64Array
  /** Lowest, J, and the station where it is. */
  lowest: number
  lowestStation: number
  /** First station at which nothing is left; undefined where it lasts. */
  spentAt: number | undefined
}

/**
 * W′ balance along a forecast. Halts recover at no power. On foot the model knows no pedal power: W′ is then neither spent nor won back.
 * The models have mixed validity (Skiba and Clarke 2021, IJSPP 16:1561): read it as a warning, not as a measurement.
 *
 * @param form 2015: differential; 2012: integral, with one time constant for the whole ride
 */
export function wBalance(outcome: Outcome, capacity: Capacity, form: 2015 | 2012 = 2015): WBalance {
  const { columns } = outcome
  const { criticalPower, wPrime } = capacity
  const count = columns.time.length
  const balance = new Float64Array(count)
  const leaves = departuresOf(outcome)
  const recovery = form === 2012 ? recoveryTime(criticalPower - meanBelow(outcome, criticalPower)) : 0
  const after = (before: number, power: number, time: number) => {
    if (form === 2015) return balanceAfter(before, power, time, capacity)
    const decay = Math.exp(-time / recovery)
    const spent = Math.max(0, power - criticalPower) * recovery * (1 - decay)
    return wPrime - (wPrime - before) * decay - spent
  }
  let now = wPrime
  let lowest = wPrime
  let lowestStation = 0
  let spentAt: number | undefined
  for (let i = 0; i < count; i++) {
    balance[i] = now
    if (now < lowest) {
      lowest = now
      lowestStation = i
    }
    if (spentAt === undefined && now <= 0) spentAt = i
    if (i === count - 1) break
    const leave = leaves(i)
    if (leave > columns.time[i]!) now = after(now, 0, leave - columns.time[i]!)
    if ((columns.state[i]! & walking) === 0)
      now = after(now, powerOf(columns.riderWork, outcome, i), columns.time[i + 1]! - leave)
  }
  return { balance, lowest, lowestStation, spentAt }
}

/** Mean of the rider's power where it is below critical power, halts included, W. */
function meanBelow(outcome: Outcome, criticalPower: number): number {
  const { columns } = outcome
  let work = 0
  let time = 0
  for (let i = 0; i + 1 < columns.time.length; i++) {
    if (powerOf(columns.riderWork, outcome, i) >= criticalPower) continue
    work += columns.riderWork[i + 1]! - columns.riderWork[i]!
    time += columns.time[i + 1]! - columns.time[i]!
  }
  return time > 0 ? work / time : 0
}
