import { positionAt } from '../route/place'
import type { CalendarEvent } from './ics'
import type { GpxPlace } from './gpx'
import type { Route } from '../route/route'
import type { PlaceName } from '../place-name'
import type { SheetRow } from '../readings/sheet'
import { clockAt, localAt } from '../world/zone'

const calendarKinds: readonly SheetRow['kind'][] = ['start', 'stop', 'crossing', 'control', 'finish']

/** An instant, Unix time, s, as clock time of the day. */
type Clock = (instant: number) => string

/** How a row of the day sheet is worded where it leaves. */
export interface RowWords {
  place: (name: PlaceName) => string
  /** What a calendar calls it. */
  eventTitle: (row: SheetRow, clock: Clock) => string
  /** What it says in one line: place, clock, charge, sailing, closing time. */
  rowLine: (row: SheetRow, clock: Clock) => string
}

const clockOf = (rows: readonly SheetRow[], zone: string): Clock => {
  const since = localAt(rows[0]!.arrive, zone)
  return (instant) => clockAt(instant, zone, since)
}

/** The rows of the day sheet that a calendar is to show. Keys are made of ids, so that they stay the same whatever else comes or goes. */
export function calendarEvents(
  route: Route,
  rows: readonly SheetRow[],
  zone: string,
  words: RowWords,
): CalendarEvent[] {
  const clock = clockOf(rows, zone)
  return rows
    .filter(({ kind }) => calendarKinds.includes(kind))
    .map((row) => ({
      key: row.id === '' ? row.kind : `${row.kind} ${row.id}`,
      title: words.eventTitle(row, clock),
      start: row.arrive,
      end: row.depart,
      description: words.rowLine(row, clock),
      ...positionAt(route, row.distance),
    }))
}

/** The rows of the day sheet that are places to mark beside the track: stops, controls and crossings. */
export function gpxPlaces(rows: readonly SheetRow[], zone: string, words: RowWords): GpxPlace[] {
  const clock = clockOf(rows, zone)
  return rows
    .filter(({ kind }) => kind === 'stop' || kind === 'control' || kind === 'crossing')
    .map((row) => ({
      name: words.place(row.name),
      distance: row.distance,
      description: words.rowLine(row, clock),
      kind: row.kind,
    }))
}
