import { bound } from './bound'
import { controlsIn } from './en/controls'

export type ControlsWords = ReturnType<typeof controlsIn>

/** Words of goal and controls, which come with them. */
export const controlsWordsIn = bound(controlsIn)
