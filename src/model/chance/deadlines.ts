import type { Outcome } from '../forecast/outcome'
import type { PlaceName } from '../place-name'
import { windowsOf, type Window } from '../world/controls'

/** Something that has to be reached by a time: a control, a goal for the whole day or for the time in motion alone, or the sailing of a crossing that the plan takes. */
export interface Deadline {
  kind: Window['kind'] | 'ridingGoal' | 'sailing'
  /** Id of the control, 'finish' for the goals; index of the route's crossing for a sailing. */
  id: string
  name: PlaceName
  distance: number
  /** Latest arrival there, s since the start; of the goal for riding the most time in motion up to there, s. */
  latest: number
}

/**
 * All that has to be reached by a time on a day, in order of the route; a sailing is the one that the day as planned takes, to be reached so much before
 * it as that day has in hand.
 */
export function deadlinesOf({ route, plan, zone, started, halts, columns }: Outcome): Deadline[] {
  const windows = windowsOf(plan.controls, plan.goal, plan.start, zone, route.length).flatMap(
    ({ kind, id, name, distance, closes }): Deadline[] =>
      closes === undefined ? [] : [{ kind, id, name, distance, latest: closes - started }],
  )
  const sailings = halts.flatMap(({ station, distance, gap, sailing }): Deadline[] =>
    gap === undefined || sailing?.margin === undefined
      ? []
      : [
          {
            kind: 'sailing',
            id: String(gap),
            name: { code: 'at', distance },
            distance,
            latest: columns.time[station]! + sailing.margin,
          },
        ],
  )
  const riding: Deadline[] =
    plan.ridingGoal === null
      ? []
      : [
          {
            kind: 'ridingGoal',
            id: 'finish',
            name: { code: 'finish' },
            distance: route.length,
            latest: plan.ridingGoal,
          },
        ]
  return [...windows, ...riding, ...sailings].sort((a, b) => a.distance - b.distance)
}
