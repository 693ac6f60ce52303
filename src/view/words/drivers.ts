import { bound } from './bound'
import { driversIn } from './en/drivers'

/** Words of what drives the spread, which come with it. */
export const driversWordsIn = bound(driversIn)
