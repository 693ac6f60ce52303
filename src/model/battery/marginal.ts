import { joulesPerWattHour, metresPerKilometre, secondsPerMinute } from '../units'
import type { TransferColumns } from './transfer-run'

/** What one more minute at a stop gives, one row a moment of the transfer. */
export interface MarginalColumns {
  /** From the start, s. */
  time: Float64Array
  /** Stored a minute, Wh. */
  wattHoursPerMinute: Float64Array
  /** Reach a minute, km. */
  kmPerMinute: Float64Array
}

/**
 * What one more minute at a stop gives at each moment of a transfer. Its inverse, minutes per km of reach, grows in the taper.
 *
 * @param drain energy that a metre takes from the pack, J/m, above 0
 */
export function marginal(columns: TransferColumns, drain: number): MarginalColumns {
  const { time, storing } = columns
  return {
    time,
    wattHoursPerMinute: storing.map((power) => (power * secondsPerMinute) / joulesPerWattHour),
    kmPerMinute: storing.map((power) => (power * secondsPerMinute) / drain / metresPerKilometre),
  }
}

/** A moment from which staying longer gives little. */
export interface SensibleEnd {
  /** From the start, s. */
  time: number
  /** Charge of the bike's pack then, 0 to 1. */
  charge: number
}

/**
 * Where stopping early is sensible: from here to its end a transfer stores less than a share of its best rate; undefined where it never falls below.
 *
 * @param share of the best rate, 0 to 1. Half is a judgement: each further minute is then worth half of one of the best
 */
export function sensibleEnd({ time, storing, charge }: TransferColumns, share = 0.5): SensibleEnd | undefined {
  const least = share * storing.reduce((most, power) => Math.max(most, power), 0)
  const last = storing.findLastIndex((power) => power >= least)
  const before = storing[last]
  const after = storing[last + 1]
  if (before === undefined || after === undefined || !(after > 0)) return undefined
  const part = (before - least) / (before - after)
  return {
    time: time[last]! + part * (time[last + 1]! - time[last]!),
    charge: charge[last]! + part * (charge[last + 1]! - charge[last]!),
  }
}
