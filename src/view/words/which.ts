import { bound } from './bound'
import { whichIn } from './en/which'

/** Words of the question which ride is meant, which come with it. */
export const whichWordsIn = bound(whichIn)
