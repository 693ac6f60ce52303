import { type Arrangement, arrange } from './arrange'
import { type BuildOptions, buildRoute } from './build'
import { clean, type Cleaned } from './clean'
import { decode } from './decode'
import { Refusal, type RouteFault } from './fault'
import type { Line, Lines } from './line'
import { readLines } from './lines'
import { readGround } from './ground'
import { groundNotes, notesOn } from './notes'
import { partApart } from './part-apart'
import type { Part } from './parts'
import { type Doing, type RouteChoice, type RouteReading, WHOLE_FILE } from './reading'
import { type LineSummary, survey } from './survey'
import { LEAST_RIDDEN, type Stretch } from './travelled'

/**
 * A Route from the bytes of a GPX or KML file, gzipped or not.
 *
 * @param bytes the file
 * @param fileName names the route where the file has no name
 * @param choice which line, which gaps were ridden, and which parts were not
 * @param progress called with the share done, 0 to 1, and what is being done
 * @param ground bytes of the heights that the choice names, where they are there
 * @param options spacing of the stations, for tests
 * @returns the route, or what is wrong with the file and where; never throws for a bad file
 */
export async function readRoute(
  bytes: Uint8Array,
  fileName: string,
  choice: RouteChoice = WHOLE_FILE,
  progress: (share: number, doing: Doing) => void = () => {},
  ground?: Uint8Array,
  options?: BuildOptions,
): Promise<RouteReading> {
  try {
    const brought = ground && readGround(ground)
    const cleaning: Cleaning = (parts, riddenGaps, marked) => clean(parts, riddenGaps, marked, brought)
    const { file, lines, surveyed, arrangement, used, cleaned } = await open(bytes, choice, progress, cleaning)
    progress(0.8, 'smoothing')
    const name = nameFor(
      used.map((line) => lines[line]!.name),
      file.name,
      fileName,
    )
    const notes = [...groundNotes(cleaned, choice, brought), ...notesOn(cleaned, lines, used)]
    const route = buildRoute(name, cleaned, file.waypoints, notes, options)
    progress(1, 'smoothing')
    const { gaps, travelled, proposals } = cleaned
    const summaries = surveyed.map(({ summary }) => summary)
    return { ok: true, route, lines: summaries, used, arrangement, gaps, travelled, proposals, format: file.format }
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, fault: error.fault }
    throw error
  }
}

/** Makes cleaned points of parts, as `clean` does. */
export type Cleaning = (parts: Part[], riddenGaps: number[], marked: readonly Stretch[] | undefined) => Cleaned

/** A file before a Route is made of it. */
interface Opened {
  file: Lines
  /** As they are chosen from. */
  lines: Line[]
  surveyed: { line: Line; summary: LineSummary }[]
  arrangement: Arrangement
  /** Numbers of the lines that are ridden, in order. */
  used: readonly number[]
  cleaned: Cleaned
}

/**
 * Lines of a file, and those to ride cleaned.
 *
 * @param sensors see `readLines`
 * @throws Refusal if the file can't be read, or leaves nothing to ride
 */
export async function open(
  bytes: Uint8Array,
  choice: RouteChoice,
  progress: (share: number, doing: Doing) => void,
  cleaning: Cleaning,
  sensors = false,
): Promise<Opened> {
  progress(0, 'opening')
  const text = await decode(bytes)
  const file = await readLines(text, (share) => progress(0.05 + 0.6 * share, 'reading'), sensors)
  if (file.lines.length === 0) throw new Refusal({ code: 'noPoints', places: file.waypoints.length })
  const lines = file.lines.flatMap(partApart)
  const surveyed = lines.map((line) => ({ line, summary: survey(line) }))
  const arrangement = arrange(surveyed)
  progress(0.7, 'cleaning')
  const ways = waysFor(choice.line, lines, arrangement)
  return { file, lines, surveyed, arrangement, ...firstWay(ways, lines, choice, cleaning) }
}

/** Numbers of lines to ride, in order: what was chosen; or what is proposed, and what else could be ridden should that be no way. */
function waysFor(
  chosen: RouteChoice['line'],
  lines: readonly Line[],
  { proposed, rides }: Arrangement,
): (readonly number[])[] {
  if (chosen === 'proposed')
    return [proposed, ...rides.toSorted((a, b) => b.length - a.length)].map((ride) => ride.lines)
  const numbers = lines.map((_, number) => number)
  if (chosen === 'joined') {
    const tracks = numbers.filter((number) => lines[number]!.kind === 'track')
    return [tracks.length > 0 ? tracks : numbers]
  }
  const asked = typeof chosen === 'number' ? [chosen] : chosen
  const missing = asked.find((number) => lines[number] === undefined)
  if (missing !== undefined) throw new Refusal({ code: 'noSuchLine', lines: lines.length, asked: missing + 1 })
  return [asked]
}

/** The first that leaves something to ride. */
function firstWay(
  ways: readonly (readonly number[])[],
  lines: readonly Line[],
  { riddenGaps, marked }: RouteChoice,
  cleaning: Cleaning,
): { used: readonly number[]; cleaned: Cleaned } {
  let why: RouteFault = { code: 'noPoints', places: 0 }
  for (const used of ways.slice(0, MOST_TRIED)) {
    const parts = used.flatMap((line) => lines[line]!.parts)
    const cleaned = cleaning(parts, riddenGaps, marked)
    const fault = faultIn(cleaned, parts)
    if (fault === undefined) return { used, cleaned }
    if (used === ways[0]) why = fault
  }
  throw new Refusal(why)
}

/** Name of a route: by the line if it is alone, by the file, or as the file is called. */
export function nameFor(lines: readonly string[], ofFile: string, fileName: string): string {
  const own = lines.length === 1 ? lines[0] || ofFile : ofFile || lines[0]
  return own || fileName.replace(/(\.gpx|\.kml)?(\.gz)?$/i, '')
}

/** More ways that leave nothing to ride are not tried. */
const MOST_TRIED = 10
/** Length of the equator, m. */
const AROUND_THE_EARTH = 40_075_017

function faultIn({ distance, stretches, travelled, counts }: Cleaned, parts: readonly Part[]): RouteFault | undefined {
  const length = distance[distance.length - 1] ?? 0
  if (length > AROUND_THE_EARTH) return { code: 'noOrder', length }
  if (stretches.length > 0 && length >= LEAST_RIDDEN) return undefined
  if (travelled.some(({ marked }) => marked)) return { code: 'nothingRidden' }
  const points = parts.reduce((sum, { latitude }) => sum + latitude.length, 0)
  if (counts.zeroPoints === points) return { code: 'onlyZeros', points }
  if (counts.outOfRangePoints + counts.zeroPoints === points) return { code: 'noCoordinates', points }
  return { code: 'onePlace', points }
}
