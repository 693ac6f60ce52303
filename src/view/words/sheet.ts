import { bound } from './bound'
import { sheetIn } from './en/sheet'

export type SheetWords = ReturnType<typeof sheetIn>

/** Words of the plan's sheet, which come with it. */
export const sheetWordsIn = bound(sheetIn)
