import { isEqual } from '../../model/plan/differences'
import type { Plan } from '../../model/plan/schema'
import type { Route } from '../../model/route/route'
import { parts } from '../../state/parts.svelte'
import type { Results } from '../../work/pool'
import { studies } from '../../work/studies'

type Queue = ReturnType<typeof studies.queue>

/** Of which route, plan and wish something was found, and the plan that was taken over from it, if one was, with what it says. */
interface Found<Answer, Wish> {
  route: Route
  plan: Plan
  wish: Wish
  answers: Answer[]
  taken?: { plan: Plan; text: string }
}

/**
 * What the rider wishes: of all answers on what share of days the charge stays above the reserve, undefined where the day as planned counts; of the assist
 * what it is for, with a latest finish by the clock, `HH:mm`.
 */
export const wishes = $state<{ sure: number | undefined; for: 'soonest' | 'charge' | 'ease'; by: string }>({
  sure: 0.8,
  for: 'soonest',
  by: '',
})

/** Something that the workers are asked for by a press, and what they found: kept while the rider looks at other parts of the page. */
export class Asked<Answer, Wish = void> {
  readonly #queue: Queue
  #turn = 0
  /** Of which it was asked for last. */
  #last: { route: Route; plan: Plan; wish: Wish } | undefined
  found = $state.raw<Found<Answer, Wish> | undefined>()
  /** How far it is, 0 to 1; undefined while nothing is asked. */
  share = $state<number | undefined>()
  isFailed = $state(false)

  /**
   * @param how asks; with what is wished for, and what takes how far it is
   * @param leaves workers that it does without: what is asked for without a press leaves a core to the page
   */
  constructor(
    private readonly how: (
      queue: Queue,
      route: Route,
      plan: Plan,
      tell: (share: number) => void,
      wish: Wish,
    ) => Promise<Results<Answer>>,
    leaves = 0,
  ) {
    this.#queue = studies.queue(leaves)
  }

  /** Asks where nothing was asked of a route with a wish. */
  askFirst(route: Route, plan: Plan, wish: Wish): void {
    if (this.#last?.route !== route || !isEqual(this.#last.wish, wish)) void this.ask(route, plan, wish)
  }

  /** Asks where it was not asked of just this. */
  askOf(route: Route, plan: Plan, wish: Wish): void {
    if (this.#last?.plan !== plan) void this.ask(route, plan, wish)
    else this.askFirst(route, plan, wish)
  }

  async ask(route: Route, plan: Plan, wish: Wish): Promise<void> {
    const turn = ++this.#turn
    this.#last = { route, plan, wish }
    this.share = 0
    this.isFailed = false
    const tell = (share: number) => turn === this.#turn && (this.share = share)
    const got = await this.how(this.#queue, route, plan, tell, wish)
    if (turn !== this.#turn) return
    this.share = undefined
    this.isFailed = !got.ok
    if (got.ok) this.found = { route, plan, wish, answers: got.results }
    else if (got.why === 'notStarted') parts.missing = true
  }

  cancel(): void {
    this.#turn++
    this.#queue.cancel()
    this.share = undefined
  }

  /** Notes that a plan was taken over, so that it is known again. */
  take(plan: Plan, text: string): void {
    if (this.found !== undefined) this.found = { ...this.found, taken: { plan, text } }
  }
}
