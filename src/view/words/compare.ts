import { bound } from './bound'
import { compareIn } from './en/compare'

export type CompareWords = ReturnType<typeof compareIn>

/** Words of the plans side by side, which come with them. */
export const compareWordsIn = bound(compareIn)
