import { distance, heading, scaleAt } from '../geo/scale'
import type { Line } from './line'
import type { LineSummary, Spot } from './survey'

/** A line with what was read of it at a glance. */
export interface Surveyed {
  line: Line
  summary: LineSummary
}

// All numbers below are choices.

/** Lines that begin and end as near to each other, m, but no more than a share of the shorter, lead to the same place. */
const SAME_END = 1000
const SAME_END_SHARE = 0.05
/** Lines with as much of the shorter on the other, in the same direction, go the same way. */
const SAME_WAY = 0.5
/** Lines are looked at every so many metres; a short one at so many places at least, a long one at no more than so many. */
const SPACING = 100
const FEWEST_PLACES = 50
const MOST_PLACES = 2000
const SECTORS = 8

/**
 * Whether any two of some lines are ways to ride the same: from the same place to the same, or half of the shorter along the other. There and
 * back on one road is none.
 */
export function hasVariants(lines: readonly Surveyed[]): boolean {
  const byLength = lines.toSorted((a, b) => b.summary.length - a.summary.length)
  /** Of each line, what was walked of it, by its spacing. */
  const walked = byLength.map(() => new Map<number, Passed[]>())
  const placesOf = (line: number, spacing: number): Passed[] => {
    let places = walked[line]!.get(spacing)
    if (places === undefined) walked[line]!.set(spacing, (places = walk(byLength[line]!.line, spacing)))
    return places
  }
  return byLength.some((longer, k) => {
    const ways = new Map<number, Way>()
    return byLength.slice(k + 1).some((shorter, after) => {
      if (haveSameEnds(longer.summary, shorter.summary)) return true
      const spacing = spacingFor(shorter.summary.length, longer.summary.length)
      let way = ways.get(spacing)
      if (way === undefined) ways.set(spacing, (way = wayOf(placesOf(k, spacing), spacing)))
      return goesAlong(placesOf(k + 1 + after, spacing), way)
    })
  })
}

function haveSameEnds(longer: LineSummary, shorter: LineSummary): boolean {
  const near = Math.min(SAME_END, SAME_END_SHARE * shorter.length)
  const [a, b] = [shorter.outline, longer.outline]
  return isNear(a[0], b[0], near) && isNear(a.at(-1), b.at(-1), near)
}

function isNear(one: Spot | undefined, other: Spot | undefined, near: number): boolean {
  return (
    one !== undefined &&
    other !== undefined &&
    distance(one.latitude, one.longitude, other.latitude, other.longitude) <= near
  )
}

function spacingFor(shorter: number, longer: number): number {
  return Math.max(Math.min(SPACING, shorter / FEWEST_PLACES), longer / MOST_PLACES)
}

/** A place on the way of a line. */
interface Passed extends Spot {
  /** Which way it goes there, of 8. */
  sector: number
}

/** Where a line goes: of each cell of a square grid on it or beside it, the sectors of its headings there, a bit each. */
interface Way {
  cells: Map<number, number>
  /** Number of a cell, or of the one so many rows and columns beside it. */
  cell: (place: Spot, rows: number, columns: number) => number
}

function wayOf(places: readonly Passed[], spacing: number): Way {
  const size = 2 * spacing
  const { north, east } = scaleAt(Math.min(Math.max(places[0]?.latitude ?? 0, -80), 80))
  const cell = ({ latitude, longitude }: Spot, rows: number, columns: number) =>
    (Math.floor((latitude * north) / size) + rows) * 2 ** 21 + Math.floor((longitude * east) / size) + columns
  const cells = new Map<number, number>()
  for (const place of places) {
    const sectors = [-1, 0, 1].reduce((bits, turn) => bits | (1 << ((place.sector + turn + SECTORS) % SECTORS)), 0)
    for (const [rows, columns] of ABOUT) {
      const number = cell(place, rows, columns)
      cells.set(number, (cells.get(number) ?? 0) | sectors)
    }
  }
  return { cells, cell }
}

/** A cell and the eight beside it. */
const ABOUT = [-1, 0, 1].flatMap((rows) => [-1, 0, 1].map((columns) => [rows, columns] as const))

/** Whether as many of the places as count lie on a way, in its direction. */
function goesAlong(places: readonly Passed[], { cells, cell }: Way): boolean {
  const shared = places.filter((place) => ((cells.get(cell(place, 0, 0)) ?? 0) >> place.sector) & 1)
  return shared.length >= SAME_WAY * places.length
}

/** Places along a line, each some metres after the last, on the straight lines between its points. */
function walk({ parts }: Line, spacing: number): Passed[] {
  const places: Passed[] = []
  for (const { latitude, longitude } of parts) {
    let left = 0
    for (let i = 1; i < latitude.length; i++) {
      const ends = [latitude[i - 1]!, longitude[i - 1]!, latitude[i]!, longitude[i]!] as const
      const step = distance(...ends)
      if (!(step > 0) || step > MOST_PLACES * spacing) continue
      const sector = (Math.round((heading(...ends) * SECTORS) / (2 * Math.PI)) + SECTORS) % SECTORS
      for (; left < step; left += spacing) {
        const share = left / step
        places.push({
          latitude: ends[0] + share * (ends[2] - ends[0]),
          longitude: ends[1] + share * (ends[3] - ends[1]),
          sector,
        })
      }
      left -= step
    }
  }
  return places
}
