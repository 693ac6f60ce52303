import { bound } from './bound'
import { typedIn } from './en/typed'

/** Words of what is typed or pasted, which come with the fields that take it. */
export const typedWordsIn = bound(typedIn)
