import { SaxesParser } from 'saxes'
import { Refusal } from './decode'

/** Points of one segment of a track, of a route element, or of a line, as the file has them. */
export interface Part {
  /** Degrees; NaN where the file has no number. */
  latitude: Float64Array
  longitude: Float64Array
  /** m; NaN where the file has none. */
  elevation: Float64Array
  /** Seconds since 1970 began; NaN where the file has none. */
  time: Float64Array
}

const MOST_POINTS = 2_000_000
const CHUNK = 1 << 20

/**
 * A track point in the form that nearly all have: nothing but elevation and time. It is taken without the XML parser, which is three
 * times as slow, and only right behind a point that the parser has closed, so that it can't lie in a comment.
 */
const PLAIN_POINT =
  /\s*<trkpt\s+lat="([^"<&]*)"\s+lon="([^"<&]*)"\s*>\s*(?:<ele>([^<&]*)<\/ele>\s*)?(?:<time>([^<&]*)<\/time>\s*)?<\/trkpt>/y
const POINT_END = '</trkpt>'

/** Faults of an XML document that leave its structure certain: read over. */
const HARMLESS =
  /disallowed character\.|undefined entity|duplicate attribute|XML declaration must|before root|invalid attempt/

/** Elements that may be large and that say nothing about the way or its names. */
const LEFT_OUT = new Set(['extensions', 'ExtendedData', 'Style', 'StyleMap', 'description', 'desc', 'cmt', 'Polygon'])

/** Growing columns of one run of points. */
class Run {
  latitude: number[] = []
  longitude: number[] = []
  elevation: number[] = []
  time: number[] = []

  add(latitude: number, longitude: number, elevation: number, time: number): void {
    this.latitude.push(latitude)
    this.longitude.push(longitude)
    this.elevation.push(elevation)
    this.time.push(time)
  }

  part(): Part {
    return {
      latitude: Float64Array.from(this.latitude),
      longitude: Float64Array.from(this.longitude),
      elevation: Float64Array.from(this.elevation),
      time: Float64Array.from(this.time),
    }
  }
}

/**
 * One streaming pass over a document: the dense points go straight into columns; the rest is written out again, small, without prefixes, with two
 * stub points in place of each run of points. The stub's longitude is the number of the run.
 */
export class Pass {
  format: 'GPX' | 'KML' | undefined
  name = ''
  parts: Part[] = []

  private readonly parser = new SaxesParser({ position: true })
  private readonly out: string[] = []
  private readonly open: string[] = []
  /** Where each open element was opened: the parser's line, and how many stretches had been taken past it. */
  private readonly openedAt: { line: number; taken: number }[] = []
  private whole = ''
  /** Where a point was last closed, in the parser's count of what it was given. */
  private pointClosedAt = -1
  /** Stretches of the text that were taken past the parser. */
  private taken: [number, number][] = []
  private points = 0
  private run: Run | undefined
  /** Depth at which an element is left out with all that it holds; 0 for none. */
  private leftOut = 0
  /** Depth of the point that is open; 0 for none. */
  private inPoint = 0
  private latitude = NaN
  private longitude = NaN
  private elevation = NaN
  private time = NaN
  private times: number[] = []
  /** Text of the element that is open, if it is wanted. */
  private wanted = false
  private text = ''
  private rootClosed = false
  private justClosed = { name: '', line: 0, taken: 0 }
  private ending = false

  constructor() {
    this.parser.on('doctype', (doctype) => {
      if (/<!ENTITY/i.test(doctype)) {
        throw new Refusal(
          `The file defines entities of its own in its DOCTYPE at line ${this.line}, which a route has no need of; it is not read.`,
        )
      }
    })
    this.parser.on('opentag', (tag) => this.opened(tag.name, tag.attributes as Record<string, string>))
    this.parser.on('closetag', () => this.closed())
    this.parser.on('text', (text) => this.said(text))
    this.parser.on('cdata', (text) => this.said(text))
    this.parser.on('error', (error) => this.failed(error.message))
  }

  /** The document without its dense points. */
  get rest(): string {
    return this.out.join('')
  }

  read(text: string, progress: ((share: number) => void) | undefined): void {
    const start = /\S/.exec(text)
    if (start === null) throw new Refusal('The file is empty.')
    if (start[0] !== '<') {
      throw new Refusal('This is not a GPX or KML file: it does not begin with "<", as every XML document does.')
    }
    this.whole = text
    let end = 0
    let given = 0
    for (let at = 0; at < text.length;) {
      if (end >= 0 && end < at) end = text.indexOf(POINT_END, at)
      const chunk = Math.min(at + CHUNK, text.length)
      const stop = end < 0 ? chunk : Math.min(chunk, end + POINT_END.length)
      this.parser.write(text.slice(at, stop))
      given += stop - at
      const after = this.pointClosedAt === given ? this.takePlainPoints(stop) : stop
      if (Math.floor(after / CHUNK) > Math.floor(at / CHUNK)) progress?.(after / text.length)
      at = after
    }
    this.ending = true
    this.parser.close()
  }

  /** Takes a chunk of points in the plain form from a place right behind a point, and returns the place behind the last of them. */
  private takePlainPoints(from: number): number {
    const stretch: [number, number] = [from, from]
    PLAIN_POINT.lastIndex = from
    while (stretch[1] < from + CHUNK) {
      const match = PLAIN_POINT.exec(this.whole)
      if (match === null) break
      if (stretch[1] === from) this.taken.push(stretch)
      stretch[1] = PLAIN_POINT.lastIndex
      this.addPoint(toNumber(match[1]), toNumber(match[2]), toNumber(match[3]), toTime(match[4]))
    }
    return stretch[1]
  }

  /** The line of the file at which the parser stands: what it has seen and what was taken past it. */
  private get line(): number {
    return this.lineOf(this.parser.line, this.taken.length)
  }

  private lineOf(parserLine: number, taken: number): number {
    let lines = parserLine
    for (const [from, to] of this.taken.slice(0, taken)) {
      for (let at = this.whole.indexOf('\n', from); at >= 0 && at < to; at = this.whole.indexOf('\n', at + 1)) lines++
    }
    return lines
  }

  private failed(message: string): void {
    if (this.rootClosed || HARMLESS.test(message)) return
    const { line } = this
    const last = this.open[this.open.length - 1]
    if (this.ending) {
      throw new Refusal(
        last === undefined
          ? 'The file has no content: no root element is in it.'
          : `The file is cut off: it ends at line ${line} inside <${last}>, before <${this.open[0]}> is closed.`,
      )
    }
    if (/unexpected close tag/.test(message)) {
      const { name } = this.justClosed
      const opened = this.lineOf(this.justClosed.line, this.justClosed.taken)
      throw new Refusal(
        `The file is damaged at line ${line}: <${name}>, opened at line ${opened}, is closed by a tag of another name.`,
      )
    }
    const reason = message.replace(/^.*?\d+:\d+: /, '').replace(/\.$/, '')
    throw new Refusal(`The file is not well-formed XML at line ${line}: ${reason}.`)
  }

  private opened(tag: string, attributes: Record<string, string>): void {
    const colon = tag.indexOf(':')
    const name = colon < 0 ? tag : tag.slice(colon + 1)
    this.open.push(tag)
    this.openedAt.push({ line: this.parser.line, taken: this.taken.length })
    const depth = this.open.length
    if (depth === 1) this.root(name)
    if (this.leftOut > 0) return
    if (this.inPoint > 0) {
      this.wanted = depth === this.inPoint + 1 && (name === 'ele' || name === 'time')
      this.text = ''
      return
    }
    if (name === 'trkpt' || name === 'rtept') {
      this.run ??= new Run()
      this.inPoint = depth
      this.latitude = toNumber(attributes.lat)
      this.longitude = toNumber(attributes.lon)
      this.elevation = NaN
      this.time = NaN
      return
    }
    if (LEFT_OUT.has(name)) {
      this.leftOut = depth
      return
    }
    if (name === 'Track' && this.format === 'KML') this.run = new Run()
    this.text = ''
    this.wanted = true
    if (this.format === 'KML' && isDense(name, local(this.open[depth - 2]))) return
    const { lat, lon } = attributes
    this.out.push(lat === undefined ? `<${name}>` : `<${name} lat="${toNumber(lat)}" lon="${toNumber(lon)}">`)
  }

  private root(name: string): void {
    if (name === 'gpx') this.format = 'GPX'
    else if (name === 'kml') this.format = 'KML'
    else
      throw new Refusal(
        `This is not a GPX or KML file: its root element is <${name.slice(0, 40)}>, not <gpx> or <kml>.`,
      )
  }

  private said(text: string): void {
    if (this.wanted && this.leftOut === 0) this.text += text
  }

  private closed(): void {
    const depth = this.open.length
    const tag = this.open.pop()!
    const name = local(tag)
    this.justClosed = { name: tag, ...this.openedAt.pop()! }
    if (depth === 1) this.rootClosed = true
    if (this.leftOut > 0) {
      if (depth === this.leftOut) this.leftOut = 0
      return
    }
    if (this.inPoint > 0) {
      this.closedInPoint(name, depth)
      return
    }
    if (this.format === 'KML' && this.closedDense(name)) {
      this.wanted = false
      return
    }
    if (name === 'name' && this.wanted && ['metadata', 'gpx', 'Document'].includes(local(this.open[depth - 2]))) {
      this.name ||= this.text
    }
    if (this.wanted) this.out.push(escape(this.text))
    this.wanted = false
    if (name === 'trkseg' || name === 'rte') this.finish(name === 'rte' ? 'rtept' : 'trkpt')
    if (name === 'trk' && this.run !== undefined) {
      // Points right inside a track, with no segment around them.
      this.out.push('<trkseg>')
      this.finish('trkpt')
      this.out.push('</trkseg>')
    }
    this.out.push(`</${name}>`)
  }

  private closedInPoint(name: string, depth: number): void {
    if (depth === this.inPoint) {
      this.inPoint = 0
      this.pointClosedAt = this.parser.position
      this.addPoint(this.latitude, this.longitude, this.elevation, this.time)
    } else if (this.wanted) {
      if (name === 'ele') this.elevation = toNumber(this.text)
      else this.time = toTime(this.text)
    }
    this.wanted = false
  }

  /** Takes the text of a dense element into columns; false where the element belongs in the small document. */
  private closedDense(name: string): boolean {
    const parent = local(this.open[this.open.length - 1])
    if (name === 'Track') {
      const { time } = this.run!
      for (let i = 0; i < Math.min(this.times.length, time.length); i++) time[i] = this.times[i]!
      this.times = []
      this.finish('coord')
    }
    if (!isDense(name, parent)) return false
    if (name === 'when') this.times.push(toTime(this.text))
    else if (name === 'coord') this.addTriple(this.text.trim().split(/\s+/))
    else {
      this.run = new Run()
      for (const triple of this.text.trim().split(/\s+/)) this.addTriple(triple.split(','))
      this.finish('coordinates')
    }
    return true
  }

  private addTriple([longitude, latitude, elevation]: string[]): void {
    if (latitude !== undefined) this.addPoint(toNumber(latitude), toNumber(longitude), toNumber(elevation), NaN)
  }

  private addPoint(latitude: number, longitude: number, elevation: number, time: number): void {
    if (++this.points > MOST_POINTS) {
      throw new Refusal(
        `The file has more than ${MOST_POINTS.toLocaleString('en')} points (line ${this.line}), which is the most that is read.`,
      )
    }
    ;(this.run ??= new Run()).add(latitude, longitude, elevation, time)
  }

  private finish(stub: 'trkpt' | 'rtept' | 'coordinates' | 'coord'): void {
    const number = this.parts.length
    this.parts.push((this.run ?? new Run()).part())
    this.run = undefined
    if (stub === 'coordinates') this.out.push(`<coordinates>${number},0 ${number},1</coordinates>`)
    else if (stub === 'coord') this.out.push(`<coord>${number} 0</coord><coord>${number} 1</coord>`)
    else this.out.push(`<${stub} lat="0" lon="${number}"/><${stub} lat="1" lon="${number}"/>`)
  }
}

/** Elements of KML whose text is the points of a line. */
function isDense(name: string, parent: string): boolean {
  if (name === 'coordinates') return parent === 'LineString' || parent === 'LinearRing'
  return (name === 'coord' || name === 'when') && parent === 'Track'
}

function local(name: string | undefined): string {
  return name === undefined ? '' : name.slice(name.indexOf(':') + 1)
}

function escape(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;')
}

/** Strict: "12m" and an empty text are no number. */
function toNumber(text: string | undefined): number {
  const number = Number(text)
  if (number === 0 && text!.trim() === '') return NaN
  return Number.isFinite(number) ? number : NaN
}

/** xsd:dateTime; without a zone it is UTC, as GPX says, whatever zone the machine is in. */
function toTime(text: string | undefined): number {
  if (text === undefined) return NaN
  if (text.endsWith('Z')) return Date.parse(text) / 1000
  const iso = text.trim()
  return Date.parse(/T.*(Z|[+-]\d\d:?\d\d)$/i.test(iso) || !iso.includes('T') ? iso : `${iso}Z`) / 1000
}
