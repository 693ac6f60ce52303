import type { Line } from './line'

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
  /** On `length`, m, of the way elevation is the ground's that was brought; or its bytes are not there, or can't be read. */
  | { code: 'ground'; length: number; from: string; attribution: string }
  | { code: 'groundLost'; from: string }
  /** Straight lines of more than 1 km on the way: how much of it they are, and the longest. */
  | { code: 'farApart'; length: number; ridden: number; longest: number }
  /** Taken as crossings; and ridden in a straight line. */
  | { code: 'gaps' | 'riddenGaps'; count: number; length: number }
  | { code: 'marked'; length: number; place: 'start' | 'between' | 'end' }
  | { code: 'joined'; kind: Line['kind'] | 'part'; count: number; isReordered: boolean }
  | { code: 'linesLeft'; count: number }
  | { code: 'fromExtensions'; count: number }
  | { code: 'timesNotUsed'; count: number }
  | { code: 'timesApart'; time: number }
