import type { Plan } from '../model/plan/schema'
import { answered, storageFault, type StorageFault } from './database'
import { textOf, type Day } from './day'
import type { Timeline } from './history'
import { stepsOf, type Step, type StepRecord } from './steps'
import type { Store } from './store'

/** What is on screen, to be kept. */
export interface Moment {
  day: Omit<Day, 'choice' | 'plan' | 'at' | 'changed'>
  bytes: Uint8Array
  timeline: Timeline<Step>
  /** Whether rider and bike of the plan are those for new days from now on. */
  isRiders: boolean
}

/** Writings on their way at once; of more only the last is done. */
const mostUnderway = 2
const triesAgainAfter = 10_000 // ms

/** Keeps what is on screen at once, and again as often as it has changed meanwhile; where it can't, again after a while. */
export class Keeper {
  /** By their days: what waits of one is no reason to lose what waits of another. */
  #waiting = new Map<string, Moment>()
  #underway = 0
  #asked = 0
  #answered = 0
  #again: ReturnType<typeof setTimeout> | undefined
  /** The day that is kept with its route, and its steps; undefined where that is not known. */
  #kept: { day: string; steps: Map<number, Step> } | undefined
  #rider: Plan | undefined
  #last: Promise<unknown> = Promise.resolve()

  /**
   * @param rider the text of a plan with the rider and bike of another
   * @param told after each time, why it is not kept; undefined where it is
   */
  constructor(
    private readonly store: Store,
    private readonly rider: (plan: Plan) => string,
    private readonly told: (fault: StorageFault | undefined) => void,
  ) {}

  /** Takes a day as kept that was just read. */
  found(day: string, timeline: Timeline<Step>): void {
    this.#kept = { day, steps: new Map(stepsOf(timeline)) }
  }

  /** Takes nothing as kept, as when something was removed. */
  forget(): void {
    this.#kept = undefined
  }

  keep(moment: Moment): void {
    this.#waiting.set(moment.day.id, moment)
    if (moment.isRiders) this.#rider = moment.timeline.present.plan
    if (this.#underway < mostUnderway) void this.#write()
  }

  /** Sends what waits and waits until it is kept. */
  async settled(): Promise<void> {
    this.flush()
    await this.#last
  }

  /** Sends what waits, as when the page is left. */
  flush(): void {
    while (this.#waiting.size > 0) void this.#write()
  }

  async #write(): Promise<void> {
    const [moment] = this.#waiting.values()
    if (moment === undefined) return
    clearTimeout(this.#again)
    const { day, bytes, timeline } = moment
    this.#waiting.delete(day.id)
    const { choice, plan } = timeline.present
    const rider = this.#rider
    const before = this.#kept?.day === day.id ? this.#kept.steps : undefined
    const steps = new Map(stepsOf(timeline))
    const put = [...steps].filter(([at, state]) => before?.get(at) !== state)
    const writing = this.store.keep({
      day: { ...day, choice, plan: textOf(plan), at: timeline.at, changed: Date.now() },
      bytes: before === undefined ? bytes : undefined,
      steps: {
        forget: before === undefined ? 'all' : [...before.keys()].filter((at) => !steps.has(at)),
        put: put.map(([at, { choice, plan }]) => [at, { choice, plan: textOf(plan) } satisfies StepRecord]),
      },
      rider: rider && this.rider(rider),
    })
    this.#kept = { day: day.id, steps }
    this.#rider = undefined
    this.#last = Promise.allSettled([this.#last, writing])
    const number = ++this.#asked
    this.#underway++
    void answered(writing).catch((error: unknown) => {
      if (storageFault(error) === 'silent' && number > this.#answered) this.told('silent')
    })
    let fault: StorageFault | undefined
    try {
      await writing
    } catch (error) {
      fault = storageFault(error)
      this.forget()
      this.#rider ??= rider
    }
    this.#underway--
    if (number > this.#answered) {
      this.#answered = number
      this.told(fault)
    }
    if (fault === undefined) return this.#write()
    if (!this.#waiting.has(day.id)) this.#waiting.set(day.id, moment)
    this.#again = setTimeout(() => void this.#write(), triesAgainAfter)
  }
}
