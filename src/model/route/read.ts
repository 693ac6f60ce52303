import { distance } from '../geo/scale'
import { type BuildOptions, buildRoute } from './build'
import { clean, type Cleaned } from './clean'
import { decode } from './decode'
import { Refusal, type RouteFault } from './fault'
import { type Line, readLines } from './lines'
import { notesOn } from './notes'
import type { Part } from './parts'
import { type Doing, type LineSummary, type RouteChoice, type RouteReading, WHOLE_FILE } from './reading'

/**
 * A Route from the bytes of a GPX or KML file, gzipped or not.
 *
 * @param bytes the file
 * @param fileName names the route where the file has no name
 * @param choice which line, which gaps were ridden, and which parts were not
 * @param progress called with the share done, 0 to 1, and what is being done
 * @param options spacing of the stations, for tests
 * @returns the route, or what is wrong with the file and where; never throws for a bad file
 */
export async function readRoute(
  bytes: Uint8Array,
  fileName: string,
  choice: RouteChoice = WHOLE_FILE,
  progress: (share: number, doing: Doing) => void = () => {},
  options?: BuildOptions,
): Promise<RouteReading> {
  try {
    progress(0, 'opening')
    const text = await decode(bytes)
    const file = await readLines(text, (share) => progress(0.05 + 0.65 * share, 'reading'))
    const chosen = choose(file.lines, choice.line)
    progress(0.7, 'cleaning')
    const cleaned = clean(
      chosen.flatMap((line) => line.parts),
      choice.riddenGaps,
      choice.marked,
    )
    refuseIfNoWay(cleaned, file.lines, file.waypoints.length)
    progress(0.8, 'smoothing')
    const [first] = chosen
    const own = chosen.length === 1 ? first!.name || file.name : file.name || first!.name
    const name = own || fileName.replace(/(\.gpx|\.kml)?(\.gz)?$/i, '')
    const route = buildRoute(name, cleaned, file.waypoints, notesOn(cleaned, file.lines, chosen), options)
    progress(1, 'smoothing')
    const { gaps, travelled, proposals } = cleaned
    return { ok: true, route, lines: file.lines.map(summary), gaps, travelled, proposals, format: file.format }
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, fault: error.fault }
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
  if (one === undefined) throw new Refusal({ code: 'noSuchLine', lines: lines.length, asked: line + 1 })
  return [one]
}

/** Length of the equator, m. */
const AROUND_THE_EARTH = 40_075_017

function refuseIfNoWay(cleaned: Cleaned, lines: Line[], places: number): void {
  const length = cleaned.distance[cleaned.distance.length - 1] ?? 0
  if (length > AROUND_THE_EARTH) throw new Refusal({ code: 'noOrder', length })
  if (cleaned.stretches.length === 0 || length === 0) throw new Refusal(whyNoWay(cleaned, lines, places))
}

function whyNoWay({ travelled, counts }: Cleaned, lines: Line[], places: number): RouteFault {
  if (travelled.some(({ marked }) => marked)) return { code: 'nothingRidden' }
  const points = lines.reduce((sum, line) => sum + pointsIn(line.parts), 0)
  if (points === 0) return { code: 'noPoints', places }
  if (counts.zeroPoints === points) return { code: 'onlyZeros', points }
  if (counts.outOfRangePoints + counts.zeroPoints === points) return { code: 'noCoordinates', points }
  return { code: 'onePlace', points }
}

function pointsIn(parts: Part[]): number {
  return parts.reduce((sum, { latitude }) => sum + latitude.length, 0)
}

function summary({ name, kind, parts }: Line): LineSummary {
  let length = 0
  for (const { latitude, longitude } of parts) {
    for (let i = 1; i < latitude.length; i++) {
      const step = distance(latitude[i - 1]!, longitude[i - 1]!, latitude[i]!, longitude[i]!)
      if (Number.isFinite(step)) length += step
    }
  }
  return { name, kind, points: pointsIn(parts), length }
}
