import { bound } from './bound'
import { dayIn } from './en/day'

export type DayWords = ReturnType<typeof dayIn>

/** Words of the day, on the screen and on paper, which come with it. */
export const dayWordsIn = bound(dayIn)
