import { bound } from './bound'
import { daysIn } from './en/days'

/** Words of the list of days and of their files, which come with it. */
export const daysWordsIn = bound(daysIn)
