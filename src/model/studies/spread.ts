import { bikeParameters } from '../plan/parameters'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import type { Outcome } from '../forecast/outcome'
import { simulate } from '../forecast/simulate'

/** Standard deviations to the end of a normal distribution's span that holds 80 %: its 0.9 quantile. */
const toNinetyPercent = 1.2816

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
  const moved = (side: 'low' | 'high'): Outcome => {
    const { bike } = plan
    const part = (key: 'dragArea' | 'rolling') => {
      const { min, max, belief } = bikeParameters[key]
      const value = bike[key] + (Math.SQRT1_2 / toNinetyPercent) * belief[side]
      return Math.min(Math.max(value, min), max)
    }
    return simulate(route, { ...plan, bike: { ...bike, dragArea: part('dragArea'), rolling: part('rolling') } })
  }
  return { harder: moved('high'), easier: moved('low') }
}
