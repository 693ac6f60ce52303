import { bound } from './bound'
import { en, type Words } from './en'

export type { Words }

/** Words in the rider's language and units, for all of the page; a view that is fetched later brings its own beside them. */
export const wordsIn = bound(en)

/** Of a field of any form: what it says names no unit but the field's own. */
export const fieldWords = () => wordsIn('metric').field
