import type { Cleaned } from './clean'
import type { Line } from './lines'

/** What the rider should know about a route before trusting its forecast: a code with values, SI. */
export type RouteNote =
  | {
      code: 'noElevation'
      /** Of climbing, m, and what it takes at the wheel, J, for so many kg: what the forecast leaves out. */
      climb: number
      mass: number
      energy: number
    }
  | { code: 'elevationMissing'; unknown: number; points: number; longest: number }
  | { code: 'gaps'; count: number; length: number }
  | { code: 'marked'; length: number; place: 'start' | 'between' | 'end' }
  | { code: 'joined'; kind: Line['kind']; count: number }
  | { code: 'linesLeft'; count: number }

/** Bike, rider and load in the note on missing elevation, kg. */
const NOTED_MASS = 130
const NOTED_CLIMB = 100
const GRAVITY = 9.81

/**
 * What is said about a route.
 *
 * @param cleaned its points
 * @param lines of the whole file
 * @param chosen those of them that are ridden
 */
export function notesOn(cleaned: Cleaned, lines: Line[], chosen: Line[]): RouteNote[] {
  return [
    ...elevationNotes(cleaned),
    ...crossingNotes(cleaned),
    ...(chosen.length > 1 ? [{ code: 'joined', kind: chosen[0]!.kind, count: chosen.length } as const] : []),
    ...(lines.length > chosen.length ? [{ code: 'linesLeft', count: lines.length - chosen.length } as const] : []),
  ]
}

function elevationNotes({ elevationKnown, elevation, longestHole, counts }: Cleaned): RouteNote[] {
  if (elevationKnown === 'all') return []
  if (elevationKnown === 'none') {
    const energy = NOTED_MASS * GRAVITY * NOTED_CLIMB
    return [{ code: 'noElevation', climb: NOTED_CLIMB, mass: NOTED_MASS, energy }]
  }
  const unknown = counts.unknownElevations
  return [{ code: 'elevationMissing', unknown, points: elevation.length, longest: longestHole }]
}

function crossingNotes({ travelled }: Cleaned): RouteNote[] {
  const gaps = travelled.filter(({ marked }) => !marked)
  const length = gaps.reduce((sum, { from, to }) => sum + to - from, 0)
  return [
    ...(gaps.length > 0 ? [{ code: 'gaps', count: gaps.length, length } as const] : []),
    ...travelled
      .filter(({ marked }) => marked)
      .map(({ from, to, place }) => ({ code: 'marked', length: to - from, place }) as const),
  ]
}
