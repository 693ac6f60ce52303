import { bound } from './bound'
import { rowsIn } from './en/rows'

/** Words of rows of the leg table and of the day sheet, which come with what shows or saves them. */
export const rowWordsIn = bound(rowsIn)
