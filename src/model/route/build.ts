import { interpolate, placed } from '../columns'
import { ascentBetween } from './ascent'
import { distancesBeside } from './beside'
import type { Cleaned } from './clean'
import type { Lines } from './line'
import type { RouteNote } from './note'
import { curvatureAt, headingBetween, smoothPath, type Track } from './path'
import type { Route, Section, Stations } from './route'
import { HIGHEST, LOWEST } from './elevation'
import { type Grid, type Observations, penalties, smoothRobustly, sumsOf, weightsByLength } from './smooth'
import { keepWaves } from './waves'
import { elevationWavelengths, type Wavelengths } from './wavelength'

export interface BuildOptions {
  /** Distance between stations to aim at, m. */
  stationSpacing: number
}

const STATION_SPACING = 10
const MOST_STATIONS = 400_000
/** Aimed-at step of the smoothed path, m; half that of the stations on the widened grid of a very long route. */
const PATH_SPACING = 5
/**
 * Share of a step to either side of a station within which its sharpest curvature counts. At the stations alone some of a bend between them
 * is missed, within half a step it is widened; a third lets stations of 10, 5 and 2.5 m give the same riding time.
 */
const AROUND = 1 / 3

/**
 * Stations on an even grid over the cleaned points, with smoothed elevation, heading and curvature: the one way to make a Route.
 *
 * @param name of the route
 * @param cleaned points; at least one stretch of at least two points
 * @param waypoints as in the file
 * @param notes for the rider
 * @param options spacing of the stations; 10 m where absent, and wider where there would be more than 400,000
 */
export function buildRoute(
  name: string,
  cleaned: Cleaned,
  waypoints: Lines['waypoints'],
  notes: RouteNote[],
  options: BuildOptions = { stationSpacing: STATION_SPACING },
): Route {
  const points = { latitude: cleaned.latitude, longitude: cleaned.longitude, distance: cleaned.distance }
  const length = cleaned.distance[cleaned.distance.length - 1]!
  const spacing = Math.max(options.stationSpacing, length / MOST_STATIONS)
  const wavelengths = cleaned.elevationKnown === 'none' ? undefined : wavelengthsOf(cleaned)
  const pathSpacing = Math.max(PATH_SPACING, length / MOST_STATIONS / 2)

  const sections: Section[] = []
  let count = 0
  for (const { first, last } of cleaned.stretches) {
    const steps = Math.max(1, Math.round((cleaned.distance[last]! - cleaned.distance[first]!) / spacing))
    sections.push({ first: count, last: count + steps, firstPoint: first, lastPoint: last })
    count += steps + 1
  }
  const stations = emptyStations(count)
  let ascentSpread = 0
  sections.forEach((section, k) => {
    const points = pointsOf(section, cleaned)
    fillPlaces(stations, section, points)
    fillBends(stations, section, points, pathSpacing)
    if (wavelengths === undefined) return
    const { first, last } = cleaned.heights.stretches[k]!
    const heights = {
      at: cleaned.heights.distance.subarray(first, last + 1).map((place) => place - points.start),
      value: cleaned.heights.elevation.subarray(first, last + 1),
    }
    ascentSpread += fillElevation(stations, section, points, heights, wavelengths) / 2
  })

  const route: Route = {
    name,
    points,
    stations,
    sections,
    crossings: cleaned.crossings,
    waypoints: [],
    length,
    ...ascentBetween(stations, 0, stations.distance.length - 1),
    ascentSpread,
    elevationKnown: cleaned.elevationKnown,
    lacking: cleaned.lacking,
    fromGround: cleaned.fromGround,
    recordedTime: cleaned.recordedTime,
    counts: cleaned.counts,
    smoothingWavelength: wavelengths === undefined ? 0 : middleOf(wavelengths.wavelength),
    notes,
  }
  const beside = distancesBeside(route, waypoints, spacing)
  route.waypoints = waypoints.map((waypoint, i) => ({ ...waypoint, distance: beside[i] }))
  return route
}

function emptyStations(count: number): Stations {
  const column = () => new Float64Array(count)
  return {
    distance: column(),
    latitude: column(),
    longitude: column(),
    elevation: column(),
    gradient: column(),
    heading: column(),
    curvature: column(),
  }
}

