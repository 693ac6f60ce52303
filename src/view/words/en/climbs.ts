import type { Route } from '../../../model/route/route'
import type { Format } from '../../format'

/** How much a route climbs; not «0 m» where that is not known. */
export const climbsOf = ({ elevationKnown, ascent }: Route, { height }: Pick<Format, 'height'>): string =>
  elevationKnown === 'none' ? 'climbs unknown' : `${height(ascent)} up`
