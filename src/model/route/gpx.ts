import type { Listener } from './lexer'
import type { Line, Lines } from './line'
import { toNumber, toTime } from './figures'
import { Parts, type Sensor } from './parts'

/**
 * A track point in the form that nearly all have: nothing but elevation and time. It is taken without the XML parser, which is three
 * times as slow, and only right behind a point that the parser has closed.
 */
const PLAIN_POINT =
  /\s*<trkpt\s+lat="([^"<&]*)"\s+lon="([^"<&]*)"\s*>\s*(?:<ele>([^<&]*)<\/ele>\s*)?(?:<time>([^<&]*)<\/time>\s*)?<\/trkpt>/y
const POINT_END = '</trkpt>'
/** Plain points are taken in chunks of so many characters, so that progress can be told. */
const CHUNK = 1 << 20

/** Elements that may be large and that say nothing about the way or its names. */
const LEFT_OUT = new Set(['extensions', 'desc', 'cmt'])

/** Local names, in lower case, of the elements in which files of several makers give what sensors measured. */
const SENSORS: ReadonlyMap<string, Sensor> = new Map<string, Sensor>([
  ['power', 'power'],
  ['powerinwatts', 'power'],
  ['watts', 'power'],
  ['hr', 'heartRate'],
  ['heartrate', 'heartRate'],
  ['cad', 'cadence'],
  ['cadence', 'cadence'],
])

/** A point that is open, or that lies in an extension of one. */
interface OpenPoint {
  depth: number
  latitude: number
  longitude: number
  elevation: number
  time: number
  sensed?: [Sensor, number][]
}

/**
 * Tracks, routes and waypoints of a GPX document, 1.0 or 1.1. Where extensions of a route point hold further points, elements of any name
 * with latitude and longitude, the way goes on through them in their order.
 */
export class GpxDocument implements Listener {
  readonly ownEnd = POINT_END

  private name = ''
  private readonly lines: Line[] = []
  private readonly waypoints: Lines['waypoints'] = []
  private readonly parts = new Parts()
  private line: Line | undefined
  private waypoint: Lines['waypoints'][number] | undefined
  /** Names of the open elements. */
  private readonly open: string[] = []
  /** Depth at which an element is left out with all that it holds; 0 for none. */
  private leftOut = 0
  /** Depth of the element whose text is wanted; 0 for none. */
  private wanted = 0
  private text = ''
  /** The open point, and within a route point those of its extensions that are open, outermost first. */
  private readonly points: OpenPoint[] = []
  /** All points of the open route point's extensions so far, in their order. */
  private further: OpenPoint[] = []
  private isBehindPoint = false

  /** @param sensors whether what sensors measured at the points is gathered */
  constructor(private readonly sensors = false) {}

  opened(name: string, attributes: Record<string, string>, depth: number): void {
    this.open.push(name)
    this.isBehindPoint = false
    if (this.leftOut > 0 || this.wanted > 0) return
    const point = this.points[this.points.length - 1]
    if (point !== undefined) this.openedInPoint(name, attributes, depth, point)
    else if (name === 'trkpt' || name === 'rtept') this.openPoint(attributes, depth)
    else if (LEFT_OUT.has(name)) this.leftOut = depth
    else if (name === 'name') this.want(depth)
    else if (name === 'trkseg') this.endPart()
    else if (name === 'wpt')
      this.waypoint = { name: '', latitude: toNumber(attributes.lat), longitude: toNumber(attributes.lon) }
    else if (name === 'trk' || name === 'rte') this.begin(name === 'trk' ? 'track' : 'route')
  }

  said(text: string): void {
    if (this.wanted > 0) this.text += text
  }

  closed(name: string, depth: number): void {
    this.open.pop()
    this.isBehindPoint = false
    if (depth === this.wanted) {
      this.wanted = 0
      this.take(name)
    } else if (depth === this.leftOut) this.leftOut = 0
    else if (this.leftOut > 0 || this.wanted > 0) return
    else if (this.points.length > 0) this.closedInPoint(depth)
    else if (name === 'trkseg') this.endPart()
    else if (name === 'trk' || name === 'rte') {
      this.endPart()
      this.line = undefined
    } else if (name === 'wpt' && this.waypoint !== undefined) {
      this.waypoints.push(this.waypoint)
      this.waypoint = undefined
    }
  }

  /** Tracks first, then routes. */
  read(): Promise<Lines> {
    this.endPart()
    const { name, lines, waypoints } = this
    const tracks = lines.filter(({ kind }) => kind === 'track')
    const routes = lines.filter(({ kind }) => kind === 'route')
    return Promise.resolve({ format: 'GPX', name, lines: [...tracks, ...routes], waypoints })
  }

  private want(depth: number): void {
    this.wanted = depth
    this.text = ''
  }

  private take(name: string): void {
    const point = this.points[this.points.length - 1]
    const parent = this.open[this.open.length - 1]
    if (point !== undefined) {
      if (name === 'ele') point.elevation = toNumber(this.text)
      else if (name === 'time') point.time = toTime(this.text)
      else (point.sensed ??= []).push([SENSORS.get(name.toLowerCase())!, toNumber(this.text)])
    } else if (parent === 'wpt' && this.waypoint !== undefined) this.waypoint.name ||= this.text
    else if ((parent === 'trk' || parent === 'rte') && this.line !== undefined) this.line.name ||= this.text
    else if (parent === 'metadata' || parent === 'gpx') this.name ||= this.text
  }

  private openPoint({ lat, lon }: Record<string, string>, depth: number): OpenPoint {
    const point = { depth, latitude: toNumber(lat), longitude: toNumber(lon), elevation: NaN, time: NaN }
    this.points.push(point)
    return point
  }

  private openedInPoint(name: string, attributes: Record<string, string>, depth: number, point: OpenPoint): void {
    const isRoute = this.open[this.points[0]!.depth - 1] === 'rtept'
    if (depth === point.depth + 1 && (name === 'ele' || name === 'time')) this.want(depth)
    else if (this.sensors && SENSORS.has(name.toLowerCase())) this.want(depth)
    else if (isRoute && attributes.lat !== undefined && attributes.lon !== undefined)
      this.further.push(this.openPoint(attributes, depth))
  }

  private closedInPoint(depth: number): void {
    const point = this.points[this.points.length - 1]!
    if (depth !== point.depth) return
    this.points.pop()
    if (this.points.length > 0) return
    this.line ??= this.begin('track')
    this.line.fromExtensions += this.further.length
    for (const { latitude, longitude, elevation, time, sensed } of [point, ...this.further]) {
      this.parts.add(latitude, longitude, elevation, time)
      if (sensed !== undefined) for (const [sensor, value] of sensed) this.parts.sense(sensor, value)
    }
    this.further = []
    this.isBehindPoint = true
  }

  private begin(kind: Line['kind']): Line {
    this.endPart()
    this.line = { name: '', kind, parts: [], fromExtensions: 0 }
    this.lines.push(this.line)
    return this.line
  }

  /** Points right inside a track, with no segment around them, are a part of their own. */
  private endPart(): void {
    const part = this.parts.take()
    if (part !== undefined) this.line!.parts.push(part)
  }

  readOn(text: string, from: number): number {
    if (!this.isBehindPoint) return from
    let at = from
    PLAIN_POINT.lastIndex = from
    while (at < from + CHUNK) {
      const match = PLAIN_POINT.exec(text)
      if (match === null) break
      at = PLAIN_POINT.lastIndex
      this.parts.add(toNumber(match[1]), toNumber(match[2]), toNumber(match[3]), toTime(match[4]))
    }
    return at
  }
}
