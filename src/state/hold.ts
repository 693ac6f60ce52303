import type { Grounds } from './day'

/** A day as it is now; its state is checked by who hears it. */
export interface Changed {
  code: 'changed'
  day: string
  name: string | undefined
  step: unknown
  beside: unknown
  grounds?: Grounds
}

/** What windows of the page tell each other. */
export type Word =
  | Changed
  /** A window, by a number of its own, wants the day. */
  | { code: 'asked'; day: string; by: string }
  /** It is kept, and that window's to take. */
  | { code: 'handed'; day: string; to: string }

const patience = 400 // ms
const lockOf = (day: string) => `wattfare day ${day}`

/** That a day is worked at in one window at a time, by Web Locks; where the browser has none each window is alone. */
export class Hold {
  readonly #held = new Map<string, () => void>()
  readonly #waiting = new Map<string, AbortController>()
  readonly #channel: BroadcastChannel | undefined

  /** @param on what is called as it happens */
  constructor(
    private readonly on: {
      /** A day comes after all, for which this window waited. */
      granted: (day: string) => void
      /** Another window has taken a day from this one. */
      lost: (day: string) => void
      /** Another window tells something. */
      heard: (word: Word) => void
    },
  ) {
    if (!('BroadcastChannel' in globalThis)) return
    this.#channel = new BroadcastChannel('wattfare')
    this.#channel.onmessage = ({ data }) => on.heard(data as Word)
  }

  tell(word: Word): void {
    this.#channel?.postMessage(word)
  }

  /** @returns whether the day is this window's; where another has it this one waits for it */
  take(day: string): Promise<boolean> {
    return this.#request(day, false)
  }

  /** Takes a day from the window that has it, before all others that wait for it. @returns whether it could be had */
  seize(day: string): Promise<boolean> {
    return this.#request(day, true)
  }

  async #request(day: string, steal: boolean): Promise<boolean> {
    const { locks } = navigator as { locks?: LockManager }
    if (locks === undefined || this.#held.has(day)) return true
    this.#waiting.get(day)?.abort()
    const controller = new AbortController()
    this.#waiting.set(day, controller)
    return new Promise((resolve) => {
      let isLate = false
      const timer = setTimeout(() => {
        isLate = true
        resolve(false)
      }, patience)
      let own: (() => void) | undefined
      const hold = () =>
        new Promise<void>((release) => {
          own = release
          clearTimeout(timer)
          this.#waiting.delete(day)
          this.#held.set(day, release)
          if (isLate) this.on.granted(day)
          resolve(true)
        })
      locks.request(lockOf(day), steal ? { steal } : { signal: controller.signal }, hold).catch(() => {
        clearTimeout(timer)
        if (own !== undefined && this.#held.get(day) === own) {
          this.#held.delete(day)
          this.on.lost(day)
        }
        // Refused by the browser: as where it has none.
        resolve(!controller.signal.aborted)
      })
    })
  }

  has(day: string): boolean {
    return this.#held.has(day)
  }

  /** Leaves a day to others, or waits for it no more. */
  leave(day: string): void {
    this.#waiting.get(day)?.abort()
    this.#waiting.delete(day)
    this.#held.get(day)?.()
    this.#held.delete(day)
  }

  /** Leaves all days but one. */
  leaveAllBut(day: string | undefined): void {
    for (const other of [...this.#held.keys(), ...this.#waiting.keys()]) if (other !== day) this.leave(other)
  }
}
