import { positionAt } from '../route/place'
import type { CalendarEvent } from './ics'
import type { GpxPlace } from './gpx'
import type { Route } from '../route/route'
import type { SheetRow } from '../readings/sheet'
import { clockAt, localAt } from '../world/zone'

const calendarKinds: readonly SheetRow['kind'][] = ['start', 'stop', 'crossing', 'control', 'finish']

/** What a row says in one line: kilometre, clock, charge, sailing, closing time. */
function lineOf(row: SheetRow, zone: string, since: string): string {
  const clock = (instant: number) => clockAt(instant, zone, since)
  const parts = [`km ${(row.distance / 1000).toFixed(1)}`]
  parts.push(row.depart > row.arrive ? `${clock(row.arrive)} to ${clock(row.depart)}` : clock(row.arrive))
  parts.push(`charge ${Math.round(100 * row.charge)} %`)
  if (row.sailing !== undefined) parts.push(`leaves ${clock(row.sailing.depart)}`)
  if (row.passage?.opens !== undefined) parts.push(`opens ${clock(row.passage.opens)}`)
  if (row.passage?.closes !== undefined) parts.push(`closes ${clock(row.passage.closes)}`)
  return parts.join(', ')
}

/** The rows of the day sheet that a calendar is to show. Keys are numbered by kind, so that they stay the same while the plan keeps its stops. */
export function calendarEvents(route: Route, rows: readonly SheetRow[], zone: string): CalendarEvent[] {
  const since = localAt(rows[0]!.arrive, zone)
  const count = new Map<string, number>()
  return rows
    .filter(({ kind }) => calendarKinds.includes(kind))
    .map((row) => {
      const number = (count.get(row.kind) ?? 0) + 1
      count.set(row.kind, number)
      return {
        key: `${row.kind} ${number}`,
        title:
          row.kind === 'crossing' && row.sailing !== undefined
            ? `${row.name}, leaves ${clockAt(row.sailing.depart, zone, since)}`
            : row.name,
        start: row.arrive,
        end: row.depart,
        description: lineOf(row, zone, since),
        ...positionAt(route, row.distance),
      }
    })
}

/** The rows of the day sheet that are places to mark beside the track: stops, controls and crossings. */
export function gpxPlaces(rows: readonly SheetRow[], zone: string): GpxPlace[] {
  const since = localAt(rows[0]!.arrive, zone)
  return rows
    .filter(({ kind }) => kind === 'stop' || kind === 'control' || kind === 'crossing')
    .map((row) => ({
      name: row.name,
      distance: row.distance,
      description: lineOf(row, zone, since),
      kind: row.kind,
    }))
}
