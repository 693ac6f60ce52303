import type { Fault, WeatherColumn } from '../../../model/text/fault'
import { distanceUnit, type Format } from '../../format'
import { worded } from '../worded'
import { times } from './times'

/** What stands in a table's cell, and where. */
const at = ({ cell, row, heading }: { cell: string; row: number; heading: string }) =>
  `“${cell}” in row ${row}, column “${heading}”`

const columns: Record<WeatherColumn, string> = {
  time: 'time',
  date: 'date',
  place: 'place',
  distance: 'distance',
  temperature: 'temperature',
  wind: 'wind',
  from: 'from',
  rain: 'rain',
  pressure: 'pressure',
}

/** Of what is typed or pasted. */
export const typedIn = ({ measure, units }: Format) => {
  const [massUnits, massColumns] =
    units === 'metric' ? ['g or kg', '“mass g” or “mass kg”'] : ['oz or lb', '“mass oz” or “mass lb”']
  return {
    /** Of a field for a time of day. */
    clock: {
      date: 'Date',
      /** A date as the page writes it, beside the browser’s own field. */
      dated: times.date,
      form: '05:30',
      /** @param until what counts until then; empty where nothing does */
      unread: (until: string) =>
        `Write a time of day as 05:30 or 530.${until === '' ? '' : ` Until then it is ${until}.`}`,
    },
    /** Of a long table that shows a few rows first. */
    rows: {
      some: (shown: number, all: number) => `${shown} of ${all} rows are shown; all of them count.`,
      more: (rest: number) => `Show ${rest} more`,
      fewer: 'Show fewer',
    },
    /** Why what was typed or pasted can't be read. */
    fault: worded<Fault>({
      openQuotes: () => 'A quotation mark in the table is never closed.',
      noTable: () => 'There is no table in what was pasted.',
      noRows: () => 'The table needs its headings in the first row, and rows below them.',
      tooManyRows: ({ rows, most }) => `The table has ${rows} rows; ${most} are the most.`,
      noNumber: (fault) => `${at(fault)} is not a number.`,
      outOfBounds: (fault) => `${at(fault)} is outside ${fault.min} to ${fault.max}.`,

      noSailing: () => 'Write at least one sailing, such as 07:00.',
      tooManySailings: ({ sailings, most }) => `There are ${sailings} sailings; ${most} are the most.`,
      noTimeOfDay: ({ word }) => `“${word}” is not a time of day: write sailings as 07:00 09:30 12:00.`,

      noTimeColumn: () => 'The table needs a column headed “time”.',
      noWeatherColumn: () => 'The table needs a column headed “temperature”, “wind”, “rain” or “pressure”.',
      noDirectionColumn: () => 'The table has wind, but no column headed “wind from” for its direction.',
      twoColumns: ({ headings, column }) =>
        `Two columns, “${headings[0]}” and “${headings[1]}”, are both taken for ${columns[column]}.`,
      noWindUnit: ({ heading }) => `The heading “${heading}” needs its unit: m/s, km/h or mph.`,
      noDistanceColumn: () =>
        `For more than one place the table needs a column headed “${distanceUnit(units)}” with each place’s distance.`,
      noDistance: ({ row }) => `Row ${row} has no distance.`,
      tooManyPlaces: ({ row, most }) => `Row ${row} begins a fourth place; ${most} are the most.`,
      hourTwice: ({ row, time }) => `Row ${row} tells the weather of ${time.replace('T', ' ')} a second time.`,
      tooManyHours: ({ hours, place, most }) => `There are ${hours} rows for ${place}; ${most} are the most.`,
      noTime: (fault) => `${at(fault)}, is not a time such as 14:00 or 2027-06-19 14:00.`,
      noDate: ({ row, date }) => `“${date}” in row ${row} is not a date of the calendar.`,
      beyondTemperature: ({ row, most }) => `The temperature of row ${row} is beyond ${measure(most, 'temperature')}.`,
      noDirection: (fault) => `${at(fault)}, is no direction: write degrees or NW.`,

      noItemColumn: () => 'The table needs a column headed “item”.',
      noMassColumn: () => `The table needs a column headed ${massColumns}.`,
      tooManyItems: ({ items, most }) => `The table has ${items} items; ${most} are the most.`,
      noMassUnit: ({ heading }) => `The heading “${heading}” needs its unit: ${massUnits}.`,
      noMass: ({ row }) => `Row ${row} has no mass.`,
      noName: ({ row }) => `Row ${row} has no name.`,
      noCount: ({ row }) => `The count in row ${row} is not a whole number.`,
      noneOf: (fault) => `${at(fault)}, should be one of: ${fault.choices.join(', ')}.`,
      usedTwice: ({ row }) => `Row ${row} is used up by the hour or by the kilometre, not both.`,
    }),

    /** How a pasted weather table is to be headed. */
    weatherHeadings:
      units === 'metric'
        ? 'Headings in the first row: time, temp °C, wind m/s (or km/h), wind from, rain mm/h, pressure hPa. For up to three places also km and place.'
        : 'Headings in the first row: time, temp °F, wind mph, wind from, rain in/h, pressure inHg. For up to three places also mi and place.',
  }
}
