import { bound } from './bound'
import { legsIn } from './en/legs'

export type LegWords = ReturnType<typeof legsIn>

/** Words of the table of legs, which come with it. */
export const legWordsIn = bound(legsIn)
