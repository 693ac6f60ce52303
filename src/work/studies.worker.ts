import { expose } from 'comlink'
import { bestAssist } from '../model/decide/assist'
import { bestStops } from '../model/decide/best-stop'
import { rideDays } from '../model/chance/how-sure'
import { rideMixed } from '../model/studies/causes'
import { rideTaken } from '../model/studies/kit-cost'
import { jobDesk } from './job-desk'

/** What the workers of `studies.ts` do: each a pure function of the model, of a route and one input. */
const jobs = { bestAssist, bestStops, rideDays, rideMixed, rideTaken }

export type StudyJobs = typeof jobs

expose(jobDesk(jobs))
