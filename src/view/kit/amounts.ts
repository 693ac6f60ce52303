import { joulesPerWattHour, kilogramsPerPound, secondsPerHour, secondsPerMinute } from '../../model/units'
import { duration, number, toShown, type DisplayUnit, type Units } from '../format'

export const unit = (symbol: string, factor: number, digits: number, step: number): DisplayUnit => ({
  symbol,
  factor,
  offset: 0,
  digits,
  step,
})

export const gram = unit('g', 0.001, 0, 10)
export const kilogram = unit('kg', 1, 2, 0.1)
export const ounce = unit('oz', kilogramsPerPound / 16, 1, 0.5)
export const pound = unit('lb', kilogramsPerPound, 2, 0.1)

/** Grams below a kilogram, or ounces below a pound. */
export const massUnit = (kilograms: number, units: Units): DisplayUnit =>
  units === 'metric'
    ? Math.abs(kilograms) < 0.9995
      ? gram
      : kilogram
    : Math.abs(kilograms) < 0.9995 * kilogramsPerPound
      ? ounce
      : pound

/** `350 g`, `4.1 kg`; `12.3 oz`, `9.0 lb`. */
export function mass(kilograms: number, units: Units): string {
  const unit = massUnit(kilograms, units)
  return `${number(toShown(kilograms, unit), unit.symbol === 'g' ? 0 : 1)} ${unit.symbol}`
}

/** How much heavier or lighter, with its sign: `+350 g`, `−1.2 kg`; `±0` below what is shown. */
export function massChange(kilograms: number, units: Units): string {
  const size = mass(Math.abs(kilograms), units)
  return /[1-9]/.test(size) ? (kilograms < 0 ? '−' : '+') + size : '±0'
}

/** Time of any sign without it: `4.3 s`, `79 s`, `5 min 24 s`, `1 h 05 min`. */
export function shortTime(seconds: number): string {
  const size = Math.abs(seconds)
  if (size < 9.95) return `${number(size, 1)} s`
  if (size < 99.5) return `${number(size)} s`
  if (size >= secondsPerHour - 0.5) return duration(size)
  const whole = Math.round(size)
  return `${Math.floor(whole / secondsPerMinute)} min ${String(whole % secondsPerMinute).padStart(2, '0')} s`
}

/** Energy of any sign without it: `2.6 Wh`, `11 Wh`. */
export function shortEnergy(joules: number): string {
  const size = Math.abs(joules) / joulesPerWattHour
  return `${number(size, size < 9.95 ? 1 : 0)} Wh`
}

/** Riding time, s, and energy from the packs, J. */
export interface Cost {
  time: number
  energy: number
}
