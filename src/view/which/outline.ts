import { scaleAt, unwrap } from '../../model/geo/scale'
import type { LineSummary, Spot } from '../../model/route/survey'

/** A small picture of one ride among the others of its file, in its own units of space. */
export interface Outline {
  /** Of the picture: left, top, width, height. */
  viewBox: string
  /** Paths of the ride's lines and of the other lines. */
  ride: string
  others: string
}

/** Width over height. */
const shape = 1.5
/** Share of the ride's size that stays free about it. */
const margin = 0.15
/** Of a file with more lines than this the others are not drawn. */
const mostLines = 100

/**
 * Draws the lines of a ride, and of the others what lies about them; north is up, distances as at the middle of the ride.
 *
 * @param lines of the file
 * @param numbers of those that make the ride
 */
export function outlineOf(lines: readonly LineSummary[], numbers: readonly number[]): Outline {
  const own = numbers.flatMap((number) => lines[number]!.outline)
  const [first] = own
  if (first === undefined) return { viewBox: `0 0 ${shape} 1`, ride: '', others: '' }
  const latitudes = own.map(({ latitude }) => latitude)
  const { north, east } = scaleAt((Math.min(...latitudes) + Math.max(...latitudes)) / 2)
  const project = ({ latitude, longitude }: Spot): [number, number] => [
    (unwrap(longitude, first.longitude) - first.longitude) * east,
    (first.latitude - latitude) * north,
  ]
  const places = own.map(project)
  const [left, right] = bounds(places.map(([x]) => x))
  const [top, bottom] = bounds(places.map(([, y]) => y))
  const height = Math.max(bottom - top, (right - left) / shape, 1) * (1 + 2 * margin)
  const corner = [(left + right - shape * height) / 2, (top + bottom - height) / 2]
  const spotsOf = (line: LineSummary) =>
    line.outline.map((spot) => project(spot).map((metres, axis) => (metres - corner[axis]!) / height))
  const path = (spots: readonly number[][]) =>
    spots.length === 0 ? '' : `M${spots.map((spot) => spot.map((place) => place.toFixed(3)).join(' ')).join('L')}`
  const isSeen = ([x, y]: readonly number[]) => x! >= 0 && x! <= shape && y! >= 0 && y! <= 1
  const others = lines.length > mostLines ? [] : lines.filter((_, number) => !numbers.includes(number)).map(spotsOf)
  return {
    viewBox: `0 0 ${shape} 1`,
    ride: numbers.map((number) => path(spotsOf(lines[number]!))).join(''),
    others: others
      .filter((spots) => spots.some(isSeen))
      .map(path)
      .join(''),
  }
}

function bounds(values: readonly number[]): [number, number] {
  return [Math.min(...values), Math.max(...values)]
}
