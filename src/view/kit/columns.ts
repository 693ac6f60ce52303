import type { KitLine } from '../../model/studies/kit-cost'
import { reckonedTime } from '../../model/forecast/mass'
import type { KitItem } from '../../model/plan/day-schema'
import type { Sorting } from '../legs/columns'

/** A column of the kit list, left to right. */
export type KitColumn = 'name' | 'each' | 'count' | 'place' | 'mark' | 'use' | 'mass' | 'time' | 'energy'

interface Column {
  key: KitColumn
  /** Right-aligned. */
  isNumber?: true
  /** What the column is sorted by. */
  order: (line: KitLine) => number | string
}

const places: readonly KitItem['place'][] = ['bike', 'rider', 'spare']
const marks: readonly KitItem['mark'][] = ['comes', 'unused', 'stays']

const usedPerSecond = ({ use }: KitItem) =>
  use === null ? -1 : use.by === 'time' ? use.rate : use.rate / reckonedTime(1)

export const kitColumns: readonly Column[] = [
  { key: 'name', order: ({ item }) => item.name.toLowerCase() },
  { key: 'each', isNumber: true, order: ({ item }) => item.mass },
  { key: 'count', isNumber: true, order: ({ item }) => item.count },
  { key: 'place', order: ({ item }) => places.indexOf(item.place) },
  { key: 'mark', order: ({ item }) => marks.indexOf(item.mark) },
  { key: 'use', order: ({ item }) => usedPerSecond(item) },
  { key: 'mass', isNumber: true, order: ({ mass }) => mass },
  { key: 'time', isNumber: true, order: ({ time }) => time },
  { key: 'energy', isNumber: true, order: ({ energy }) => energy },
]

/** Lines by a column, in order of the list where it is equal or nothing is asked for. */
export function sortedKit(lines: readonly KitLine[], sorting: Sorting | undefined): readonly KitLine[] {
  const column = kitColumns.find(({ key }) => key === sorting?.key)
  if (column === undefined || sorting === undefined) return lines
  const sign = sorting.ascending ? 1 : -1
  const keyed = lines.map((line) => ({ line, order: column.order(line) }))
  keyed.sort((a, b) => (a.order < b.order ? -sign : a.order > b.order ? sign : 0))
  return keyed.map(({ line }) => line)
}

/** Lines in the order of ids that was, further ones behind: so that no row moves away from under the hand that edits it. */
export function heldKit(lines: readonly KitLine[], ids: readonly string[]): readonly KitLine[] {
  const place = new Map(ids.map((id, i) => [id, i]))
  const placeOf = ({ item }: KitLine) => place.get(item.id) ?? ids.length
  return [...lines].sort((a, b) => placeOf(a) - placeOf(b))
}
