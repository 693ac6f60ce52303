import { bound } from './bound'
import { pedallingIn } from './en/pedalling'

/** Words of the torque on the pedals, which come with it. */
export const pedallingWordsIn = bound(pedallingIn)
