import { distance, heading, scaleAt } from '../geo/scale'
import type { Line } from './lines'
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
 * Whether two lines are ways to ride the same: from the same place to the same, or half of the shorter along the other. There and back on one road
 * is none.
 */
export function areVariants(one: Surveyed, other: Surveyed): boolean {
  const [shorter, longer] = one.summary.length <= other.summary.length ? [one, other] : [other, one]
  const near = Math.min(SAME_END, SAME_END_SHARE * shorter.summary.length)
  const [a, b] = [shorter.summary.outline, longer.summary.outline]
  if (isNear(a[0], b[0], near) && isNear(a.at(-1), b.at(-1), near)) return true
  const spacing = Math.max(
    Math.min(SPACING, shorter.summary.length / FEWEST_PLACES),
    longer.summary.length / MOST_PLACES,
  )
  const grid = gridFor(a[0]!, 2 * spacing)
  const way = new Set<number>()
  walk(longer.line, spacing, (place) => way.add(grid(place, 0, 0, 0)))
  let places = 0
  let shared = 0
  walk(shorter.line, spacing, (place) => {
    places++
    if (isOn(way, grid, place)) shared++
  })
  return shared >= SAME_WAY * places
}

function isNear(one: Spot | undefined, other: Spot | undefined, near: number): boolean {
  return (
    one !== undefined &&
    other !== undefined &&
    distance(one.latitude, one.longitude, other.latitude, other.longitude) <= near
  )
}

interface Passed extends Spot {
  heading: number
}

/** Gives a number to each cell of a square grid and each sector of heading, or to one beside it. */
type Grid = (place: Passed, rows: number, columns: number, sectors: number) => number

function gridFor({ latitude }: Spot, size: number): Grid {
  const { north, east } = scaleAt(Math.min(Math.max(latitude, -80), 80))
  return (place, rows, columns, sectors) => {
    const row = Math.floor((place.latitude * north) / size) + rows
    const column = Math.floor((place.longitude * east) / size) + columns
    const sector = (Math.round((place.heading * SECTORS) / (2 * Math.PI)) + sectors + SECTORS) % SECTORS
    return (row * 2 ** 21 + column) * SECTORS + sector
  }
}

function isOn(way: ReadonlySet<number>, grid: Grid, place: Passed): boolean {
  for (let rows = -1; rows <= 1; rows++)
    for (let columns = -1; columns <= 1; columns++)
      for (let sectors = -1; sectors <= 1; sectors++) if (way.has(grid(place, rows, columns, sectors))) return true
  return false
}

/** Places along a line, each some metres after the last, on the straight lines between its points. */
function walk({ parts }: Line, spacing: number, at: (place: Passed) => void): void {
  for (const { latitude, longitude } of parts) {
    let left = 0
    for (let i = 1; i < latitude.length; i++) {
      const ends = [latitude[i - 1]!, longitude[i - 1]!, latitude[i]!, longitude[i]!] as const
      const step = distance(...ends)
      if (!(step > 0) || step > MOST_PLACES * spacing) continue
      for (; left < step; left += spacing) {
        const share = left / step
        at({
          latitude: ends[0] + share * (ends[2] - ends[0]),
          longitude: ends[1] + share * (ends[3] - ends[1]),
          heading: heading(...ends),
        })
      }
      left -= step
    }
  }
}
