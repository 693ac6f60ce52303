import { Frames } from '../model/forecast/frames'
import type { Outcome } from '../model/forecast/outcome'
import { simulate } from '../model/forecast/simulate'
import type { Plan } from '../model/plan/schema'
import type { Route } from '../model/route/route'

/** What there is to show of a route and a plan. */
export interface Forecast {
  /** Where the model has a fault the last good one of the same route; undefined where there is none. */
  outcome: Outcome | undefined
  /** The model's own fault: what it threw. */
  fault?: { error: unknown; route: Route; plan: Plan }
}

/** Makes the outcomes that are shown, and holds the last good one against a fault of the model. */
export class Forecaster {
  readonly #frames = new Frames()
  #good: Outcome | undefined
  /** What was made before it is asked for. */
  #ahead: Outcome | undefined

  /**
   * @param inGesture whether it is one of a gesture, that is read until the next but one
   * @param kept outcomes that are read for longer
   */
  make(route: Route, plan: Plan, inGesture: boolean, kept: readonly (Outcome | undefined)[]): Forecast {
    try {
      if (!inGesture) this.#frames.end()
      const ahead = this.#ahead
      this.#ahead = undefined
      if (!inGesture && ahead?.route === route && ahead.plan === plan) return { outcome: (this.#good = ahead) }
      this.#good = inGesture ? this.#frames.next(route, plan, kept) : simulate(route, plan)
      return { outcome: this.#good }
    } catch (error) {
      // What it had begun to write is of no use for the next.
      this.#frames.end()
      return { outcome: this.#good?.route === route ? this.#good : undefined, fault: { error, route, plan } }
    }
  }

  /** Whether a route can be put up with a plan: of another route than the one on screen nothing good is left to show. */
  can(route: Route, plan: Plan): boolean {
    try {
      this.#ahead = simulate(route, plan)
      return true
    } catch {
      return false
    }
  }
}
