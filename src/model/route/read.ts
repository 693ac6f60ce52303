import { WHOLE_FILE, type LineSummary, type RouteChoice, type RouteReading } from './reading'
import { distance } from '../geo/scale'
import { type BuildOptions, buildRoute } from './build'
import { clean, type Cleaned } from './clean'
import { decode, Refusal } from './decode'
import { type Line, readLines } from './lines'
import type { Part } from './parts'
import { NOTHING_RIDDEN } from './travelled'

/**
 * A Route from the bytes of a GPX or KML file, gzipped or not.
 *
 * @param bytes the file
 * @param fileName names the route where the file has no name
 * @param choice which line, which gaps were ridden, and which parts were not
 * @param progress called with the share done, 0 to 1, and what is being done
 * @param options spacing of the stations, for tests
 * @returns the route, or one sentence that says what is wrong and where; never throws for a bad file
 */
export async function readRoute(
  bytes: Uint8Array,
  fileName: string,
  choice: RouteChoice = WHOLE_FILE,
  progress: (share: number, doing: string) => void = () => {},
  options?: BuildOptions,
): Promise<RouteReading> {
  try {
    progress(0, 'Opening the file')
    const text = await decode(bytes)
    const file = await readLines(text, (share) => progress(0.05 + 0.65 * share, 'Reading points'))
    const chosen = choose(file.lines, choice.line)
    progress(0.7, 'Cleaning')
    const cleaned = clean(
      chosen.flatMap((line) => line.parts),
      choice.riddenGaps,
      choice.marked,
    )
    refuseIfNoWay(cleaned, file.lines, file.waypoints.length)
    progress(0.8, 'Smoothing')
    const [first] = chosen
    const own = chosen.length === 1 ? first!.name || file.name : file.name || first!.name
    const name = own || fileName.replace(/(\.gpx|\.kml)?(\.gz)?$/i, '')
    const route = buildRoute(name, cleaned, file.waypoints, notesOn(cleaned, file.lines, chosen), options)
    progress(1, 'Done')
    const { gaps, travelled, proposals } = cleaned
    return { ok: true, route, lines: file.lines.map(summary), gaps, travelled, proposals, format: file.format }
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, sentence: error.message }
    throw error
  }
}

/** All tracks joined in order, or where there are none, all routes or lines; or the one that was chosen. */
function choose(lines: Line[], line: RouteChoice['line']): Line[] {
  if (line === 'joined') {
    const tracks = lines.filter(({ kind }) => kind === 'track')
    return tracks.length > 0 ? tracks : lines
  }
  const one = lines[line]
  if (one === undefined) throw new Refusal(`The file has ${lines.length} lines; line ${line + 1} was asked for.`)
  return [one]
}

/** Length of the equator, m. */
const AROUND_THE_EARTH = 40_075_017

function refuseIfNoWay(cleaned: Cleaned, lines: Line[], waypoints: number): void {
  const length = cleaned.distance[cleaned.distance.length - 1] ?? 0
  if (length > AROUND_THE_EARTH) {
    throw new Refusal(
      `The points of the file make a way of ${Math.round(length / 1000).toLocaleString('en')} km, longer than once around the Earth; they are not in the order of a ride.`,
    )
  }
  if (cleaned.stretches.length > 0 && length > 0) return
  if (cleaned.travelled.some(({ marked }) => marked)) throw new Refusal(NOTHING_RIDDEN)
  const { outOfRangePoints, zeroPoints } = cleaned.counts
  const points = lines.reduce((sum, line) => sum + pointsIn(line.parts), 0)
  if (points === 0) {
    throw new Refusal(
      waypoints > 0
        ? `The file has no track, route or line to ride: only ${waypoints} single ${waypoints === 1 ? 'place' : 'places'}.`
        : 'The file has no points: no track, route or line is in it.',
    )
  }
  if (outOfRangePoints + zeroPoints === points) {
    throw new Refusal(
      zeroPoints === points
        ? `All ${points} points of the file lie at latitude 0, longitude 0, which stands for no position.`
        : `None of the ${points} points of the file has usable coordinates: latitude must be a number from -90 to 90, longitude from -180 to 180.`,
    )
  }
  throw new Refusal(
    points === 1
      ? 'The file has only one point; a route needs at least two.'
      : `The file has ${points} points, but they are all at one place or are errors; a route needs at least two places.`,
  )
}

function pointsIn(parts: Part[]): number {
  return parts.reduce((sum, { latitude }) => sum + latitude.length, 0)
}

function summary({ name, kind, parts }: Line, index: number): LineSummary {
  let length = 0
  for (const { latitude, longitude } of parts) {
    for (let i = 1; i < latitude.length; i++) {
      const step = distance(latitude[i - 1]!, longitude[i - 1]!, latitude[i]!, longitude[i]!)
      if (Number.isFinite(step)) length += step
    }
  }
  const kinds = { track: 'Track', route: 'Route', line: 'Line' }
  return { name: name || `${kinds[kind]} ${index + 1}`, kind, points: pointsIn(parts), length }
}

/** Bike, rider and load in the note on missing elevation, kg. */
const NOTED_MASS = 130
const NOTED_CLIMB = 100

function notesOn(cleaned: Cleaned, lines: Line[], chosen: Line[]): string[] {
  const notes: string[] = []
  const km = (metres: number) => (metres / 1000).toFixed(metres < 10_000 ? 1 : 0)
  if (cleaned.elevationKnown === 'none') {
    const energy = Math.round((NOTED_MASS * 9.81 * NOTED_CLIMB) / 3600)
    notes.push(
      `The file has no elevation, so the forecast assumes flat ground; each ${NOTED_CLIMB} m of climbing takes about ${energy} Wh more at the wheel for bike, rider and load of ${NOTED_MASS} kg.`,
    )
  } else if (cleaned.elevationKnown === 'part') {
    notes.push(
      `Elevation is missing at ${cleaned.counts.unknownElevations} of ${cleaned.elevation.length} points, for up to ${km(cleaned.longestHole)} km at a stretch; it is drawn straight there, so climbs in between are not in the forecast.`,
    )
  }
  const crossings = cleaned.travelled.filter(({ marked }) => !marked)
  if (crossings.length > 0) {
    const total = crossings.reduce((sum, { from, to }) => sum + to - from, 0)
    notes.push(
      crossings.length === 1
        ? `The track has a gap of ${km(total)} km, taken as a crossing that is not ridden.`
        : `The track has ${crossings.length} gaps, ${km(total)} km together, taken as crossings that are not ridden.`,
    )
  }
  for (const { from, to, place } of cleaned.travelled.filter(({ marked }) => marked)) {
    const where = { start: ' at the start', between: '', end: ' at the end' }[place]
    notes.push(`A marked part of ${km(to - from)} km${where} is not ridden.`)
  }
  if (chosen.length > 1) notes.push(`The ${chosen.length} ${chosen[0]!.kind}s of the file are joined in order.`)
  const left = lines.length - chosen.length
  if (left > 0)
    notes.push(
      left === 1 ? 'The file has one more line, not used here.' : `The file has ${left} more lines, not used here.`,
    )
  return notes
}
