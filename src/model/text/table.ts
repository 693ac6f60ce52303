import Papa from 'papaparse'
import { Unreadable } from './reading'

/** Rows of text under a row of headings. */
export interface Table {
  headings: string[]
  rows: string[][]
  /** Whether a comma in a number is its decimal sign. */
  decimalComma: boolean
}

const mostRows = 2000

/**
 * A table as a spreadsheet copies it (tabs) or writes it (commas or semicolons), with headings in its first row.
 *
 * @param text with or without a byte order mark, any line ends
 * @throws Unreadable where there is no row under the headings, or too many
 * @see RFC 4180
 */
export function readTable(text: string): Table {
  const clean = text.replace(/^\uFEFF/, '')
  const [firstLine = ''] = clean.trimStart().split(/\r\n|\r|\n/, 1)
  const delimiter = [`\t`, ';', ','].find((mark) => firstLine.includes(mark)) ?? ','
  const { data, errors } = Papa.parse<string[]>(clean, { delimiter, skipEmptyLines: 'greedy' })
  if (errors.some(({ type }) => type === 'Quotes'))
    throw new Unreadable('A quotation mark in the table is never closed.')
  const [headings, ...rows] = data.map((row) => row.map((cell) => cell.trim()))
  if (headings === undefined) throw new Unreadable('There is no table in what was pasted.')
  if (rows.length === 0) throw new Unreadable('The table needs its headings in the first row, and rows below them.')
  if (rows.length > mostRows) throw new Unreadable(`The table has ${rows.length} rows; ${mostRows} are the most.`)
  return { headings, rows, decimalComma: delimiter !== ',' }
}

/**
 * A number of a table.
 *
 * @param row index of the row, the first under the headings is 0
 * @param column index; undefined where the table has none such
 * @returns undefined where the cell is empty or absent
 * @throws Unreadable where it holds something else, or lies outside the bounds
 */
export function numberAt(
  table: Table,
  row: number,
  column: number | undefined,
  min: number,
  max: number,
): number | undefined {
  const cell = column === undefined ? '' : (table.rows[row]![column] ?? '')
  if (cell === '' || cell === '-' || cell === '–') return undefined
  const value = numberOf(table.decimalComma ? cell.replace(',', '.') : cell)
  const where = `row ${row + 2}, column “${table.headings[column!]}”`
  if (value === undefined) throw new Unreadable(`“${cell}” in ${where} is not a number.`)
  if (value < min || value > max) throw new Unreadable(`“${cell}” in ${where} is outside ${min} to ${max}.`)
  return value
}

/** A plain decimal number with either minus sign; undefined for anything else. */
export function numberOf(text: string): number | undefined {
  const plain = text.replace('−', '-')
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined
}
