import { interpolate } from '../columns'
import { ascentBetween } from './ascent'
import { nearestPlace, type Place } from './place'
import { distance, heading } from '../geo/scale'
import type { Cleaned } from './clean'
import type { Lines } from './lines'
import type { Route, Section, Stations } from './route'
import { type Grid, type Observations, penalties, smoothOver, smoothRobustly, weightsByLength } from './smooth'
import { elevationWavelengths, type Wavelengths } from './wavelength'

export interface BuildOptions {
  /** Distance between stations to aim at, m. */
  stationSpacing: number
}

const STATION_SPACING = 10
const MOST_STATIONS = 400_000
/** Half-gain wavelength of the path, m, by which jitter of the recording is kept from looking like bends. */
const PATH_WAVELENGTH = 60
/** Aimed-at step of the smoothed path, m. */
const PATH_SPACING = 2.5
/** Waypoints farther from the route than this, m, have no place on it. */
const BESIDE = 500
/** Metres in a degree of latitude where it is shortest, at the equator. */
const LEAST_DEGREE = 110_574

/**
 * Stations on an even grid over the cleaned points, with smoothed elevation, heading and curvature: the one way to make a Route.
 *
 * @param name of the route
 * @param cleaned points; at least one stretch of at least two points
 * @param waypoints as in the file
 * @param notes sentences for the rider
 * @param options spacing of the stations; 10 m where absent, and wider where there would be more than 400,000
 */
export function buildRoute(
  name: string,
  cleaned: Cleaned,
  waypoints: Lines['waypoints'],
  notes: string[],
  options: BuildOptions = { stationSpacing: STATION_SPACING },
): Route {
  const points = { latitude: cleaned.latitude, longitude: cleaned.longitude, distance: cleaned.distance }
  const length = cleaned.distance[cleaned.distance.length - 1]!
  const spacing = Math.max(options.stationSpacing, length / MOST_STATIONS)
  const wavelengths =
    cleaned.elevationKnown === 'none' ? undefined : elevationWavelengths(cleaned.distance, cleaned.elevation)

  const sections: Section[] = []
  let count = 0
  for (const { first, last } of cleaned.stretches) {
    const steps = Math.max(1, Math.round((cleaned.distance[last]! - cleaned.distance[first]!) / spacing))
    sections.push({ first: count, last: count + steps, firstPoint: first, lastPoint: last })
    count += steps + 1
  }
  const stations = emptyStations(count)
  for (const section of sections) fillSection(stations, section, cleaned, wavelengths)

  const route: Route = {
    name,
    points,
    stations,
    sections,
    crossings: cleaned.crossings,
    waypoints: [],
    length,
    ...ascentBetween(stations, 0, stations.distance.length - 1),
    elevationKnown: cleaned.elevationKnown,
    recordedTime: cleaned.recordedTime,
    counts: cleaned.counts,
    smoothingWavelength: wavelengths === undefined ? 0 : middleOf(wavelengths.wavelength),
    notes,
  }
  route.waypoints = waypoints.map((waypoint) => ({
    ...waypoint,
    distance: placeBeside(route, waypoint, 1.5 * spacing),
  }))
  return route
}

/**
 * Ridden distance of the nearest place, m, if it is near enough. Looks only around those of every 50th station that are near, so that a
 * file may have many waypoints.
 */
function placeBeside(
  route: Route,
  { latitude, longitude }: { latitude: number; longitude: number },
  longestStep: number,
): number | undefined {
  const { stations } = route
  const stride = 50
  const reach = stride * longestStep
  let near: Place = { distance: NaN, offset: BESIDE }
  for (let i = 0; i < stations.distance.length; i += stride) {
    if (Math.abs(stations.latitude[i]! - latitude) * LEAST_DEGREE > BESIDE + reach) continue
    if (distance(latitude, longitude, stations.latitude[i]!, stations.longitude[i]!) > BESIDE + reach) continue
    const place = nearestPlace(route, latitude, longitude, { around: stations.distance[i]!, reach })
    if (place.offset < near.offset) near = place
  }
  return Number.isNaN(near.distance) ? undefined : near.distance
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
  return column.slice().sort()[column.length >> 1]!
}

