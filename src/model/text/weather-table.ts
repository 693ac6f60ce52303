import { mostOfDay, type WeatherHour, type WeatherPlace } from '../plan/day-schema'
import {
  kilometresPerHour,
  metresPerInch,
  metresPerKilometre,
  metresPerMile,
  milesPerHour,
  pascalsPerInchOfMercury,
} from '../units'
import type { Names } from '../plan/names'
import type { WeatherColumn } from './fault'
import { reading, Unreadable, type Reading } from './reading'
import { cellAt, numberAt, numberOf, readTable, rowNumber, type Table } from './table'
import { dateAfter } from '../world/zone'
import { isDate } from '../plan/dates'

/** Which column holds what; undefined where the table has none. */
type Columns = Record<WeatherColumn, number | undefined>

/** Words of headings, in the order in which they are tried: 'wind from' is a direction, 'wind km/h' no distance. */
const words: [WeatherColumn | 'ignored', RegExp][] = [
  ['ignored', /gust/],
  ['from', /direction|\bdir\b|from|bearing/],
  ['wind', /wind/],
  ['temperature', /temp|°\s*[cf]\b|celsius|fahrenheit/],
  ['rain', /rain|precip/],
  ['pressure', /press|hpa|mbar|inhg/],
  ['distance', /distance|\bkm\b|\bmi\b|miles?\b/],
  ['time', /time|hour|clock/],
  ['date', /date|\bday\b/],
  ['place', /place|town|station|where|location/],
]

/**
 * Weather as pasted from a spreadsheet: tabs, commas or semicolons, columns known by the words of their headings. A time is needed (a
 * date and time, or `HH:mm` alone, which then counts on from the start's date), and at least one of temperature, wind, rain and pressure.
 * The wind's unit stands in its heading; where the heading of another column names none, it is °C, mm/h, hPa and km, else °F, in, inHg and
 * miles. Up to three places, told apart by their distance.
 *
 * @param text the table
 * @param date local date of the start, `YYYY-MM-DD`
 * @param named what a place without a name is called
 * @returns places by distance with their hours by time; or what is wrong and where
 */
export const readWeather = (text: string, date: string, named: Names['weatherAt']): Reading<WeatherPlace[]> =>
  reading(() => {
    const table = readTable(text)
    const columns = columnsOf(table.headings)
    if (columns.time === undefined) throw new Unreadable({ code: 'noTimeColumn' })
    if ([columns.temperature, columns.wind, columns.rain, columns.pressure].every((column) => column === undefined))
      throw new Unreadable({ code: 'noWeatherColumn' })
    if (columns.wind !== undefined && columns.from === undefined) throw new Unreadable({ code: 'noDirectionColumn' })
    const windUnit = windUnitOf(table, columns.wind)
    const places: WeatherPlace[] = []
    table.rows.forEach((cells, row) => {
      const place = placeOf(places, table, cells, row, columns, named)
      const time = timeOf(table, cells, row, columns, date, place.hours.at(-1)?.time)
      if (place.hours.some((hour) => hour.time === time))
        throw new Unreadable({ code: 'hourTwice', row: rowNumber(row), time })
      place.hours.push(hourOf(table, row, columns, windUnit, time))
    })
    for (const { name, hours } of places)
      if (hours.length > mostOfDay.weatherHours)
        throw new Unreadable({ code: 'tooManyHours', hours: hours.length, place: name, most: mostOfDay.weatherHours })
    for (const { hours } of places) hours.sort((a, b) => (a.time < b.time ? -1 : 1))
    return places.sort((a, b) => a.distance - b.distance)
  })

function columnsOf(headings: readonly string[]): Columns {
  const columns: Columns = {
    time: undefined,
    date: undefined,
    place: undefined,
    distance: undefined,
    temperature: undefined,
    wind: undefined,
    from: undefined,
    rain: undefined,
    pressure: undefined,
  }
  headings.forEach((heading, i) => {
    const known = words.find(([, pattern]) => pattern.test(heading.toLowerCase()))?.[0]
    if (known === undefined || known === 'ignored') return
    if (columns[known] !== undefined)
      throw new Unreadable({ code: 'twoColumns', headings: [headings[columns[known]]!, heading], column: known })
    columns[known] = i
  })
  return columns
}

/** Whether the heading of a column names such a unit. */
const isHeaded = ({ headings }: Table, column: number | undefined, unit: RegExp): boolean =>
  column !== undefined && unit.test(headings[column]!.toLowerCase())

function windUnitOf({ headings }: Table, column: number | undefined): number {
  if (column === undefined) return 1
  const heading = headings[column]!.toLowerCase()
  if (/km\s*\/?\s*h|kph/.test(heading)) return kilometresPerHour
  if (/mph/.test(heading)) return milesPerHour
  if (/m\s*\/\s*s|mps/.test(heading)) return 1
  throw new Unreadable({ code: 'noWindUnit', heading: headings[column]! })
}

