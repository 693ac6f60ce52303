import { simulate } from '../forecast/simulate'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { chancesOf, type Chances } from './chances'
import { Days, together, type Ridden, type Sampling } from './days'
import { deadlinesOf, type Deadline } from './deadlines'
import { effectSums, effectsOf, type EffectSampling, type Effects, type EffectSums } from './drivers'
import type { UncertainFigure } from './figures'
import { normalQuantile } from './normal'
import { fitted, partsOf, valueAt, type Surrogate } from './surrogate'

/** The figures that drive the spread of the finish time and of the charge at the finish, with their Shapley effects. */
export interface Drivers {
  figures: UncertainFigure[]
  time: Effects
  left: Effects
}

export const usualEffects: EffectSampling = { seed: 1, points: 64, replicates: 8 }

/**
 * How sure a plan's day is: made once in each worker, asked for some of the days or of the pairs of days, and for the answer from all of them.
 */
export class HowSure {
  private readonly days: Days
  private readonly deadlines: Deadline[]

  /**
   * @param route at least two stations
   * @param plan valid
   * @param sampling which days
   * @param places ridden distances at which bands are wanted, m
   */
  constructor(
    private readonly route: Route,
    plan: Plan,
    private readonly sampling: Sampling,
    places: readonly number[],
  ) {
    this.deadlines = deadlinesOf(simulate(route, plan))
    this.days = new Days(route, plan, sampling, [...places, ...this.deadlines.map(({ distance }) => distance)])
  }

  /** Rides some of the days. @param from index of the first @param to one beyond the last */
  ride(from: number, to: number): Ridden {
    return this.days.ride(from, to)
  }

  /** @param parts of all days, as ridden anywhere */
  chances(parts: readonly Ridden[]): Chances {
    return chancesOf(this.route, this.sampling, together(parts), this.days.stations, this.deadlines)
  }

  /**
   * Polynomials that stand in for finish time and charge at the finish: with them few pairs tell what drives the spread.
   *
   * @param parts of all days, as ridden anywhere
   */
  surrogates(parts: readonly Ridden[]): Surrogate[] {
    const { time, left } = together(parts)
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

  /** @param parts of all pairs, as ridden anywhere */
  drivers(parts: readonly EffectSums[][], surrogates: readonly Surrogate[]): Drivers {
    const { figures, deviates } = this.days.uncertain
    const [time, left] = surrogates.map((surrogate, answer) =>
      effectsOf(
        parts.map((part) => part[answer]!),
        { sums: parts.map((part) => part[surrogates.length + answer]!), parts: partsOf(surrogate, deviates) },
      ),
    )
    return { figures, time: time!, left: left! }
  }
}
