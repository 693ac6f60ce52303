import { untrack } from 'svelte'
import { askedRest, fitting } from '../model/chance/asked-rest'
import { deadlinesOf } from '../model/chance/deadlines'
import type { WayReading } from '../model/chance/on-the-way'
import { restOf, type Rest } from '../model/chance/rest-chances'
import type { Outcome } from '../model/forecast/outcome'
import { studies } from '../work/studies'
import { parts } from './parts.svelte'
import type { Workbench } from './workbench.svelte'

const parted = 32
const settlesAfter = 250 // ms
const soon = 500 // ms

/** The rest of a day, and what it was asked of. */
export interface FoundRest {
  outcome: Outcome
  readings: readonly WayReading[]
  power: number | undefined
  rest: Rest
}

/** What is left of the day by what was read on the way: worked out by the workers whenever a reading comes or goes. */
export class Road {
  found = $state.raw<FoundRest | undefined>()
  progress = $state<number | undefined>()
  isAtWork = $state(false)
  isFailed = $state(false)
  /** What the rider can give from here on, W, where that is asked about. */
  power = $state<number | undefined>()
  readonly #queue = studies.queue()

  constructor(private readonly bench: () => Workbench) {
    $effect(() => this.#follow())
    $effect(() => () => this.#queue.cancel())
  }

  #follow() {
    const { settled: outcome, isInGesture } = this.bench()
    const { power } = this
    if (outcome === undefined || isInGesture) return undefined
    const readings = fitting(outcome.plan.readings, outcome)
    const found = untrack(() => this.found)
    if (found?.outcome === outcome && found.power === power) return undefined
    this.isAtWork = readings.length > 0
    if (readings.length === 0) {
      this.found = undefined
      return undefined
    }
    const wait = setTimeout(() => void this.#reckon(outcome, readings, power), settlesAfter)
    return () => {
      clearTimeout(wait)
      this.#queue.cancel()
      this.progress = undefined
    }
  }

  async #reckon(outcome: Outcome, readings: WayReading[], power: number | undefined) {
    const { route } = outcome
    const asked = askedRest(outcome, readings, power)
    const began = performance.now()
    let [step, isSuperseded] = [0, false]
    const rest = await restOf(asked, deadlinesOf(outcome), async (one) => {
      const each = one.sampling.days / parted
      const inputs = Array.from({ length: parted }, (_, k) => ({ asked: one, from: k * each, to: (k + 1) * each }))
      const done = step++
      const got = await this.#queue.run('rideRest', route, inputs, (share) => {
        // Most of the time goes into the last step, of three or more.
        if (performance.now() - began > soon) this.progress = Math.min(0.95, (done + share) / 3)
      })
      if (got.ok) return got.results
      isSuperseded = got.why === 'superseded'
      if (got.why === 'notStarted') parts.missing = true
      return undefined
    })
    if (isSuperseded) return
    this.progress = undefined
    this.isAtWork = false
    this.isFailed = rest === undefined
    if (rest !== undefined) this.found = { outcome, readings, power, rest }
  }
}
