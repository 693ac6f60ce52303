import type { Part } from './parts'

/** A line of the file: a track, a route, a line of KML. */
export interface Line {
  name: string
  kind: 'track' | 'route' | 'line'
  parts: Part[]
  /** One part of a track whose parts, in their order, are no one way. */
  isPart?: true
  /** How many of its points lie in extensions of route points. */
  fromExtensions: number
}

/** What a file holds. */
export interface Lines {
  format: 'GPX' | 'KML'
  /** Of the whole file; empty where it has none. */
  name: string
  lines: Line[]
  waypoints: { name: string; latitude: number; longitude: number }[]
}
