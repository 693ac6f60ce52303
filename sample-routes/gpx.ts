import type { FilePoint } from './record'
import type { Design } from './roads'
import type { Road } from './truth'

/** A route as GPX 1.1, elements in the order that the standard's schema asks for. */
export function gpx({ title, description }: Design, road: Road, parts: readonly FilePoint[][]): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx version="1.1" creator="Wattfare sample maker" xmlns="http://www.topografix.com/GPX/1/1">',
    `<metadata><name>${title}</name><desc>${description} Invented.</desc></metadata>`,
    ...road.places.map(
      ({ name, type, at: [lon, lat], elevation }) =>
        `<wpt lat="${lat.toFixed(6)}" lon="${lon.toFixed(6)}"><ele>${elevation.toFixed(0)}</ele><name>${name}</name><type>${type}</type></wpt>`,
    ),
    `<trk><name>${title}</name>`,
    ...parts.map((part) => `<trkseg>\n${part.map(point).join('\n')}\n</trkseg>`),
    '</trk>',
    '</gpx>',
    '',
  ].join('\n')
}

function point({ at: [lon, lat], elevation, time }: FilePoint): string {
  const stamp = time === undefined ? '' : `<time>${new Date(time * 1000).toISOString().replace('.000Z', 'Z')}</time>`
  const height = Number(elevation.toFixed(1)) + 0
  return `<trkpt lat="${lat.toFixed(6)}" lon="${lon.toFixed(6)}"><ele>${height}</ele>${stamp}</trkpt>`
}
