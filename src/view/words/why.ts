import { bound } from './bound'
import { whyIn } from './en/why'

/** Words of why a figure is what it is, which come with it. */
export const whyWordsIn = bound(whyIn)
