import type { RouteFault } from '../route/fault'
import type { Sensors } from '../route/parts'
import type { Route } from '../route/route'

/** A halt of a recording: ridden distance, m; Unix time of arriving, and how long, s. */
export interface RecordedHalt {
  distance: number
  arrive: number
  time: number
}

/** What was travelled, not ridden: where it lies on the ridden way and how long it is, m; from leaving that way to riding on, s, NaN where unknown. */
export interface RecordedCrossing {
  distance: number
  length: number
  time: number
}

/** What is wrong with the times of a recording: codes with how much of it, m and s. */
export type RecordingFault =
  /** Moved, but nothing was recorded; so far and so long. */
  | { code: 'dropOuts'; count: number; length: number; time: number }
  /** The clock ran backwards, or told what can't be. */
  | { code: 'clockErrors'; count: number }
  /** Points without a time, of so many. */
  | { code: 'pointsWithoutTime'; count: number; points: number }
  /** Speed follows from the slope alone and no one halts: times that a planner made. */
  | { code: 'madeUpTimes' }

/** A stretch of the ridden way, m. */
export interface Span {
  from: number
  to: number
}

/** A ride that was ridden: its own way, and when. */
export interface Recording {
  /** Made of the recording itself, without what was travelled. */
  route: Route
  /** Unix time at each of the route's points, s; NaN where unknown. */
  time: Float64Array
  /** Riding time since the start at each of them, s: without halts and crossings; drawn straight where unknown. */
  riding: Float64Array
  /** Unix time of the first and the last point that have one, s. */
  start: number
  finish: number
  /** Of 30 s or more, in order. */
  halts: RecordedHalt[]
  crossings: RecordedCrossing[]
  /** Where times are unknown or not to be trusted, in order. */
  untrusted: Span[]
  faults: RecordingFault[]
  /** What sensors measured, by Unix time, s, ascending. */
  sensors: SensorSamples | undefined
}

/** One entry a sample. */
export interface SensorSamples extends Sensors {
  time: Float64Array
}

export type RecordingReading =
  { ok: true; recording: Recording } | { ok: false; fault: RouteFault | { code: 'noTimes' } }
