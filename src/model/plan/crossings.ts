import type { Gap, Route } from '../route/route'
import { passageParameters } from './day-parameters'
import type { Plan, PlanCrossing } from './schema'

const passageTime = 20 * 60 // s
/** Of a passage over water of which no time is known, m/s: a choice. */
export const crossingSpeed = 6
/** What took longer in the recording than at this speed, m/s, holds a night or a pause, and says nothing of the passage. */
const slowest = 1

/**
 * Crossings of a route by the plan. Where it says nothing, each takes as long as in the recording, with the usual time to be there before;
 * where the file has no times of a passage, 20 minutes and 6 m/s: choices.
 */
export const crossingsFor = (route: Route, plan: Plan): PlanCrossing[] =>
  route.crossings.map(
    (gap, i) =>
      plan.crossings[i] ?? {
        timetable: { kind: 'duration', duration: assumedTime(gap) },
        source: null,
        fillFirst: 'most',
      },
  )

function assumedTime({ length, recordedTime }: Gap): number {
  const { boardBefore, length: longest } = passageParameters
  return recordedTime !== undefined && recordedTime * slowest <= length
    ? Math.min(boardBefore.default + 60 * Math.max(1, Math.round(recordedTime / 60)), longest.max)
    : Math.round(passageTime + length / crossingSpeed)
}
