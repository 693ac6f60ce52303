import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import type { Outcome } from '../forecast/outcome'
import { simulate } from '../forecast/simulate'

/**
 * Standard deviations between real bikes and riders, m² and dimensionless.
 *
 * @see Tengattini and Bigazzi 2018, J. Sports Sci. 36:2383-2391: AfCd 0.559 (SD 0.170) m², Cr 0.0077 (SD 0.0036)
 */
const dragAreaDeviation = 0.17
const rollingDeviation = 0.0036

/** The same day with a bike that runs harder and one that runs easier by one standard deviation. */
export interface Spread {
  harder: Outcome
  easier: Outcome
}

/**
 * How far the forecast may be off because air drag and tyres are known only as well as bikes differ.
 * Both are moved together by 1/√2 of their deviation, which is one deviation of two independent parts of about equal effect.
 */
export function spreadOf(route: Route, plan: Plan): Spread {
  const moved = (sign: 1 | -1): Outcome => {
    const { dragArea, rolling } = plan.bike
    return simulate(route, {
      ...plan,
      bike: {
        ...plan.bike,
        dragArea: Math.max(0.15, dragArea + sign * Math.SQRT1_2 * dragAreaDeviation),
        rolling: Math.max(0.001, rolling + sign * Math.SQRT1_2 * rollingDeviation),
      },
    })
  }
  return { harder: moved(1), easier: moved(-1) }
}
