import type { WeatherHour, WeatherPlace } from '../../model/plan/day-schema'
import type { Quantity } from '../../model/plan/parameters'
import { readNumber, type Typed } from '../fields/typed'
import { fromShown, toShown, unitOf, type Units } from '../format'
import { foldedWordsIn, type FoldedWords } from '../words/folded'
import { compassPoint, degreesOf } from './compass'

/** A column of the table of weather by the hour. */
export interface WeatherColumn {
  key: Exclude<keyof WeatherHour, 'time'>
  quantity: Quantity
  min: number
  max: number
}

export const weatherColumns: readonly WeatherColumn[] = [
  { key: 'temperatureCelsius', quantity: 'temperature', min: -60, max: 60 },
  { key: 'windSpeed', quantity: 'windSpeed', min: 0, max: 70 },
  { key: 'windFromDegrees', quantity: 'direction', min: 0, max: 360 },
  { key: 'rainPerHour', quantity: 'rain', min: 0, max: 300 },
  { key: 'pressure', quantity: 'pressure', min: 87_000, max: 109_000 },
]

/** A value as its cell shows it; directions that are one of 16 points by their letters. */
export function cellText({ key, quantity }: WeatherColumn, hour: WeatherHour, units: Units): string {
  const value = hour[key]
  if (value === null) return ''
  if (key === 'windFromDegrees' && value % 22.5 === 0) return compassPoint(value)
  const unit = unitOf(quantity, units)
  return String(Number(toShown(value, unit).toFixed(unit.digits)))
}

/** A row after a cell was typed into; an empty cell is unknown. */
export function withCell(
  { key, quantity, min, max }: WeatherColumn,
  hour: WeatherHour,
  text: string,
  units: Units,
): Typed<WeatherHour> {
  const words = foldedWordsIn(units).hourly
  const column = words.columns[key]
  const plain = text.trim()
  if (plain === '') return { ok: true, value: { ...hour, [key]: null } }
  const unit = unitOf(quantity, units)
  const point = key === 'windFromDegrees' ? degreesOf(plain) : undefined
  const typed = point ?? readNumber(plain, unit.symbol)
  if (typed === undefined)
    return refused(key === 'windFromDegrees' ? words.notDirection(plain) : words.notNumber(plain, column))
  const value = fromShown(typed, unit)
  const shown = (bound: number) => Math.round(toShown(bound, unit))
  if (value < min || value > max) return refused(words.outside(plain, column, shown(min), shown(max), unit.symbol))
  return { ok: true, value: { ...hour, [key]: value } }
}

const refused = (sentence: string): Typed<never> => ({ ok: false, sentence })

/** The time of a row as its cell shows it: the clock, with the date where it is not that of the row before. */
export const timeText = (hour: WeatherHour, before: string): string =>
  hour.time.slice(0, 10) === before.slice(0, 10) ? hour.time.slice(11) : hour.time.replace('T', ' ')

/** A row at another time, `14:00` or `2027-06-19 14:00`; a time that another row of the place has is refused. */
export function withTime(
  place: WeatherPlace,
  row: number,
  text: string,
  words: FoldedWords['hourly'],
): Typed<WeatherHour> {
  const hour = place.hours[row]!
  const [, date, hours, minutes] = /^(?:(\d{4}-\d{2}-\d{2})[T ]\s*)?(\d{1,2})[:.h](\d{2})$/.exec(text.trim()) ?? []
  if (hours === undefined || Number(hours) > 23 || Number(minutes) > 59) return refused(words.notTime(text.trim()))
  const time = `${date ?? hour.time.slice(0, 10)}T${hours.padStart(2, '0')}:${minutes}`
  if (date !== undefined && Number.isNaN(Date.parse(`${date}T00:00Z`))) return refused(words.notDate(date))
  if (place.hours.some((other, i) => i !== row && other.time === time))
    return refused(words.rowThere(time.replace('T', ' ')))
  return { ok: true, value: { ...hour, time } }
}
