import type { Feature, Geometry } from 'geojson'
import { Refusal } from './fault'
import type { Listener } from './lexer'
import type { Lines } from './line'
import { toNumber, toTime } from './figures'
import { type Part, Parts } from './parts'

/** Elements that have a name of their own. */
const NAMED = new Set(['Document', 'Folder', 'Placemark'])
/** Elements that hold geometries, and how they nest; no other says anything about the way. */
const HOLDERS = new Set(['Placemark', 'MultiGeometry', 'MultiTrack'])
/** A line, or a point where the geometry has but one; the last is a line with times. */
const GEOMETRIES = new Set(['LineString', 'LinearRing', 'Point', 'Track'])
const TEXTS = new Set(['name', 'coordinates', 'coord', 'when'])
const LEFT_OUT = new Set(['ExtendedData', 'Style', 'StyleMap', 'description', 'Polygon'])
/** Holders within holders beyond this depth are read as if they were not there. */
const DEEPEST = 50

/**
 * Lines and places of a KML document, 2.2 or 2.3. The dense points go straight into columns. The rest is written out again, small, without
 * prefixes, with two stub points in place of each run of points, for togeojson, which knows names and how geometries nest; the stub's
 * longitude is the number of the run.
 */
export class KmlDocument implements Listener {
  private name = ''
  private readonly out: string[] = []
  private readonly runs: Part[] = []
  private readonly parts = new Parts()
  private times: number[] = []
  /** The open elements that count. */
  private readonly open: { name: string; depth: number; isWritten: boolean }[] = []
  /** How many of them are written out. */
  private written = 0
  /** Depth at which an element is left out with all that it holds; 0 for none. */
  private leftOut = 0
  private text = ''

  opened(name: string, _: Record<string, string>, depth: number): void {
    if (this.leftOut > 0) return
    if (LEFT_OUT.has(name)) {
      this.leftOut = depth
      return
    }
    const isHolder = HOLDERS.has(name) && this.written < DEEPEST
    if (!isHolder && !NAMED.has(name) && !GEOMETRIES.has(name) && !TEXTS.has(name)) return
    this.open.push({ name, depth, isWritten: isHolder })
    this.text = ''
    if (!isHolder) return
    this.written++
    this.out.push(`<${name}>`)
  }

  said(text: string): void {
    if (this.leftOut === 0) this.text += text
  }

  closed(name: string, depth: number): void {
    if (depth === this.leftOut) this.leftOut = 0
    else if (this.leftOut === 0 && this.last?.depth === depth) {
      if (this.open.pop()!.isWritten) {
        this.written--
        this.out.push(`</${name}>`)
      } else if (GEOMETRIES.has(name)) this.closedGeometry(name)
      else if (TEXTS.has(name)) this.closedText(name, this.last?.name ?? '')
    }
  }

  private get last(): KmlDocument['open'][number] | undefined {
    return this.open[this.open.length - 1]
  }

  private closedText(name: string, parent: string): void {
    const { text } = this
    if (name === 'name') {
      if (parent === 'Document') this.name ||= text
      if (parent === 'Placemark') this.out.push(`<name>${escape(text)}</name>`)
    } else if (!GEOMETRIES.has(parent)) return
    else if (name === 'when') this.times.push(toTime(text))
    else if (name === 'coord') this.addTriple(text.trim().split(/\s+/))
    else for (const triple of text.trim().split(/\s+/)) this.addTriple(triple.split(','))
  }

  private addTriple([longitude, latitude, elevation]: string[]): void {
    if (latitude !== undefined) this.parts.add(toNumber(latitude), toNumber(longitude), toNumber(elevation), NaN)
  }

  private closedGeometry(name: string): void {
    this.parts.setTimes(this.times)
    this.times = []
    const part = this.parts.take()
    if (part === undefined) return
    if (name === 'Point') {
      const [latitude, longitude] = [part.latitude[0]!, part.longitude[0]!]
      this.out.push(`<Point><coordinates>${longitude},${latitude}</coordinates></Point>`)
    } else {
      const run = this.runs.push(part) - 1
      this.out.push(`<LineString><coordinates>${run},0 ${run},1</coordinates></LineString>`)
    }
  }

  /** In the order of the file. Loads what knows KML's ways of nesting only here. */
  async read(): Promise<Lines> {
    const { featuresOf } = await import('./kml-features').catch(() => {
      throw new Refusal({ code: 'programMissing' })
    })
    const lines: Lines['lines'] = []
    const waypoints: Lines['waypoints'] = []
    for (const { geometry, properties } of featuresOf(`<kml>${this.out.join('')}</kml>`)) {
      const name = typeof properties?.name === 'string' ? properties.name : ''
      const parts = runsOf(geometry).map((run) => this.runs[run]!)
      lines.push({ name, kind: 'line', parts, fromExtensions: 0 })
      for (const [longitude, latitude] of placesOf(geometry)) waypoints.push({ name, latitude, longitude })
    }
    return { format: 'KML', name: this.name, lines, waypoints }
  }
}

function runsOf(geometry: Feature['geometry'] | null): number[] {
  if (geometry?.type === 'LineString') return [geometry.coordinates[0]![0]!]
  return geometry?.type === 'GeometryCollection' ? geometry.geometries.flatMap(runsOf) : []
}

function placesOf(geometry: Geometry | null): [number, number][] {
  if (geometry?.type === 'Point') return [[geometry.coordinates[0]!, geometry.coordinates[1]!]]
  return geometry?.type === 'GeometryCollection' ? geometry.geometries.flatMap(placesOf) : []
}

function escape(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;')
}
