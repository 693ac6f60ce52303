import { gpx, kml } from '@tmcw/togeojson'
import type { Feature, Geometry } from 'geojson'
import { DOMParser } from 'linkedom/worker'
import { Refusal } from './decode'
import { type Part, Pass } from './pass'

export interface Line {
  name: string
  kind: 'track' | 'route' | 'line'
  parts: Part[]
}

export interface Lines {
  format: 'GPX' | 'KML'
  /** Of the whole file; empty where it has none. */
  name: string
  lines: Line[]
  waypoints: { name: string; latitude: number; longitude: number }[]
}

/**
 * Lines and waypoints of a GPX 1.0 or 1.1 (Topografix) or KML 2.2 or 2.3 (OGC 12-007r2) document, with or without namespaces.
 *
 * One streaming pass takes the dense points straight into columns. The rest of the document, with two stub points in place of each run of
 * points, goes to togeojson, which knows names, waypoints and how geometries nest; the stub's longitude is the number of the run.
 *
 * @param text the document
 * @param progress called with the share done, 0 to 1
 * @returns lines in the order of the file: tracks, then routes
 * @throws Refusal if it is not a well-formed document of these formats, has entities of its own, or has too many points
 */
export function readLines(text: string, progress?: (share: number) => void): Lines {
  const pass = new Pass()
  pass.read(text, progress)
  const { format, parts } = pass
  if (format === undefined) throw new Refusal('The file is empty.')
  const small = new DOMParser().parseFromString(pass.rest, 'text/xml') as unknown as Document
  const features = (format === 'GPX' ? gpx(small) : kml(small)).features

  const lines: Line[] = []
  const waypoints: Lines['waypoints'] = []
  for (const feature of features) {
    const name = oneLine(feature.properties?.name)
    const runs = runsOf(feature.geometry)
    if (runs.length > 0) {
      lines.push({
        name,
        kind: kindOf(feature),
        parts: runs.map((run) => parts[run]!).filter((p) => p.latitude.length > 0),
      })
    }
    for (const [longitude, latitude] of placesOf(feature.geometry)) {
      if (Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180) waypoints.push({ name, latitude, longitude })
    }
  }
  return { format, name: oneLine(pass.name), lines: lines.filter((line) => line.parts.length > 0), waypoints }
}

function kindOf(feature: Feature<Geometry | null>): Line['kind'] {
  const type: unknown = feature.properties?._gpxType
  return type === 'trk' ? 'track' : type === 'rte' ? 'route' : 'line'
}

function runsOf(geometry: Geometry | null): number[] {
  if (geometry?.type === 'LineString') return [geometry.coordinates[0]![0]!]
  if (geometry?.type === 'MultiLineString') return geometry.coordinates.map((stub) => stub[0]![0]!)
  if (geometry?.type === 'GeometryCollection') return geometry.geometries.flatMap(runsOf)
  return []
}

function placesOf(geometry: Geometry | null): [number, number][] {
  if (geometry?.type === 'Point') return [[geometry.coordinates[0]!, geometry.coordinates[1]!]]
  if (geometry?.type === 'GeometryCollection') return geometry.geometries.flatMap(placesOf)
  return []
}

function oneLine(name: unknown): string {
  return typeof name === 'string' ? name.replace(/\s+/g, ' ').trim().slice(0, 200) : ''
}
