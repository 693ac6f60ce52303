import { bound } from './bound'
import { choicesIn } from './en/choices'

export type ChoicesWords = ReturnType<typeof choicesIn>

/** Words of what could be chosen otherwise, which come with it. */
export const choicesWordsIn = bound(choicesIn)
