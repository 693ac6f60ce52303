import Papa from 'papaparse'
import { cellOf, tableForm, textOf } from './cells'
import { reading, Unreadable, type Reading } from '../text/reading'
import { cellAt, numberAt, readTable, rowNumber, type Table } from '../text/table'
import { mostDraw, mostOfDay, provisions, type KitItem } from '../plan/day-schema'
import { kilogramsPerPound, metresPerKilometre, secondsPerHour } from '../units'

const columns = [
  'item',
  'mass_g',
  'count',
  'place',
  'mark',
  'used_g_per_h',
  'used_g_per_km',
  'draws_w',
  'fed_from',
  'draws_when',
  'covers',
]

const places: readonly KitItem['place'][] = ['bike', 'rider', 'spare']
const marks: readonly KitItem['mark'][] = ['comes', 'stays', 'unused']

/** What the marks are called in a list that leaves, and is read again. */
type MarkWords = Record<KitItem['mark'], string>

/** Enough digits to give back what was typed, and none of the dust of binary fractions. */
const grams = (mass: number) => Number((mass * 1000).toPrecision(12))

/**
 * The kit list as CSV by RFC 4180: header, CRLF; names that a spreadsheet would run as a formula, or that are empty or blank, stand behind an
 * apostrophe, which `readKit` takes off again.
 *
 * @returns UTF-8 text without a byte order mark
 */
export function kitCsv(items: readonly KitItem[], markWords: MarkWords): string {
  const data = items.map(({ name, mass, count, place, mark, use, draws, covers }) => [
    cellOf(name),
    grams(mass),
    count,
    place,
    markWords[mark],
    use?.by === 'time' ? grams(use.rate * secondsPerHour) : '',
    use?.by === 'distance' ? grams(use.rate * metresPerKilometre) : '',
    draws?.power ?? '',
    draws?.from ?? '',
    draws?.when ?? '',
    covers ?? '',
  ])
  return Papa.unparse({ fields: columns, data }, tableForm) + '\r\n'
}

/**
 * A kit list from CSV or as pasted from a spreadsheet: columns known by the words of their headings, the mass in the unit of its heading
 * (g, kg, lb or oz). Only the item and its mass are needed.
 *
 * @returns items with ids kit-1, kit-2 and so on; or what is wrong and where
 */
export const readKit = (text: string, markWords: MarkWords): Reading<KitItem[]> =>
  reading(() => {
    const table = readTable(text)
    const find = (pattern: RegExp) => {
      const i = table.headings.findIndex((heading) => pattern.test(heading.toLowerCase()))
      return i < 0 ? undefined : i
    }
    const used = { time: find(/used.*(\/|per_?\s?)h/), distance: find(/used.*(\/|per_?\s?)km/) }
    const name = find(/^(item|name|thing|what)\b/)
    const mass = find(/mass|weight|^\s*(g|kg)\s*$/)
    if (name === undefined) throw new Unreadable({ code: 'noItemColumn' })
    if (mass === undefined) throw new Unreadable({ code: 'noMassColumn' })
    if (table.rows.length > mostOfDay.kit)
      throw new Unreadable({ code: 'tooManyItems', items: table.rows.length, most: mostOfDay.kit })
    const unit = unitOf(table.headings[mass]!)
    const count = find(/count|number|quantity|pieces|^n$/)
    const place = find(/place|where|carried/)
    const mark = find(/mark|status|comes/)
    const covers = find(/^covers/)
    const drawn = { power: find(/^draws?_?\s?w$/), from: find(/^fed/), when: find(/^draws?.when/) }
    return table.rows.map((_, row): KitItem => {
      const each = numberAt(table, row, mass, 0, Math.floor(100 / unit))
      if (each === undefined) throw new Unreadable({ code: 'noMass', row: rowNumber(row) })
      const pieces = numberAt(table, row, count, 0, 1000) ?? 1
      if (!Number.isInteger(pieces)) throw new Unreadable({ code: 'noCount', row: rowNumber(row) })
      return {
        id: `kit-${row + 1}`,
        name: nameOf(table.written[row]![name] ?? '', row),
        mass: each * unit,
        count: pieces,
        place: wordOf(places, table, row, place, 'bike'),
        mark: markOf(table, row, mark, markWords),
        use: useOf(table, row, used),
        ...drawsOf(table, row, drawn),
        ...coversOf(table, row, covers),
      }
    })
  })

function unitOf(heading: string): number {
  const word = /\b(kg|g|lb|lbs|oz)\b/.exec(heading.toLowerCase().replaceAll('_', ' '))?.[1]
  if (word === undefined) throw new Unreadable({ code: 'noMassUnit', heading })
  return { kg: 1, g: 1 / 1000, lb: kilogramsPerPound, lbs: kilogramsPerPound, oz: kilogramsPerPound / 16 }[word]!
}

function nameOf(cell: string, row: number): string {
  if (cell.trim() === '') throw new Unreadable({ code: 'noName', row: rowNumber(row) })
  return textOf(cell).slice(0, 80)
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
  if (word === undefined) throw new Unreadable({ code: 'noneOf', ...cellAt(table, row, column!), cell, choices: known })
  return word
}

function markOf(table: Table, row: number, column: number | undefined, words: MarkWords): KitItem['mark'] {
  const word = wordOf(
    marks.map((mark) => words[mark]),
    table,
    row,
    column,
    words.comes,
  )
  return marks.find((mark) => words[mark] === word)!
}

function useOf(
  table: Table,
  row: number,
  used: { time: number | undefined; distance: number | undefined },
): KitItem['use'] {
  const perHour = numberAt(table, row, used.time, 0, 1e6)
  const perKilometre = numberAt(table, row, used.distance, 0, 1e6)
  if (perHour !== undefined && perKilometre !== undefined)
    throw new Unreadable({ code: 'usedTwice', row: rowNumber(row) })
  if (perHour !== undefined) return { by: 'time', rate: perHour / 1000 / secondsPerHour }
  if (perKilometre !== undefined) return { by: 'distance', rate: perKilometre / 1000 / metresPerKilometre }
  return null
}

const coversOf = (table: Table, row: number, column: number | undefined): Pick<KitItem, 'covers'> => {
  const word = wordOf(['', ...provisions], table, row, column, '')
  return word === '' ? {} : { covers: word }
}

const feeds = ['packs', 'own'] as const
const whens = ['always', 'dark'] as const

/** Nothing where no power is given. */
function drawsOf(
  table: Table,
  row: number,
  column: Record<'power' | 'from' | 'when', number | undefined>,
): Pick<KitItem, 'draws'> {
  const power = numberAt(table, row, column.power, 0, mostDraw)
  if (power === undefined) return {}
  const from = wordOf(feeds, table, row, column.from, 'packs')
  return { draws: { power, from, when: wordOf(whens, table, row, column.when, 'always') } }
}
