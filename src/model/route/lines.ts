import { Refusal } from './fault'
import { GpxDocument } from './gpx'
import { KmlDocument } from './kml'
import { lex } from './lexer'
import type { Lines } from './line'

/**
 * Lines and waypoints of a GPX 1.0 or 1.1 (Topografix) or KML 2.2 or 2.3 (OGC 12-007r2) document, with or without namespaces.
 *
 * @param text the document
 * @param progress called with the share done, 0 to 1
 * @param sensors whether what sensors measured is gathered too, which takes longer
 * @returns lines that have points, tracks before routes; waypoints with possible coordinates
 * @throws Refusal if it is not a well-formed document of these formats, has entities of its own, or has too many points
 */
export async function readLines(text: string, progress: (share: number) => void, sensors = false): Promise<Lines> {
  const start = /\S/.exec(text)
  if (start === null) throw new Refusal({ code: 'empty' })
  if (start[0] !== '<') throw new Refusal({ code: 'notXml' })
  const { format, name, lines, waypoints } = await lex<GpxDocument | KmlDocument>(
    text,
    (root) => documentFor(root, sensors),
    progress,
  ).read()
  return {
    format,
    name: oneLine(name),
    lines: lines.filter(({ parts }) => parts.length > 0).map((line) => ({ ...line, name: oneLine(line.name) })),
    waypoints: waypoints
      .filter(({ latitude, longitude }) => Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180)
      .map((place) => ({ ...place, name: oneLine(withoutMarkup(place.name)) })),
  }
}

function documentFor(root: string, sensors: boolean): GpxDocument | KmlDocument {
  if (root === 'gpx') return new GpxDocument(sensors)
  if (root === 'kml') return new KmlDocument()
  throw new Refusal({ code: 'otherRoot', root: root.slice(0, 40) })
}

/** Some files have tags and character references in the names of their places, meant for a page that shows them. */
const withoutMarkup = (name: string): string =>
  name
    .replace(/<\/?[a-z][^<>]*>/gi, ' ')
    .replace(/&(amp|lt|gt|quot|apos|nbsp|#39);/g, (_, reference: string) => references[reference]!)

const references: Record<string, string> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
  '#39': "'",
  nbsp: ' ',
}

function oneLine(name: string): string {
  return name.replace(/\s+/g, ' ').trim().slice(0, 200)
}
