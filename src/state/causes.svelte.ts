import { evenEdges, explain, ridesToExplain, type Explained } from '../model/studies/causes'
import type { Plan } from '../model/plan/schema'
import type { Route } from '../model/route/route'
import { studies } from '../work/studies'
import { parts } from './parts.svelte'
import type { Workbench } from './workbench.svelte'

/** Parts of the route by which differences are told. */
const tenths = 10
/** How long the plans stand still before rides are ridden, and what takes no longer is not spoken of, ms. */
const settlesAfter = 300
const soon = 500

/** From part to part of a route, by their stations. */
export const edgesOf = (route: Route): number[] => evenEdges(route, tenths)

/** What makes the difference between a plan and others: ridden by the workers whenever they have stood still for a moment. */
export class Causes {
  #known = $state.raw<{ route: Route; base: Plan; of: readonly (readonly [Plan, Explained])[] } | undefined>()
  /** Share of the rides that are ridden, once it has taken a while. */
  progress = $state<number | undefined>()
  isFailed = $state(false)
  readonly #queue = studies.queue()

  /** @param base the plan that others are measured by */
  constructor(
    private readonly bench: Workbench,
    private readonly base: () => Plan | undefined,
    others: () => readonly Plan[],
  ) {
    $effect(() => () => this.#queue.cancel())
    $effect(() => {
      const { route } = bench
      const [from, plans] = [base(), others()]
      if (route === undefined || from === undefined) return undefined
      const wait = setTimeout(() => void this.#reckon(route, from, plans), settlesAfter)
      return () => clearTimeout(wait)
    })
  }

  /** What makes the difference to one of the others; undefined while it is not known. */
  of(plan: Plan): Explained | undefined {
    const { route } = this.bench
    const base = this.base()
    return route && base && this.#of(route, base).find(([other]) => other === plan)?.[1]
  }

  /** All that is known of a route and the plan that others are measured by. */
  #of(route: Route, base: Plan) {
    const known = this.#known
    return known?.route === route && known.base === base ? known.of : []
  }

  async #reckon(route: Route, base: Plan, plans: readonly Plan[]) {
    const known = this.#of(route, base)
    const edges = edgesOf(route)
    const missing = plans
      .filter((plan) => !known.some(([other]) => other === plan))
      .map((plan) => ridesToExplain(route, base, plan, edges))
    const began = performance.now()
    const got = await this.#queue.run('rideMixed', route, missing.flat(), (share) => {
      if (performance.now() - began > soon) this.progress = share
    })
    if (!got.ok && got.why === 'superseded') return
    this.progress = undefined
    this.isFailed = !got.ok
    if (!got.ok) {
      if (got.why === 'notStarted') parts.missing = true
      return
    }
    let first = 0
    const found = missing.map((rides) => {
      const results = got.results.slice(first, (first += rides.length))
      return [rides[0]!.other, explain(rides, results)] as const
    })
    this.#known = { route, base, of: [...known, ...found] }
  }
}
