import { bound } from './bound'
import { kitIn } from './en/kit'

export type KitWords = ReturnType<typeof kitIn>

/** Words of the kit list, which come with it. */
export const kitWordsIn = bound(kitIn)
