import { Pool } from './pool'
import type { StudyJobs } from './studies.worker'

const mostWorkers = 8

/** The page's one pool for what takes many forecasts; to be imported only by what is fetched later. */
export const studies = new Pool<StudyJobs>(
  () => new Worker(new URL('./studies.worker.ts', import.meta.url), { type: 'module' }),
  Math.min(mostWorkers, navigator.hardwareConcurrency || 2),
)
