import Papa from 'papaparse'
import { reading, Unreadable, type Reading } from '../text/reading'
import { numberAt, readTable, type Table } from '../text/table'
import { mostOfDay, type KitItem } from '../plan/day-schema'
import { kilogramsPerPound, metresPerKilometre, secondsPerHour } from '../units'

const columns = ['item', 'mass_g', 'count', 'place', 'mark', 'used_g_per_h', 'used_g_per_km']

const markWords: Record<KitItem['mark'], string> = {
  comes: 'comes along',
  stays: 'stays home',
  unused: 'came back unused',
}
const placeWords: readonly KitItem['place'][] = ['bike', 'rider', 'spare']

/** Enough digits to give back what was typed, and none of the dust of binary fractions. */
const grams = (mass: number) => Number((mass * 1000).toPrecision(12))

/**
 * The kit list as CSV by RFC 4180: header, CRLF; text that a spreadsheet would run as a formula is made harmless by an apostrophe, which
 * `readKit` takes off again.
 *
 * @returns UTF-8 text without a byte order mark
 */
export function kitCsv(items: readonly KitItem[]): string {
  const data = items.map(({ name, mass, count, place, mark, use }) => [
    name,
    grams(mass),
    count,
    place,
    markWords[mark],
    use?.by === 'time' ? grams(use.rate * secondsPerHour) : '',
    use?.by === 'distance' ? grams(use.rate * metresPerKilometre) : '',
  ])
  return Papa.unparse({ fields: columns, data }, { newline: '\r\n', escapeFormulae: true }) + '\r\n'
}

/**
 * A kit list from CSV or as pasted from a spreadsheet: columns known by the words of their headings, the mass in the unit of its heading
 * (g, kg, lb or oz). Only the item and its mass are needed.
 *
 * @returns items with ids kit-1, kit-2 and so on; or one sentence that says what is wrong and where
 */
export const readKit = (text: string): Reading<KitItem[]> =>
  reading(() => {
    const table = readTable(text)
    const find = (pattern: RegExp) => {
      const i = table.headings.findIndex((heading) => pattern.test(heading.toLowerCase()))
      return i < 0 ? undefined : i
    }
    const used = { time: find(/used.*(\/|per_?\s?)h/), distance: find(/used.*(\/|per_?\s?)km/) }
    const name = find(/^(item|name|thing|what)\b/)
    const mass = find(/mass|weight|^\s*(g|kg)\s*$/)
    if (name === undefined) throw new Unreadable('The table needs a column headed “item”.')
    if (mass === undefined) throw new Unreadable('The table needs a column headed “mass g” or “mass kg”.')
    if (table.rows.length > mostOfDay.kit)
      throw new Unreadable(`The table has ${table.rows.length} items; ${mostOfDay.kit} are the most.`)
    const unit = unitOf(table.headings[mass]!)
    const count = find(/count|number|quantity|pieces|^n$/)
    const place = find(/place|where|carried/)
    const mark = find(/mark|status|comes/)
    return table.rows.map((cells, row): KitItem => {
      const each = numberAt(table, row, mass, 0, Math.floor(100 / unit))
      if (each === undefined) throw new Unreadable(`Row ${row + 2} has no mass.`)
      const pieces = numberAt(table, row, count, 0, 1000) ?? 1
      if (!Number.isInteger(pieces)) throw new Unreadable(`The count in row ${row + 2} is not a whole number.`)
      return {
        id: `kit-${row + 1}`,
        name: nameOf(cells[name] ?? '', row),
        mass: each * unit,
        count: pieces,
        place: wordOf(placeWords, table, row, place, 'bike'),
        mark: markOf(table, row, mark),
        use: useOf(table, row, used),
      }
    })
  })

function unitOf(heading: string): number {
  const word = /\b(kg|g|lb|lbs|oz)\b/.exec(heading.toLowerCase().replaceAll('_', ' '))?.[1]
  if (word === undefined) throw new Unreadable(`The heading “${heading}” needs its unit: g or kg.`)
  return { kg: 1, g: 1 / 1000, lb: kilogramsPerPound, lbs: kilogramsPerPound, oz: kilogramsPerPound / 16 }[word]!
}

function nameOf(cell: string, row: number): string {
  const name = cell.replace(/^'(?=[=+\-@\t\r])/, '')
  if (name === '') throw new Unreadable(`Row ${row + 2} has no name.`)
  return name.slice(0, 80)
}

function wordOf<T extends string>(
  known: readonly T[],
  table: Table,
  row: number,
  column: number | undefined,
  otherwise: T,
): T {
  const cell = column === undefined ? '' : (table.rows[row]![column] ?? '').toLowerCase()
  if (cell === '') return otherwise
  const word = known.find((word) => word === cell)
  if (word === undefined)
    throw new Unreadable(
      `“${cell}” in row ${row + 2}, column “${table.headings[column!]}”, should be one of: ${known.join(', ')}.`,
    )
  return word
}

function markOf(table: Table, row: number, column: number | undefined): KitItem['mark'] {
  const word = wordOf(Object.values(markWords), table, row, column, markWords.comes)
  return (Object.keys(markWords) as KitItem['mark'][]).find((mark) => markWords[mark] === word)!
}

function useOf(
  table: Table,
  row: number,
  used: { time: number | undefined; distance: number | undefined },
): KitItem['use'] {
  const perHour = numberAt(table, row, used.time, 0, 1e6)
  const perKilometre = numberAt(table, row, used.distance, 0, 1e6)
  if (perHour !== undefined && perKilometre !== undefined)
    throw new Unreadable(`Row ${row + 2} is used up by the hour or by the kilometre, not both.`)
  if (perHour !== undefined) return { by: 'time', rate: perHour / 1000 / secondsPerHour }
  if (perKilometre !== undefined) return { by: 'distance', rate: perKilometre / 1000 / metresPerKilometre }
  return null
}
