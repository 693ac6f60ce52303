import { bound } from './bound'
import { sureIn } from './en/sure'

/** Words of how sure a day is, which come with what says it. */
export const sureWordsIn = bound(sureIn)
