import { bound } from './bound'
import { gapsIn } from './en/gaps'

/** Words of gaps and marked parts, which come with the sheet. */
export const gapWordsIn = bound(gapsIn)
