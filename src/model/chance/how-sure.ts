import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { coarser } from '../forecast/coarser'
import { Days, type Ridden, type Sampling } from './days'
import { effectSums, effectsOf, type EffectSampling, type Effects, type EffectSums } from './drivers'
import { uncertainIn, type UncertainFigure } from './figures'
import { normalQuantile } from './normal'
import { fitted, partsOf, valueAt, type Surrogate } from './surrogate'

/** The figures that drive the spread of the finish time and of the charge at the finish, with their Shapley effects. */
export interface Drivers {
  figures: UncertainFigure[]
  time: Effects
  left: Effects
}

export const usualEffects: EffectSampling = { seed: 1, points: 64, replicates: 8 }

/** The days that are asked for, the same for all who ride some of them. */
export interface AskedDays {
  plan: Plan
  sampling: Sampling
  /** Ridden distances at which clock and charge are wanted, m. */
  places: readonly number[]
}

/**
 * The days of a plan as they may come, over the road with fewer stations: made once in each worker, asked for some of the days or of the pairs of days.
 */
export class HowSure {
  private readonly days: Days

  /** @param route at least two stations */
  constructor(route: Route, { plan, sampling, places }: AskedDays) {
    this.days = new Days(coarser(route, plan.bike), plan, sampling, places)
  }

  /** Rides some of the days. @param from index of the first @param to one beyond the last */
  ride(from: number, to: number): Ridden {
    return this.days.ride(from, to)
  }

  /**
   * Polynomials that stand in for finish time and charge at the finish: with them few pairs tell what drives the spread.
   *
   * @param ridden all days, of which time and charge at the finish are asked
   */
  surrogates({ time, left }: Pick<Ridden, 'time' | 'left'>): Surrogate[] {
    const points = Array.from(time, (_, day) => this.days.deviatesOf(day).slice())
    return [fitted(points, time), fitted(points, left)]
  }

  /**
   * Rides some of the pairs from which follows what drives the spread.
   *
   * @param from index of the first
   * @param to one beyond the last
   */
  ridePairs(sampling: EffectSampling, surrogates: readonly Surrogate[], from: number, to: number): EffectSums[] {
    const answers = (point: Float64Array) => {
      const deviates = point.map(normalQuantile)
      const { time, left } = this.days.rideOne(deviates)
      return [time, left, ...surrogates.map((surrogate) => valueAt(surrogate, deviates))]
    }
    return effectSums(this.days.uncertain.deviates, answers, 2 + surrogates.length, sampling, from, to)
  }
}

/** What drives the spread. @param parts of all pairs, as ridden anywhere */
export function driversOf(
  route: Route,
  plan: Plan,
  parts: readonly EffectSums[][],
  surrogates: readonly Surrogate[],
): Drivers {
  const { figures, deviates } = uncertainIn(route, plan)
  const [time, left] = surrogates.map((surrogate, answer) =>
    effectsOf(
      parts.map((part) => part[answer]!),
      { sums: parts.map((part) => part[surrogates.length + answer]!), parts: partsOf(surrogate, deviates) },
    ),
  )
  return { figures, time: time!, left: left! }
}

const made = new WeakMap<AskedDays, HowSure>()

/** Those of one who asks for several parts are made once. */
function sureOf(route: Route, asked: AskedDays): HowSure {
  const sure = made.get(asked) ?? new HowSure(route, asked)
  made.set(asked, sure)
  return sure
}

/** Some of the days, by `from` and `to` as of `HowSure.ride`. */
export const rideDays = (route: Route, { asked, from, to }: { asked: AskedDays; from: number; to: number }): Ridden =>
  sureOf(route, asked).ride(from, to)

/** As `HowSure.surrogates`. */
export const fitDays = (
  route: Route,
  { asked, ...ridden }: { asked: AskedDays } & Pick<Ridden, 'time' | 'left'>,
): Surrogate[] => sureOf(route, asked).surrogates(ridden)

/** As `HowSure.ridePairs`. */
export const ridePairs = (
  route: Route,
  { asked, surrogates, from, to }: { asked: AskedDays; surrogates: readonly Surrogate[]; from: number; to: number },
): EffectSums[] => sureOf(route, asked).ridePairs(usualEffects, surrogates, from, to)
