import type { Outcome } from '../model/forecast/outcome'
import { clockAt } from '../model/world/zone'

/** Clock time of an instant of the day, with the days gone by since the start where it is another date. */
export const clockOf =
  ({ zone, plan }: Outcome) =>
  (instant: number): string =>
    clockAt(instant, zone, plan.start)
