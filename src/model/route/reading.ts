import type { ProposedGap } from './clean'
import type { Route } from './route'

/** What the rider chooses about a file: one of its lines or all that belong together, and which gaps were ridden after all. */
export interface RouteChoice {
  line: 'joined' | number
  /** Numbers in RouteReading's gaps. */
  riddenGaps: number[]
}

export const WHOLE_FILE: RouteChoice = { line: 'joined', riddenGaps: [] }

export interface LineSummary {
  name: string
  kind: 'track' | 'route' | 'line'
  points: number
  /** As in the file, without gaps between segments, m. */
  length: number
}

export type RouteReading =
  | { ok: true; route: Route; lines: LineSummary[]; gaps: ProposedGap[]; format: string }
  | { ok: false; sentence: string }