function placeOf(
  places: WeatherPlace[],
  table: Table,
  cells: string[],
  row: number,
  columns: Columns,
  nameAt: Names['weatherAt'],
): WeatherPlace {
  const unit = isHeaded(table, columns.distance, /\bmi\b|mile/) ? metresPerMile : metresPerKilometre
  const far = numberAt(table, row, columns.distance, 0, Math.floor(5e7 / unit))
  const named = columns.place === undefined ? '' : (cells[columns.place] ?? '').slice(0, 80)
  if (columns.distance !== undefined && far === undefined)
    throw new Unreadable({ code: 'noDistance', row: rowNumber(row) })
  const distance = (far ?? 0) * unit
  const same = places.find((place) =>
    columns.distance === undefined ? named === '' || place.name === named : place.distance === distance,
  )
  if (same !== undefined) return same
  if (columns.distance === undefined && places.length > 0) throw new Unreadable({ code: 'noDistanceColumn' })
  if (places.length === mostOfDay.weatherPlaces)
    throw new Unreadable({ code: 'tooManyPlaces', row: rowNumber(row), most: mostOfDay.weatherPlaces })
  const place = { name: named === '' ? nameAt(distance) : named, distance, hours: [] }
  places.push(place)
  return place
}

/** The row's local date and time; a clock time alone is on the date of the row before, or on the next where it is earlier. */
function timeOf(
  table: Table,
  cells: string[],
  row: number,
  { time, date: dateColumn }: Columns,
  start: string,
  before: string | undefined,
): string {
  const cell = cells[time!] ?? ''
  const ownDate = dateColumn === undefined ? '' : (cells[dateColumn] ?? '')
  const written = `${ownDate} ${cell}`.trim()
  const [, date, hours, minutes = '00'] =
    /^(?:(\d{4}-\d{2}-\d{2})[T ]\s*)?(\d{1,2})(?:[:.h](\d{2})(?::\d{2})?)?\s*h?$/i.exec(written) ?? []
  if (hours === undefined || Number(hours) > 24 || Number(minutes) > 59 || (Number(hours) === 24 && minutes !== '00'))
    throw new Unreadable({ code: 'noTime', ...cellAt(table, row, time!), cell: written })
  if (date !== undefined && !isDate(date)) throw new Unreadable({ code: 'noDate', row: rowNumber(row), date })
  const on = (day: string) =>
    Number(hours) === 24 ? `${dateAfter(day, 1)}T00:00` : `${day}T${hours.padStart(2, '0')}:${minutes}`
  if (date !== undefined) return on(date)
  const day = before?.slice(0, 10) ?? start
  return before !== undefined && on(day) < before ? on(dateAfter(day, 1)) : on(day)
}

function hourOf(table: Table, row: number, columns: Columns, windUnit: number, time: string): WeatherHour {
  const fahrenheit =
    columns.temperature !== undefined && /°?\s*f\b|fahrenheit/i.test(table.headings[columns.temperature]!)
  const degrees = numberAt(table, row, columns.temperature, -76, 140)
  const celsius = degrees === undefined ? null : fahrenheit ? ((degrees - 32) * 5) / 9 : degrees
  if (celsius !== null && Math.abs(celsius) > mostCelsius)
    throw new Unreadable({ code: 'beyondTemperature', row: rowNumber(row), most: mostCelsius })
  const wind = numberAt(table, row, columns.wind, 0, 70 / windUnit)
  const [pascals, least, most] = isHeaded(table, columns.pressure, /\bin\.?\s*hg\b|mercury/)
    ? [pascalsPerInchOfMercury, 26, 32]
    : [100, 870, 1090]
  const pressure = numberAt(table, row, columns.pressure, least, most)
  const millimetres = isHeaded(table, columns.rain, /\bin(\s*\/|\W?$)|inch/) ? 1000 * metresPerInch : 1
  const rain = numberAt(table, row, columns.rain, 0, Math.floor(300 / millimetres))
  return {
    time,
    temperatureCelsius: celsius,
    windSpeed: wind === undefined ? null : wind * windUnit,
    windFromDegrees: directionOf(table, row, columns.from) ?? null,
    rainPerHour: rain === undefined ? null : rain * millimetres,
    pressure: pressure === undefined ? null : pressure * pascals,
  }
}

const mostCelsius = 60
const compass = ['N', 'NNE', 'NE', 'ENE', 'E', 'ESE', 'SE', 'SSE', 'S', 'SSW', 'SW', 'WSW', 'W', 'WNW', 'NW', 'NNW']

/** Degrees, or a point of the compass. */
function directionOf(table: Table, row: number, column: number | undefined): number | undefined {
  const cell = column === undefined ? '' : (table.rows[row]![column] ?? '')
  const point = compass.indexOf(cell.toUpperCase())
  if (point >= 0) return point * 22.5
  if (cell === '' || numberOf(cell) !== undefined || /\d/.test(cell)) return numberAt(table, row, column, 0, 360)
  throw new Unreadable({ code: 'noDirection', ...cellAt(table, row, column!) })
}
