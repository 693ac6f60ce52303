import { writePlan } from '../model/plan/check'
import type { Plan } from '../model/plan/schema'
import type { KeptFile, RouteFile, Store } from './store'

/** A route on screen, as far as it is kept. */
interface Opened {
  file: RouteFile
  choice: KeptFile['choice']
}

/** Keeps what is on screen at once, and again as often as it has changed meanwhile. */
export class Keeper {
  #next: { open: Opened; plan: Plan } | undefined
  #isKeeping = false
  /** Whose file is kept. */
  #kept: Opened | undefined
  #mayKeep = true

  /** @param told after each time, whether it is kept */
  constructor(
    private readonly store: Store,
    private readonly told: (isKept: boolean) => void,
  ) {}

  keep(open: Opened, plan: Plan): void {
    this.#next = { open, plan }
    if (!this.#isKeeping) void this.#work()
  }

  /** Sets aside what is kept, for something else is going to be kept in its place; where that can't be, nothing is kept over it. */
  async setAside(): Promise<void> {
    if (!(await this.store.setAside(Date.now()))) this.#mayKeep = false
  }

  async #work(): Promise<void> {
    this.#isKeeping = true
    while (this.#next !== undefined) {
      const { open, plan } = this.#next
      this.#next = undefined
      const file = open === this.#kept ? undefined : { ...open.file, choice: open.choice }
      const isKept = this.#mayKeep && (await this.store.keep(writePlan(plan), file))
      if (isKept) this.#kept = open
      this.told(isKept)
    }
    this.#isKeeping = false
  }
}
