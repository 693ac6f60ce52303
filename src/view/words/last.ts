import { bound } from './bound'
import { lastIn } from './en/last'

/** Words of rides that were ridden, which come with them. */
export const lastWordsIn = bound(lastIn)
