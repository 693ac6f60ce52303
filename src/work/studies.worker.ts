import { expose } from 'comlink'
import { bestStops } from '../model/decide/best-stop'
import { easiestAssist } from '../model/decide/easiest'
import { latestStarts } from '../model/decide/latest-start'
import { rideLoadOut } from '../model/decide/load-outs'
import { sureAssist } from '../model/decide/sure-assist'
import { fitDays, rideDays, ridePairs } from '../model/chance/how-sure'
import { rideRest } from '../model/chance/on-the-way'
import { trainingWorth } from '../model/chance/training'
import { rideMixed } from '../model/studies/causes'
import { rideTaken } from '../model/studies/kit-cost'
import { rideOnAt } from '../model/studies/ride-on'
import { jobDesk } from './job-desk'

/** What the workers of `studies.ts` do: each a pure function of the model, of a route and one input. */
const jobs = {
  bestStops,
  easiestAssist,
  fitDays,
  latestStarts,
  rideDays,
  rideLoadOut,
  rideMixed,
  rideOnAt,
  ridePairs,
  rideRest,
  rideTaken,
  sureAssist,
  trainingWorth,
}

export type StudyJobs = typeof jobs

expose(jobDesk(jobs))
