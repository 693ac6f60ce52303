import { driversOf, usualEffects, type Drivers } from '../model/chance/how-sure'
import { studies } from '../work/studies'
import type { Found } from './sure.svelte'

const settlesAfter = 300 // ms
const soon = 500 // ms
const parted = 16

/** What drives the spread of a day's answers: worked out after how sure it is, as long as somebody looks at it. */
export class WhatDrives {
  found = $state.raw<{ of: Found; drivers: Drivers } | undefined>()
  progress = $state<number | undefined>()
  isFailed = $state(false)
  readonly #queue = studies.queue()

  /** @param sure how sure the day is, once it is known */
  constructor(sure: () => Found | undefined) {
    $effect(() => {
      const of = sure()
      if (of === undefined || of === this.found?.of) return undefined
      const wait = setTimeout(() => void this.#reckon(of), settlesAfter)
      return () => {
        clearTimeout(wait)
        this.#queue.cancel()
        this.progress = undefined
      }
    })
  }

  async #reckon(of: Found) {
    const { route, plan, asked, ridden } = of
    const began = performance.now()
    const fit = await this.#queue.run('fitDays', route, [{ asked, ...ridden }])
    if (!fit.ok) return this.#end(fit.why)
    const surrogates = fit.results[0]!
    const each = usualEffects.points / parted
    const inputs = Array.from({ length: parted }, (_, k) => ({ asked, surrogates, from: k * each, to: (k + 1) * each }))
    const got = await this.#queue.run('ridePairs', route, inputs, (share) => {
      if (performance.now() - began > soon) this.progress = share
    })
    if (!got.ok) return this.#end(got.why)
    this.progress = undefined
    this.isFailed = false
    this.found = { of, drivers: driversOf(route, plan, got.results, surrogates) }
  }

  #end(why: string) {
    if (why === 'superseded') return
    this.progress = undefined
    this.isFailed = true
  }
}
