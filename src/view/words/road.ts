import { bound } from './bound'
import { roadIn } from './en/road'

/** Words of the screen that is used on the way, which come with it. */
export const roadWordsIn = bound(roadIn)
