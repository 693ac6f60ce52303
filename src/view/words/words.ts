import { bound } from './bound'
import { en, type Words } from './en/index'

export type { Words }

/** Words in the rider's language and units, for all of the page; a view that is fetched later brings its own beside them. */
export const wordsIn = bound(en)

/** For words in which no unit stands, where the rider's units are not at hand. */
export const plainWords = () => wordsIn('metric')
