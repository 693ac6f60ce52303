import { bound } from './bound'
import { foldedIn } from './en/folded'

export type FoldedWords = ReturnType<typeof foldedIn>

/** Words of the groups of the sheet that are folded at first, which come when one is unfolded. */
export const foldedWordsIn = bound(foldedIn)
