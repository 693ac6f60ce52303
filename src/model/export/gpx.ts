import { interpolate } from '../columns'
import { positionAt } from '../route/place'
import type { Route } from '../route/route'

/** A place to mark beside the track. */
export interface GpxPlace {
  name: string
  /** Ridden distance, m. */
  distance: number
  /** One line, such as times and charge; empty for none. */
  description: string
  /** What it is, such as 'stop'; empty for none. */
  kind: string
}

/**
 * The route as GPX 1.1: places as waypoints, each ridden section as a segment of one track, so that nothing runs across a crossing.
 * Elevations are the smoothed ones; left out where the file had none.
 *
 * @param places in the order in which they are to be listed
 * @returns UTF-8 text that is valid by the GPX 1.1 schema; longitudes from -180 up to but not including 180
 * @see GPX 1.1 schema, http://www.topografix.com/GPX/1/1/gpx.xsd
 */
export function routeGpx(route: Route, places: readonly GpxPlace[]): string {
  const { points, stations, sections } = route
  const heights = route.elevationKnown !== 'none'
  const point = (element: string, latitude: number, longitude: number, distance: number, rest: string) => {
    const height = heights
      ? `<ele>${interpolate(stations.distance, stations.elevation, distance).toFixed(1)}</ele>`
      : ''
    const at = `lat="${latitude.toFixed(6)}" lon="${wrapped(longitude)}"`
    return height === '' && rest === '' ? `<${element} ${at}/>` : `<${element} ${at}>${height}${rest}</${element}>`
  }
  const waypoints = places.map(({ name, distance, description, kind }) => {
    const { latitude, longitude } = positionAt(route, distance)
    const rest = element('name', name) + element('desc', description) + element('type', kind)
    return `  ${point('wpt', latitude, longitude, distance, rest)}`
  })
  const segments = sections.flatMap(({ firstPoint, lastPoint }) => {
    const lines = ['    <trkseg>']
    for (let i = firstPoint; i <= lastPoint; i++)
      lines.push(`      ${point('trkpt', points.latitude[i]!, points.longitude[i]!, points.distance[i]!, '')}`)
    return [...lines, '    </trkseg>']
  })
  return (
    [
      '<?xml version="1.0" encoding="UTF-8"?>',
      '<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="Wattfare">',
      `  <metadata>${element('name', route.name)}</metadata>`,
      ...waypoints,
      '  <trk>',
      `    ${element('name', route.name)}`,
      ...segments,
      '  </trk>',
      '</gpx>',
    ]
      .filter((line) => line.trim() !== '')
      .join('\n') + '\n'
  )
}

const element = (name: string, text: string) => (text === '' ? '' : `<${name}>${escaped(text)}</${name}>`)

/** Rounded first, so that no 179.9999999 is written as 180. */
function wrapped(longitude: number): string {
  const millionths = Math.round(longitude * 1e6)
  const turn = 360e6
  return ((((((millionths + turn / 2) % turn) + turn) % turn) - turn / 2) / 1e6).toFixed(6)
}

/** Text without what XML 1.0 has no place for: control characters, halves of surrogate pairs and two non-characters. */
const escaped = (text: string): string =>
  text
    .replace(/\p{Surrogate}/gu, '')
    .replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/g, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
