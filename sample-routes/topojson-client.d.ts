/** The one function used of a library that brings no types of its own. */
declare module 'topojson-client' {
  import type { FeatureCollection, MultiPolygon, Polygon } from 'geojson'
  export function feature(topology: unknown, object: unknown): FeatureCollection<Polygon | MultiPolygon>
}
