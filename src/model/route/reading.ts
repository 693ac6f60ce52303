import type { Arrangement } from './arrange'
import type { ProposedGap } from './clean'
import type { RouteFault } from './fault'
import type { ProposedPart } from './recognise'
import type { Route } from './route'
import type { LineSummary } from './survey'
import type { Stretch, Travelled } from './travelled'

/**
 * What the rider chooses about a file: one of its lines or all that belong together, which gaps were ridden after all, and which parts
 * were not.
 */
export interface RouteChoice {
  /**
   * As proposed; all tracks, or where there are none all lines, in the order of the file; one line; or several in an order.
   */
  line: 'proposed' | 'joined' | number | readonly number[]
  /** Numbers in RouteReading's gaps. */
  riddenGaps: number[]
  /** On the whole track of the line; none where absent, as in what was kept before parts could be marked. */
  marked?: Stretch[]
  /** Where the elevation comes from where the file has none; from nowhere where absent. */
  ground?: GroundChoice
}

/** Heights of the land that a rider brought, whose bytes belong to the day. */
export interface GroundChoice {
  /** Of the bytes. */
  key: string
  /** Name of the file, or of the server, as plain text. */
  from: string
  /** As plain text; may be empty. */
  attribution: string
}

export const WHOLE_FILE: RouteChoice = { line: 'proposed', riddenGaps: [] }

/** What a file gives. */
export interface ReadRoute {
  route: Route
  lines: LineSummary[]
  /** Numbers of the lines that are ridden, in order. */
  used: readonly number[]
  arrangement: Arrangement
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
