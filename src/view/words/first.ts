import { bound } from './bound'
import { firstIn } from './en/first'

/** Words of what is asked at a first visit, which come with it. */
export const firstWordsIn = bound(firstIn)
