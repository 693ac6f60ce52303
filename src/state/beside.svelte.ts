import { simulate } from '../model/forecast/simulate'
import type { Outcome } from '../model/forecast/outcome'
import type { Plan } from '../model/plan/schema'
import { freshId } from '../model/plan/lists'
import type { Route } from '../model/route/route'
import { planOf, textOf, type KeptPlan } from './day'
import type { Days } from './days.svelte'

/** How many plans are kept beside that of a day, and how many characters in all: with its own they are still read as one day. */
const most = { plans: 20, letters: 2_000_000 }

/** Plans beside the one on screen, kept with its day: the held one, which others are measured against, and others by name. */
export class Beside {
  readonly #heldText = $derived.by(() => this.desk.days.day?.beside?.held)
  readonly #heldPlan: Plan | undefined = $derived.by(() =>
    this.#heldText === undefined ? undefined : planOf(this.#heldText),
  )
  /** The held plan on the route on screen. */
  readonly held: Outcome | undefined = $derived.by(() => {
    const { route } = this.desk
    return this.#heldPlan && route && forecastOf(route, this.#heldPlan)
  })
  #removed = $state.raw<{ plan: KeptPlan; at: number; day: string | undefined } | undefined>()

  constructor(
    private readonly desk: { readonly days: Days; readonly route: Route | undefined; readonly plan: Plan | undefined },
  ) {}

  get kept(): readonly KeptPlan[] {
    return this.desk.days.day?.beside?.kept ?? []
  }

  /** The kept plan that was removed last, as long as its day is on screen. */
  get removed(): KeptPlan | undefined {
    return this.#removed?.day === this.desk.days.day?.id ? this.#removed?.plan : undefined
  }

  /** Measures others against a plan: that on screen, or another. @returns false where it has no room */
  hold(plan = this.desk.plan): boolean {
    return plan !== undefined && this.#set(textOf(plan), this.kept)
  }

  letGo(): void {
    this.#set(undefined, this.kept)
  }

  /** Keeps a plan under a name: that on screen, or another. @returns false where it has no room */
  keep(name: string, plan = this.desk.plan): boolean {
    if (plan === undefined) return false
    return this.#set(this.#heldText, [...this.kept, { id: freshId('kept', this.kept), name, plan: textOf(plan) }])
  }

  remove(id: string): void {
    const at = this.kept.findIndex((one) => one.id === id)
    const plan = this.kept[at]
    if (plan === undefined) return
    this.#set(this.#heldText, this.kept.toSpliced(at, 1))
    this.#removed = { plan, at, day: this.desk.days.day?.id }
  }

  putBack(): void {
    if (this.#removed === undefined || this.removed === undefined) return
    const { plan, at } = this.#removed
    if (this.#set(this.#heldText, this.kept.toSpliced(at, 0, plan))) this.#removed = undefined
  }

  #set(held: string | undefined, kept: readonly KeptPlan[]): boolean {
    const letters = kept.reduce((sum, { plan }) => sum + plan.length, held?.length ?? 0)
    if (kept.length > most.plans || letters > most.letters) return false
    this.desk.days.setBeside({ ...(held === undefined ? {} : { held }), kept })
    return true
  }
}

/** The forecast of a plan beside that on screen; undefined where the model has a fault with it. */
export function forecastOf(route: Route, plan: Plan): Outcome | undefined {
  try {
    return simulate(route, plan)
  } catch (error) {
    console.error(error)
    return undefined
  }
}
