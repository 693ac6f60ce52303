import { joulesPerWattHour, secondsPerHour, secondsPerMinute } from '../model/units'
import { drainUnit, inDrain, number, type Units } from './format'

/*
 * How much more or less a figure is than another, with its sign and in a unit small enough that no rounding swallows it. Empty where there is nothing to
 * compare with.
 */

const signed = (value: number, text: string): string => {
  const sign = value < 0 ? '−' : '+'
  return /[1-9]/.test(text) ? sign + text : '±0'
}

/** `−4.3 s`, `+3 min 12 s`, `+1 h 03 min 12 s`. */
export function timeChange(seconds: number): string {
  const size = Math.abs(seconds)
  if (size < 9.95) return signed(seconds, `${number(size, 1)} s`)
  const whole = Math.round(size)
  const two = (value: number) => String(Math.floor(value)).padStart(2, '0')
  const rest = `${two(whole % secondsPerMinute)} s`
  if (whole < secondsPerMinute) return signed(seconds, rest)
  const minutes = Math.floor(whole / secondsPerMinute)
  if (whole < secondsPerHour) return signed(seconds, `${minutes} min ${rest}`)
  return signed(seconds, `${Math.floor(minutes / 60)} h ${two(minutes % 60)} min ${rest}`)
}

/** `−12.4 Wh`. */
export const energyChange = (joules: number): string =>
  signed(joules, `${number(Math.abs(joules) / joulesPerWattHour, 1)} Wh`)

/** `+0.14 Wh/km`, from J/m. */
export const drainChange = (joulesPerMetre: number, units: Units): string =>
  signed(joulesPerMetre, `${number(inDrain(Math.abs(joulesPerMetre), units), 2)} ${drainUnit(units)}`)
