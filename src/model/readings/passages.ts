import type { Outcome } from '../forecast/outcome'
import { stationNear } from '../route/nearest'
import { passageOf, windowsOf, type Passage, type Window } from '../world/controls'

/**
 * All windows as a forecast meets them: a control is passed on arrival at its station, before whatever halt stands there.
 *
 * @param windows from `windowsOf`
 * @param started Unix time of the start, s
 */
export const passagesOf = (outcome: Outcome, windows: readonly Window[], started: number): Passage[] =>
  windows.map((window) =>
    passageOf(window, started + outcome.columns.time[stationNear(outcome.route, window.distance)]!),
  )

/** The first that is missed; undefined if all are met. */
export const firstMissed = (passages: readonly Passage[]): Passage | undefined => passages.find(({ met }) => !met)

/** Time in hand to the goal for riding, s, negative where it is missed; undefined where there is none. */
export const ridingMargin = ({ plan, columns }: Outcome): number | undefined =>
  plan.ridingGoal === null ? undefined : plan.ridingGoal - columns.ridingTime.at(-1)!

/** Controls and goal as a forecast meets them, in order of the route. */
export const passagesFor = (outcome: Outcome): Passage[] => {
  const { plan, zone, route } = outcome
  return passagesOf(outcome, windowsOf(plan.controls, plan.goal, plan.start, zone, route.length), outcome.started)
}