function fillSection(
  stations: Stations,
  section: Section,
  cleaned: Cleaned,
  wavelengths: Wavelengths | undefined,
): void {
  const { first, last, firstPoint, lastPoint } = section
  const start = cleaned.distance[firstPoint]!
  const steps = last - first
  const grid: Grid = { nodes: steps + 1, spacing: (cleaned.distance[lastPoint]! - start) / steps }
  const at = cleaned.distance.subarray(firstPoint, lastPoint + 1).map((d) => d - start)
  const weight = weightsByLength(at, grid.spacing)
  const observe = (column: Float64Array): Observations => ({
    at,
    value: column.subarray(firstPoint, lastPoint + 1),
    weight,
  })

  let point = firstPoint
  for (let k = 0; k <= steps; k++) {
    const place = k === steps ? cleaned.distance[lastPoint]! : start + k * grid.spacing
    while (point < lastPoint - 1 && cleaned.distance[point + 1]! < place) point++
    const from = cleaned.distance[point]!
    const step = cleaned.distance[point + 1]! - from
    const share = step > 0 ? (place - from) / step : 0
    stations.distance[first + k] = place
    stations.latitude[first + k] = cleaned.latitude[point]! * (1 - share) + cleaned.latitude[point + 1]! * share
    stations.longitude[first + k] = cleaned.longitude[point]! * (1 - share) + cleaned.longitude[point + 1]! * share
  }
  if (wavelengths !== undefined) {
    const wavelength = (place: number) => interpolate(wavelengths.at, wavelengths.wavelength, start + place)
    stations.elevation.set(smoothRobustly(observe(cleaned.elevation), grid, penalties(grid, wavelength)), first)
    for (let i = first; i < last; i++) {
      stations.gradient[i] = (stations.elevation[i + 1]! - stations.elevation[i]!) / grid.spacing
    }
  }
  const parts = pathParts(grid.spacing)
  const path: Grid = { nodes: steps * parts + 1, spacing: grid.spacing / parts }
  const lambda = penalties(path, PATH_WAVELENGTH)
  const pathWeight = weightsByLength(at, path.spacing)
  const smooth = (column: Float64Array) => smoothOver({ ...observe(column), weight: pathWeight }, path, lambda)
  bend(stations, section, path.spacing, parts, smooth(cleaned.latitude), smooth(cleaned.longitude))
}

/** Steps of the smoothed path within a step between stations: about 2.5 m each, so that no peak of a bend is missed; on the widened grid of a very long route one. */
function pathParts(stationSpacing: number): number {
  return stationSpacing > 1.5 * STATION_SPACING ? 1 : Math.max(1, Math.round(stationSpacing / PATH_SPACING))
}

/**
 * Heading and curvature from the smoothed path: heading from station to station; curvature the greatest within half a step of the station,
 * of turns from part to part over the ridden distance between their middles.
 */
function bend(
  stations: Stations,
  { first, last }: Section,
  spacing: number,
  parts: number,
  latitude: Float64Array,
  longitude: Float64Array,
): void {
  for (let i = first; i < last; i++) {
    const from = (i - first) * parts
    const to = from + parts
    stations.heading[i] = heading(latitude[from]!, longitude[from]!, latitude[to]!, longitude[to]!)
  }
  stations.heading[last] = stations.heading[last - 1]!

  let before = heading(latitude[0]!, longitude[0]!, latitude[1]!, longitude[1]!)
  for (let k = 1; k + 1 < latitude.length; k++) {
    const after = heading(latitude[k]!, longitude[k]!, latitude[k + 1]!, longitude[k + 1]!)
    const turn = Math.abs(after - before)
    before = after
    const curvature = Math.min(turn, 2 * Math.PI - turn) / spacing
    const nearest = first + Math.round(k / parts)
    const beside = k % parts === parts / 2 ? nearest - 1 : nearest
    if (curvature > stations.curvature[nearest]!) stations.curvature[nearest] = curvature
    if (curvature > stations.curvature[beside]!) stations.curvature[beside] = curvature
  }
}
