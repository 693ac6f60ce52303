import { joulesPerWattHour, kilogramsPerPound, secondsPerHour, secondsPerMinute } from '../../model/units'
import { duration, number, toShown, type Units } from '../format'
import { massUnit } from './entry'

/** `350 g`, `4.1 kg`; `12.3 oz`, `9.0 lb`. */
export function mass(kilograms: number, units: Units): string {
  const unit = massUnit(kilograms, units)
  return `${number(toShown(kilograms, unit), unit.symbol === 'g' ? 0 : 1)} ${unit.symbol}`
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

const shown = (text: string) => !/^0\.0 /.test(text)

/**
 * `costs 79 s and 2.6 Wh`; `costs 2.6 Wh and gains 3 s` where something is less than nothing.
 *
 * @param plus verb for what is above zero
 * @param minus verb for what is below
 */
export function withVerbs({ time, energy }: Cost, plus: string, minus: string): string {
  const amounts = [
    { value: time, text: shortTime(time) },
    { value: energy, text: shortEnergy(energy) },
  ].filter(({ text }) => shown(text))
  const part = (verb: string, sign: 1 | -1) => {
    const texts = amounts.filter(({ value }) => value * sign > 0).map(({ text }) => text)
    return texts.length === 0 ? [] : [`${verb} ${texts.join(' and ')}`]
  }
  const parts = [...part(plus, 1), ...part(minus, -1)]
  return parts.length === 0 ? `${plus} next to nothing` : parts.join(' and ')
}

/**
 * What a kilogram costs, and what leaving the unused things at home saves.
 *
 * @param cost of a kilogram
 * @param unused what came back unused, kg, s and J; mass 0 if nothing did
 */
export function kilogramSentence(cost: Cost, unused: Cost & { mass: number }, units: Units): string {
  const [word, kilograms] = units === 'metric' ? ['kilogram', 1] : ['pound', kilogramsPerPound]
  const each = withVerbs({ time: cost.time * kilograms, energy: cost.energy * kilograms }, 'costs', 'gains')
  const saved =
    unused.mass === 0
      ? ''
      : `; leaving the unused ${mass(unused.mass, units)} at home ${withVerbs(unused, 'saves', 'costs')}`
  return `Each ${word} ${each} on this route${saved}.`
}

/** What a change of the list does. */
export function differenceSentence(change: Cost & { mass: number }, units: Units): string {
  const weighs =
    change.mass === 0 ? 'As heavy' : `${mass(Math.abs(change.mass), units)} ${change.mass < 0 ? 'lighter' : 'heavier'}`
  return change.mass < 0
    ? `${weighs}: ${withVerbs({ time: -change.time, energy: -change.energy }, 'saves', 'costs')}.`
    : `${weighs}: ${withVerbs(change, 'costs', 'saves')}.`
}
