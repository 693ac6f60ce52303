import type { ProposedGap } from './clean'
import type { RouteFault } from './fault'
import type { ProposedPart } from './recognise'
import type { Route } from './route'
import type { Stretch, Travelled } from './travelled'

/**
 * What the rider chooses about a file: one of its lines or all that belong together, which gaps were ridden after all, and which parts
 * were not.
 */
export interface RouteChoice {
  line: 'joined' | number
  /** Numbers in RouteReading's gaps. */
  riddenGaps: number[]
  /** On the whole track of the line; none where absent, as in what was kept before parts could be marked. */
  marked?: Stretch[]
}

export const WHOLE_FILE: RouteChoice = { line: 'joined', riddenGaps: [] }

export interface LineSummary {
  /** Empty where the file has none. */
  name: string
  kind: 'track' | 'route' | 'line'
  points: number
  /** As in the file, without gaps between segments, m. */
  length: number
}

/** What a file gives. */
export interface ReadRoute {
  route: Route
  lines: LineSummary[]
  gaps: ProposedGap[]
  /** What is not ridden, in order; those between ridden stretches are the route's crossings. */
  travelled: Travelled[]
  /** What looks travelled in the recording, and is counted as ridden. */
  proposals: ProposedPart[]
  format: string
}

export type RouteReading = ({ ok: true } & ReadRoute) | { ok: false; fault: RouteFault }

/** What the reader is at, for who waits. */
export type Doing = 'opening' | 'reading' | 'cleaning' | 'smoothing'
