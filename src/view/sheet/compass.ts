const points = 'N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW'.split(' ')

/** The nearest of the 16 points of the compass. */
export const compassPoint = (degrees: number): string => points[Math.round(degrees / 22.5) % 16]!

/** Degrees of one of the 16 points; undefined for anything else. */
export function degreesOf(point: string): number | undefined {
  const index = points.indexOf(point.toUpperCase())
  return index < 0 ? undefined : index * 22.5
}
