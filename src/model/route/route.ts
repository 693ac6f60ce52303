import type { Lacking } from './ground'
import type { RouteNote } from './note'

/** One entry a station, all arrays of one length. Stations lie on an even grid within each ridden section. */
export interface Stations {
  /** Ridden distance from the start, m, on the WGS84 ellipsoid, horizontal; ascending, equal for the two stations at a crossing's ends. */
  distance: Float64Array
  /** Degrees. */
  latitude: Float64Array
  /** Degrees, continuous: may pass 180 where the route passes the antimeridian. */
  longitude: Float64Array
  /** Smoothed elevation, m. 0 everywhere where the file has none. */
  elevation: Float64Array
  /** Rise over run of the step from this station to the next, dimensionless; 0 at the last station of a section. */
  gradient: Float64Array
  /** Heading of the step from this station to the next, radians clockwise from north; the last of a section repeats its predecessor. */
  heading: Float64Array
  /** Curvature of the smoothed path over 15 m about the station, 1/m, not negative: the scale of a road's bends, not of the recording's jitter. */
  curvature: Float64Array
}

/** Cleaned points of the file, for drawing. */
export interface RoutePoints {
  latitude: Float64Array
  longitude: Float64Array
  /** Ridden distance, m, in the same measure as the stations. */
  distance: Float64Array
}

/** A ridden stretch without a gap: stations first..last, points firstPoint..lastPoint, all inclusive. */
export interface Section {
  first: number
  last: number
  firstPoint: number
  lastPoint: number
}

/** A gap of the track or a marked part that is travelled but not ridden, between section `after` and the next. */
export interface Gap {
  after: number
  /** Ridden distance at which it lies, m. */
  distance: number
  /** Geodesic length of a gap, length of a marked part along the track, m. */
  length: number
  /** Seconds between its two ends, where the file has both times. */
  recordedTime: number | undefined
  /** Points of a marked part between its ends, degrees; the way over a gap is not known. */
  way?: { latitude: Float64Array; longitude: Float64Array }
}

export interface Waypoint {
  name: string
  latitude: number
  longitude: number
  /** Ridden distance of the nearest place on the route, m; undefined if it is farther than 500 m from the route. */
  distance: number | undefined
}

/** What cleaning mended, each a count of points or places. */
export interface CleaningCounts {
  repeatedPoints: number
  zeroPoints: number
  outOfRangePoints: number
  jumps: number
  unknownElevations: number
  elevationSpikes: number
  impossibleTimes: number
  backwardTimes: number
}

export type ElevationKnown = 'all' | 'part' | 'none'

/** What a file says, cleaned once, never edited. */
export interface Route {
  name: string
  points: RoutePoints
  stations: Stations
  sections: Section[]
  crossings: Gap[]
  waypoints: Waypoint[]
  /** Ridden length, m. */
  length: number
  /** From the smoothed elevation, m. */
  ascent: number
  descent: number
  /**
   * Half the difference between the ascents that half and twice the smoothing wavelength give, m: what lies between those cannot be told for
   * certain from noise. What is longer or missing (drift of a barometer, holes) is not in it.
   */
  ascentSpread: number
  elevationKnown: ElevationKnown
  /** Pieces of `points` on which the file has no elevation. */
  lacking: Lacking[]
  /** On so much of them the elevation is that of the ground that the rider brought, m. */
  fromGround: number
  /** Seconds from the first to the last time in the file; undefined without times. */
  recordedTime: number | undefined
  counts: CleaningCounts
  /** Half-gain wavelength of the elevation smoother as used, m. */
  smoothingWavelength: number
  /** What the file lacks and what was assumed. */
  notes: RouteNote[]
}
