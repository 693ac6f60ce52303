import type { Outcome } from '../forecast/outcome'
import { passagesFor } from './passages'
import type { DayFacts } from './sheet'

/** What the day sheet is to know beside the forecast. */
export const factsOf = (outcome: Outcome): DayFacts => ({
  started: outcome.started,
  sailings: outcome.route.crossings.map((_, gap) => {
    const sailing = outcome.halts.find((halt) => halt.gap === gap)?.sailing
    return sailing?.margin === undefined ? undefined : sailing
  }),
  passages: passagesFor(outcome),
})

/** Where the time of a day goes, s. */
export interface DayTimes {
  /** In motion. */
  riding: number
  /** Lost in small halts, by the rider's figure for 100 km. */
  smallHalts: number
  /** Stops, swaps, and waiting for a control to open. */
  stopped: number
  /** From arriving at a crossing to riding on, waiting included. */
  crossing: number
  /** From the start to arriving at the finish: the sum of the others. */
  elapsed: number
}

/** Times of the day; what is halted at the finish itself is not counted. */
export function timesOf({ columns, halts }: Outcome): DayTimes {
  const last = columns.time.length - 1
  const elapsed = columns.time[last]!
  const riding = columns.ridingTime[last]!
  let stopped = 0
  let crossing = 0
  for (const { kind, station, arrive, depart } of halts) {
    if (station === last) continue
    if (kind === 'crossing') crossing += depart - arrive
    else stopped += depart - arrive
  }
  return { riding, smallHalts: Math.max(0, elapsed - riding - stopped - crossing), stopped, crossing, elapsed }
}
