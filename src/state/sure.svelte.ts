import { untrack } from 'svelte'
import { chancesOf, type Chances } from '../model/chance/chances'
import { together, usualSampling, type Ridden } from '../model/chance/days'
import { deadlinesOf } from '../model/chance/deadlines'
import type { AskedDays } from '../model/chance/how-sure'
import type { Outcome } from '../model/forecast/outcome'
import { isSameButReadings } from '../model/plan/edit-readings'
import type { Plan } from '../model/plan/schema'
import type { Route } from '../model/route/route'
import { studies } from '../work/studies'
import { parts } from './parts.svelte'
import type { Workbench } from './workbench.svelte'

/** How sure a plan's day on a route is. */
export interface Found {
  route: Route
  plan: Plan
  chances: Chances
  /** What was asked, and finish time and charge left of all days: of them is told what drives the spread. */
  asked: AskedDays
  ridden: Pick<Ridden, 'time' | 'left'>
}

/** How long a plan rests before its days are ridden; and what takes no longer is not spoken of, ms. */
const settlesAfter = 400
const soon = 500
/** Bands are wanted at so many places, one as far from the next as the other, beside those where something happens. */
const evenPlaces = 48
/** How far behind a halt the band after it begins, m: more than half a station of a coarser road. */
const justBehind = 60
/** Parts that the days are ridden in: between two of them an edit has them dropped. */
const parted = 256

/** Where clock and charge of the days are noted, ridden distances, m. */
function placesOf({ halts, length }: Outcome): number[] {
  const even = Array.from({ length: evenPlaces + 1 }, (_, k) => (length * k) / evenPlaces)
  return [...even, ...halts.flatMap(({ distance }) => [distance, Math.min(distance + justBehind, length)])]
}

/** How sure the day on the desk is: ridden anew by the workers whenever its plan has rested for a moment. */
class Sure {
  #found = $state.raw<Found | undefined>()
  /** Share of the days that are ridden, once it has taken a while. */
  progress = $state<number | undefined>()
  isFailed = $state(false)
  readonly #queue = studies.queue(1)
  /** Of plans that were looked at before, as on undo. */
  readonly #known = new WeakMap<Plan, Found>()

  constructor(private readonly bench: Workbench) {
    bench.makesRoom(() => this.#queue.cancel())
    $effect.root(() => {
      $effect(() => this.#follow())
    })
  }

  /** What is known of the plan on screen, whole. */
  get found(): Found | undefined {
    return this.isCurrent ? this.#found : undefined
  }

  /** The last that is known of the route on screen. */
  get chances(): Chances | undefined {
    return this.#found?.route === this.bench.route ? this.#found?.chances : undefined
  }

  /** Whether it is of the plan on screen; else it is being worked out anew. */
  get isCurrent(): boolean {
    const { plan } = this.bench
    return this.#found !== undefined && plan !== undefined && isSameButReadings(this.#found.plan, plan)
  }

  #follow() {
    const { outcome, isInGesture } = this.bench
    if (outcome === undefined || isInGesture) return undefined
    const found = untrack(() => this.#found)
    const isKnown = found?.route === outcome.route && isSameButReadings(found.plan, outcome.plan)
    const known = isKnown ? found : this.#known.get(outcome.plan)
    if (known?.route === outcome.route) {
      this.#found = known
      return undefined
    }
    const wait = setTimeout(() => void this.#reckon(outcome), settlesAfter)
    return () => {
      clearTimeout(wait)
      this.#queue.cancel()
      this.progress = undefined
    }
  }

  async #reckon(outcome: Outcome) {
    const { route, plan } = outcome
    const deadlines = deadlinesOf(outcome)
    const sampling = usualSampling
    const places = [...placesOf(outcome), ...deadlines.map(({ distance }) => distance)]
    const asked: AskedDays = { plan, sampling, places }
    const each = sampling.days / parted
    const inputs = Array.from({ length: parted }, (_, k) => ({ asked, from: k * each, to: (k + 1) * each }))
    const began = performance.now()
    const got = await this.#queue.run('rideDays', route, inputs, (share) => {
      if (performance.now() - began > soon) this.progress = share
    })
    if (!got.ok && got.why === 'superseded') return
    this.progress = undefined
    this.isFailed = !got.ok
    if (!got.ok) {
      if (got.why === 'notStarted') parts.missing = true
      return
    }
    this.bench.attempt(() => {
      const { time, left, ...all } = together(got.results)
      const chances = chancesOf(route, sampling, { time, left, ...all }, deadlines)
      const found = { route, plan, chances, asked, ridden: { time, left } }
      this.#known.set(plan, found)
      this.#found = found
    })
  }
}

let ofPage: Sure | undefined

/** The one of the page. */
export const sureOf = (bench: Workbench): Sure => (ofPage ??= new Sure(bench))
