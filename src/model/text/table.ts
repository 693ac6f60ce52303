import Papa from 'papaparse'
import { Unreadable } from './reading'

/** Rows of text under a row of headings. */
export interface Table {
  headings: string[]
  /** Without blanks at the ends of their cells. */
  rows: string[][]
  /** The same with them. */
  written: string[][]
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
  if (errors.some(({ type }) => type === 'Quotes')) throw new Unreadable({ code: 'openQuotes' })
  const [headings, ...rows] = data.map((row) => row.map((cell) => cell.trim()))
  const written = data.slice(1)
  if (headings === undefined) throw new Unreadable({ code: 'noTable' })
  if (rows.length === 0) throw new Unreadable({ code: 'noRows' })
  if (rows.length > mostRows) throw new Unreadable({ code: 'tooManyRows', rows: rows.length, most: mostRows })
  return { headings, rows, written, decimalComma: delimiter !== ',' }
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
  const where = cellAt(table, row, column!)
  if (value === undefined) throw new Unreadable({ code: 'noNumber', ...where })
  if (value < min || value > max) throw new Unreadable({ code: 'outOfBounds', ...where, min, max })
  return value
}

/** A cell with its place, for a fault. @param row index, the first under the headings is 0 */
export const cellAt = ({ headings, rows }: Table, row: number, column: number) => ({
  cell: rows[row]![column] ?? '',
  row: rowNumber(row),
  heading: headings[column]!,
})

/** As a spreadsheet counts: the headings are row 1. @param row index, the first under the headings is 0 */
export const rowNumber = (row: number): number => row + 2

/** A plain decimal number with either minus sign; undefined for anything else. */
export function numberOf(text: string): number | undefined {
  const plain = text.replace('−', '-')
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined
}
