import { mostDraw, type KitItem } from '../../model/plan/day-schema'
import { bikeParameters } from '../../model/plan/parameters'
import { metresPerKilometre, metresPerMile, secondsPerHour } from '../../model/units'
import { fieldText, readTyped, stepped, type Typed } from '../fields/typed'
import { unitOf, type DisplayUnit, type Units } from '../format'
import type { KitWords } from '../words/kit'
import { gram, kilogram, massUnit, ounce, pound, unit } from './amounts'

/** How a value of the list is shown in its cell and read when typed. A run of keystrokes is read by the entry it began with. */
export interface Entry<T> {
  text: string
  /** Behind the field, empty if none. */
  unit: string
  read: (text: string) => Typed<T>
  /** The value some steps on, by the arrow keys. */
  step?: (value: T, steps: number) => T
}

/** The unit that stands behind a number, if it is one of mass. */
function unitBehind(text: string): DisplayUnit | undefined {
  const word = /(kg|g|lbs?|oz)\s*$/i.exec(text)?.[1]?.toLowerCase()
  return word === undefined ? undefined : { kg: kilogram, g: gram, lb: pound, lbs: pound, oz: ounce }[word]
}

const massBounds = { min: 0, max: 100, quantity: 'mass' } as const

/** Mass of one, kg: read in the unit that it is shown in, unless another stands behind the number. */
export function massEntry(value: number, units: Units): Entry<number> {
  const own = massUnit(value, units)
  return {
    text: fieldText(value, own),
    unit: own.symbol,
    read: (text) => readTyped(text.replace(/lbs\s*$/i, 'lb'), massBounds, unitBehind(text) ?? own, value),
    step: (from, steps) => stepped(from, steps, massBounds, massUnit(from, units)),
  }
}

/** Luggage, kg, in the unit of all that is heavy. */
export function luggageEntry(value: number, units: Units): Entry<number> {
  const own = unitOf('mass', units)
  return {
    text: fieldText(value, own),
    unit: own.symbol,
    read: (text) => readTyped(text, bikeParameters.luggage, own, value),
    step: (from, steps) => stepped(from, steps, bikeParameters.luggage, own),
  }
}

const countBounds = { min: 0, max: 1000, quantity: 'count' } as const
const piece = unit('', 1, 0, 1)

export const countEntry = (value: number): Entry<number> => ({
  text: String(value),
  unit: '',
  read: (text) => readTyped(text, countBounds, piece, value),
  step: (from, steps) => stepped(from, steps, countBounds, piece),
})

export const nameEntry = (value: string, words: KitWords): Entry<string> => ({
  text: value,
  unit: '',
  read: (text) => {
    const name = text.trim()
    return name === '' ? { ok: false, sentence: words.needsName(value) } : { ok: true, value: name }
  },
})

type Use = NonNullable<KitItem['use']>

/** The unit of a rate at which a thing is used up. */
function rateUnit(by: Use['by'], units: Units): DisplayUnit {
  const [mass, long, miles] = units === 'metric' ? [gram, metresPerKilometre, 'km'] : [ounce, metresPerMile, 'mi']
  return by === 'time'
    ? unit(`${mass.symbol}/h`, mass.factor / secondsPerHour, mass.digits, mass.step)
    : unit(`${mass.symbol}/100 ${miles}`, mass.factor / (100 * long), mass.digits, mass.step)
}

/** How fast a thing is used up, kg/s or kg/m; no more than 100 kg an hour or per 100 km. */
export function rateEntry({ by, rate }: Use, units: Units): Entry<number> {
  const own = rateUnit(by, units)
  const max = 100 / (by === 'time' ? secondsPerHour : 100 * metresPerKilometre)
  const bounds = { min: 0, max, quantity: 'mass' } as const
  return {
    text: fieldText(rate, own),
    unit: own.symbol,
    read: (text) => readTyped(text, bounds, own, rate),
    step: (from, steps) => stepped(from, steps, bounds, own),
  }
}

/** 100 g an hour or per 100 km, to begin with. */
export const firstUse = (by: Use['by']): Use => ({
  by,
  rate: 0.1 / (by === 'time' ? secondsPerHour : 100 * metresPerKilometre),
})

const drawBounds = { min: 0, max: mostDraw, quantity: 'power' } as const
const watt = unit('W', 1, 0, 1)

/** Power that a thing draws, W. */
export const drawEntry = (power: number): Entry<number> => ({
  text: fieldText(power, watt),
  unit: watt.symbol,
  read: (text) => readTyped(text, drawBounds, watt, power),
  step: (from, steps) => stepped(from, steps, drawBounds, watt),
})

/** 5 W all day, to begin with. */
export const firstDraw = (from: NonNullable<KitItem['draws']>['from']): KitItem['draws'] => ({
  power: 5,
  from,
  when: 'always',
})

/** `lasts`, `500 g/h`, `5 W`. */
export function useText({ use, draws }: Pick<KitItem, 'use' | 'draws'>, units: Units, { uses }: KitWords): string {
  const said: Pick<Entry<number>, 'text' | 'unit'>[] = [
    ...(use === null ? [] : [rateEntry(use, units)]),
    ...(draws === undefined ? [] : [drawEntry(draws.power)]),
  ]
  return said.length === 0 ? uses.none : said.map(({ text, unit }) => `${text} ${unit}`).join(', ')
}
