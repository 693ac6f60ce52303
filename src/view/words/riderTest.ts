import { bound } from './bound'
import { riderTestIn } from './en/riderTest'

/** Words of the test of two efforts, which come with it. */
export const riderTestWordsIn = bound(riderTestIn)
