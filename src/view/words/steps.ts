import { bound } from './bound'
import { stepsIn } from './en/steps'

/** Words of the display's steps, which come with them. */
export const stepsWordsIn = bound(stepsIn)
