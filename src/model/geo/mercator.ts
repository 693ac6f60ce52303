/** Columns of places in Web Mercator, as shares of the world's width: x eastwards from 180° W, y southwards from the map's top. */
export interface World {
  x: Float64Array
  y: Float64Array
}

/** Latitude at which the square world ends, degrees: atan(sinh π). */
const topLatitude = 85.0511287798066

/**
 * Projects places once, so that a view of the map only scales and shifts them.
 * EPSG:3857 (IOGP guidance note 7-2, method 1024), as tiles use it.
 *
 * @param latitude degrees; held to where the map ends
 * @param longitude degrees; may pass 180
 */
export function worldOf(latitude: Float64Array, longitude: Float64Array): World {
  return { x: longitude.map(worldX), y: latitude.map(worldY) }
}

/** A longitude, degrees, as `worldOf` has it; may pass 180. */
export const worldX = (longitude: number): number => 0.5 + longitude / 360

/** A latitude, degrees, as `worldOf` has it; held to where the map ends. */
export function worldY(latitude: number): number {
  const held = Math.min(Math.max(latitude, -topLatitude), topLatitude)
  return 0.5 - Math.atanh(Math.sin((held * Math.PI) / 180)) / (2 * Math.PI)
}
