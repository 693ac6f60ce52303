import { bound } from './bound'
import { groundIn } from './en/ground'

/** Words of elevation that a rider brings, which come with it. */
export const groundWordsIn = bound(groundIn)
