import type { Cleaned } from './clean'
import type { Ground } from './ground'
import type { Line } from './line'
import type { RouteNote } from './note'
import type { RouteChoice } from './reading'
import type { Stretch } from './travelled'

/** Bike, rider and load in the note on missing elevation, kg. */
const NOTED_MASS = 130
const NOTED_CLIMB = 100
const GRAVITY = 9.81
/** Points farther apart, m, are no road, but straight lines; said if they are more than this share of the way. Choices. */
const FAR_APART = 1000
const FAR_SHARE = 0.1

/**
 * What is said about a route.
 *
 * @param cleaned its points
 * @param lines of the whole file
 * @param used numbers of those that are ridden, in order
 */
export function notesOn(cleaned: Cleaned, lines: readonly Line[], used: readonly number[]): RouteNote[] {
  return [
    ...farApartNotes(cleaned),
    ...elevationNotes(cleaned),
    ...crossingNotes(cleaned),
    ...timeNotes(cleaned),
    ...lineNotes(lines, used),
  ]
}

/** What is said of the ground that was brought. @param ground undefined where its bytes are none */
export function groundNotes(
  { fromGround }: Cleaned,
  { ground: chosen }: RouteChoice,
  ground: Ground | undefined,
): RouteNote[] {
  if (chosen === undefined) return []
  const { from, attribution } = chosen
  if (ground === undefined) return [{ code: 'groundLost', from }]
  return fromGround > 0 ? [{ code: 'ground', length: fromGround, from, attribution }] : []
}

function lineNotes(lines: readonly Line[], used: readonly number[]): RouteNote[] {
  const notes: RouteNote[] = []
  if (used.length > 1) {
    const first = lines[used[0]!]!
    const isReordered = used.some((line, k) => k > 0 && line < used[k - 1]!)
    notes.push({ code: 'joined', kind: first.isPart ? 'part' : first.kind, count: used.length, isReordered })
  }
  const fromExtensions = used.reduce((sum, line) => sum + lines[line]!.fromExtensions, 0)
  if (fromExtensions > 0) notes.push({ code: 'fromExtensions', count: fromExtensions })
  if (lines.length > used.length) notes.push({ code: 'linesLeft', count: lines.length - used.length })
  return notes
}

function farApartNotes({ distance }: Cleaned): RouteNote[] {
  let length = 0
  let longest = 0
  for (let i = 1; i < distance.length; i++) {
    const step = distance[i]! - distance[i - 1]!
    longest = Math.max(longest, step)
    if (step > FAR_APART) length += step
  }
  const ridden = distance[distance.length - 1]!
  return length > FAR_SHARE * ridden ? [{ code: 'farApart', length, ridden, longest }] : []
}

function timeNotes({ counts, timesApart }: Cleaned): RouteNote[] {
  const notes: RouteNote[] = []
  if (counts.impossibleTimes > 0) notes.push({ code: 'timesNotUsed', count: counts.impossibleTimes })
  if (timesApart !== undefined) notes.push({ code: 'timesApart', time: timesApart })
  return notes
}

function elevationNotes({ elevationKnown, heights, longestHole, counts }: Cleaned): RouteNote[] {
  if (elevationKnown === 'all') return []
  if (elevationKnown === 'none') {
    const energy = NOTED_MASS * GRAVITY * NOTED_CLIMB
    return [{ code: 'noElevation', climb: NOTED_CLIMB, mass: NOTED_MASS, energy }]
  }
  const unknown = counts.unknownElevations
  return [{ code: 'elevationMissing', unknown, points: heights.elevation.length, longest: longestHole }]
}

function crossingNotes({ travelled, gaps }: Cleaned): RouteNote[] {
  const together = (code: 'gaps' | 'riddenGaps', stretches: readonly Stretch[]): RouteNote[] => {
    const length = stretches.reduce((sum, { from, to }) => sum + to - from, 0)
    return stretches.length === 0 ? [] : [{ code, count: stretches.length, length }]
  }
  const isLeftOut = ({ from, to }: Stretch) => travelled.some((part) => part.from < to && part.to > from)
  return [
    ...together(
      'gaps',
      travelled.filter(({ marked }) => !marked),
    ),
    ...together(
      'riddenGaps',
      gaps.filter((gap) => !isLeftOut(gap)),
    ),
    ...travelled
      .filter(({ marked }) => marked)
      .map(({ from, to, place }) => ({ code: 'marked', length: to - from, place }) as const),
  ]
}
