import { bound } from './bound'
import { benchIn } from './en/bench'

export type BenchWords = ReturnType<typeof benchIn>

/** Words of the bench, which come with it. */
export const benchWordsIn = bound(benchIn)
