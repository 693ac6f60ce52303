import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import type { Outcome } from './outcome'
import { simulate } from './simulate'

/** Outcomes that may still be read: the present one, and the one before it while the views turn to it. */
const read = 2

/** The outcomes of a gesture, each looked at for a frame only: the columns of one that nobody reads any more are written anew for the next. */
export class Frames {
  private made: Outcome[] = []

  /**
   * As `simulate`. The columns of the outcome given by the last call but one are no longer to be read.
   *
   * @param kept an outcome that is read for longer
   */
  next(route: Route, plan: Plan, kept: Outcome | undefined): Outcome {
    this.made = this.made.filter((outcome) => outcome !== kept && outcome.route === route)
    const spare = this.made.length < read ? undefined : this.made.shift()
    const outcome = simulate(route, plan, spare?.columns)
    this.made.push(outcome)
    return outcome
  }

  /** What was given so far is read for as long as anyone likes. */
  end(): void {
    this.made = []
  }
}
