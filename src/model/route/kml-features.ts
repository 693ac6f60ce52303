import { kml } from '@tmcw/togeojson'
import type { Feature, Geometry } from 'geojson'
import { DOMParser } from 'linkedom/worker'

/**
 * Places of a small KML document, with their names. A room of its own, loaded when a KML file comes, since the DOM that togeojson needs is
 * larger than all else that reads routes.
 *
 * @param text well-formed, without prefixes
 */
export function featuresOf(text: string): Feature<Geometry | null>[] {
  return kml(new DOMParser().parseFromString(text, 'text/xml') as unknown as Document).features
}
