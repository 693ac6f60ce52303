import type { Read } from '../../src/cli/open'
import { sampleFile } from './page'

/** What a door for scripts reads: sample routes by their name, and a plan under `plan`. */
export const doorWith =
  (plan: string): Read =>
  (file) =>
    file === 'plan' ? new TextEncoder().encode(plan) : sampleFile(file)