function middleOf(column: Float64Array): number {
  return placed(column.slice(), column.length >> 1)!
}

/** Half-gain wavelengths for the elevation along the way, whatever it rises or falls where it is not ridden. */
function wavelengthsOf({ heights: { distance, elevation, stretches } }: Cleaned): Wavelengths {
  const level = elevation.slice()
  let step = 0
  stretches.forEach(({ first, last }, k) => {
    if (k > 0) step += elevation[first]! - elevation[stretches[k - 1]!.last]!
    for (let i = first; i <= last; i++) level[i]! -= step
  })
  return keepWaves(distance, level, elevationWavelengths(distance, level))
}

/** Points of a section, one entry a point. */
interface SectionPoints extends Track {
  /** Ridden distance of the first and the last, m. */
  start: number
  end: number
}

function pointsOf({ firstPoint, lastPoint }: Section, cleaned: Cleaned): SectionPoints {
  const column = (key: 'distance' | 'latitude' | 'longitude') => cleaned[key].subarray(firstPoint, lastPoint + 1)
  const start = cleaned.distance[firstPoint]!
  return {
    start,
    end: cleaned.distance[lastPoint]!,
    at: column('distance').map((place) => place - start),
    latitude: column('latitude'),
    longitude: column('longitude'),
  }
}

/** Distance and place of the stations of a section, on the straight lines between its points. */
function fillPlaces(stations: Stations, { first, last }: Section, points: SectionPoints): void {
  const { start, end, at, latitude, longitude } = points
  const spacing = (end - start) / (last - first)
  let point = 0
  for (let i = first; i <= last; i++) {
    const place = (i - first) * spacing
    while (point < at.length - 2 && at[point + 1]! < place) point++
    const step = at[point + 1]! - at[point]!
    const share = i === last ? 1 : step > 0 ? (place - at[point]!) / step : 0
    stations.distance[i] = i === last ? end : start + place
    stations.latitude[i] = latitude[point]! * (1 - share) + latitude[point + 1]! * share
    stations.longitude[i] = longitude[point]! * (1 - share) + longitude[point + 1]! * share
  }
}

/** Elevation and gradient of the stations of a section. Returns by how much its ascent is more with half than with twice the wavelengths, m. */
function fillElevation(
  stations: Stations,
  { first, last }: Section,
  { start, end }: SectionPoints,
  { at, value }: Pick<Observations, 'at' | 'value'>,
  wavelengths: Wavelengths,
): number {
  const grid: Grid = { nodes: last - first + 1, spacing: (end - start) / (last - first) }
  const observations: Observations = { at, value, weight: weightsByLength(at, grid.spacing) }
  const lambda = penalties(grid, (place) => interpolate(wavelengths.at, wavelengths.wavelength, start + place))
  // Where next to nothing is known over thousands of kilometres the smoothed line leaves the Earth's surface.
  const smoothed = smoothRobustly(observations, grid, lambda).map((h) => Math.min(Math.max(h, LOWEST), HIGHEST))
  stations.elevation.set(smoothed, first)
  for (let i = first; i < last; i++) {
    stations.gradient[i] = (stations.elevation[i + 1]! - stations.elevation[i]!) / grid.spacing
  }
  const sums = sumsOf(observations, grid)
  const ascentWith = (factor: number) => {
    // λ grows with the fourth power of the wavelength.
    const line = sums.solve(lambda.map((l) => l * factor ** 4))
    return ascentBetween({ distance: stations.distance.subarray(first, last + 1), elevation: line }, 0, last - first)
      .ascent
  }
  return ascentWith(0.5) - ascentWith(2)
}

/** Heading and curvature of the stations of a section. */
function fillBends(stations: Stations, { first, last }: Section, points: SectionPoints, pathSpacing: number): void {
  const path = smoothPath(points, pathSpacing)
  const spacing = points.at[points.at.length - 1]! / (last - first)
  for (let i = first; i <= last; i++) {
    const place = (i - first) * spacing
    stations.heading[i] = i < last ? headingBetween(path, place, place + spacing) : stations.heading[i - 1]!
    stations.curvature[i] = Math.max(
      curvatureAt(path, place - AROUND * spacing),
      curvatureAt(path, place),
      curvatureAt(path, place + AROUND * spacing),
    )
  }
}
