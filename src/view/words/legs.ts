import { bound } from './bound'
import { legsIn } from './en/legs'

/** Words of the table of legs, which come with it. */
export const legWordsIn = bound(legsIn)
