/** The 16 points of the compass from north, clockwise. */
export const compass = 'N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW'.split(' ')
