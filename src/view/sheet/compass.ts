const points = 'N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW'.split(' ')

/** The nearest of the 16 points of the compass. */
export const compassPoint = (degrees: number): string => points[Math.round(degrees / 22.5) % 16]!
