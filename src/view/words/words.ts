import { formatIn, type Units } from '../format'
import { en, type Words } from './en'

export type { Words }

const made = { metric: en(formatIn('metric')), imperial: en(formatIn('imperial')) }

/** Words in the rider's language and units. Made once, so that they may be asked for anywhere. */
export const wordsIn = (units: Units): Words => made[units]
