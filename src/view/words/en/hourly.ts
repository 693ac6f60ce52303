import type { WeatherHour } from '../../../model/plan/day-schema'
import type { Format } from '../../format'

/** Of the weather by the hour. */
export const hourlyIn = ({ place }: Format) => ({
  about: 'One weather all day. With a table by the hour, the ride uses the values of the hour at which it is there.',
  type: 'Type it by the hour',
  paste: 'Paste a table',
  at: 'At',
  place: (name: string, at: number) => `${name}, ${place(at)}`,
  label: 'Weather by the hour',
  time: 'Time',
  columns: {
    temperatureCelsius: 'Air',
    windSpeed: 'Wind',
    windFromDegrees: 'From',
    rainPerHour: 'Rain',
    pressure: 'Pressure',
  } satisfies Record<Exclude<keyof WeatherHour, 'time'>, string>,
  timeOfRow: (row: number) => `Time of row ${row}`,
  cell: (column: string, clock: string) => `${column} at ${clock}`,
  removeRow: (clock: string) => `Remove ${clock}`,
  open: 'What a cell leaves open comes from the hours around it, or from the values below.',
  addHour: 'Add an hour',
  addPlace: 'Add a place',
  removePlace: 'Remove this place',
  back: 'Back to one weather all day',
  table: 'Table from a spreadsheet',
  use: 'Use this table',

  /** Why a cell can't be read. */
  notDirection: (typed: string) => `“${typed}” is no direction: write degrees or NW.`,
  notNumber: (typed: string, column: string) => `“${typed}” under “${column}” is not a number.`,
  /** @param least and most in the unit */
  outside: (typed: string, column: string, least: number, most: number, unit: string) =>
    `“${typed}” under “${column}” is outside ${least} to ${most} ${unit}.`,
  notTime: (typed: string) => `“${typed}” is not a time such as 14:00 or 2027-06-19 14:00.`,
  notDate: (date: string) => `“${date}” is not a date of the calendar.`,
  rowThere: (time: string) => `There is a row for ${time} already.`,
})
