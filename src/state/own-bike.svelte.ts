import { readPlan } from '../model/plan/check'
import type { Names } from '../model/plan/names'
import type { Plan } from '../model/plan/schema'
import { textOf } from './day'
import { newPlan } from './rider-bike'
import type { Store } from './store'

/** The rider's own bike, which each new day begins with. */
export class OwnBike {
  /** Whether nothing is known of it, as on a first visit. */
  isUnknown = $state(false)
  /** Done when what was said of it is kept. */
  #saying: Promise<unknown> = Promise.resolve()

  /** @param read what is kept of it, undefined where there is none or it can't be read @param trouble told why it could not be kept */
  constructor(
    private readonly store: Store,
    private readonly names: Names,
    private readonly read: () => Promise<string | undefined>,
    private readonly trouble: (error: unknown) => void,
  ) {}

  /** The plan of a new day: with the rider's own bike where there is one. */
  async newPlan(): Promise<Plan> {
    await this.#saying
    return this.#plan()
  }

  /** Changes it for new days: what a rider says of it while a sample is on screen. */
  say(change: (plan: Plan) => Plan): Promise<unknown> {
    this.#saying = this.#saying
      .then(async () => this.store.keepRider(textOf(change(await this.#plan()))))
      .catch((error: unknown) => this.trouble(error))
    return this.#saying
  }

  /** The rider has said of it what there is to say. */
  endFirstVisit(): void {
    this.isUnknown = false
    void this.say((plan) => plan)
  }

  async #plan(): Promise<Plan> {
    const text = await this.read()
    const reading = text === undefined ? undefined : readPlan(text)
    return newPlan(this.names, reading?.ok ? reading.plan : undefined)
  }
}
