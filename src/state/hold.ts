import type { Grounds } from './day'

/** What windows of the page tell each other. */
export type Word = { day: string } & (
  | { code: 'asked' }
  /** The day as it is now; its state is checked by who hears it. */
  | { code: 'changed'; name: string | undefined; step: unknown; beside: unknown; grounds?: Grounds }
)

const patience = 400 // ms
const lockOf = (day: string) => `wattfare day ${day}`

/** That a day is worked at in one window at a time, by Web Locks; where the browser has none each window is alone. */
export class Hold {
  readonly #held = new Map<string, () => void>()
  readonly #waiting = new Map<string, AbortController>()
  readonly #channel: BroadcastChannel | undefined

  /**
   * @param granted called when a day comes after all, for which this window waited
   * @param heard what another window tells
   */
  constructor(
    private readonly granted: (day: string) => void,
    heard: (word: Word) => void,
  ) {
    if (!('BroadcastChannel' in globalThis)) return
    this.#channel = new BroadcastChannel('wattfare')
    this.#channel.onmessage = ({ data }) => heard(data as Word)
  }

  tell(word: Word): void {
    this.#channel?.postMessage(word)
  }

  /** @returns whether the day is this window's; where another has it this one waits for it */
  async take(day: string): Promise<boolean> {
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
      const hold = () =>
        new Promise<void>((release) => {
          clearTimeout(timer)
          this.#waiting.delete(day)
          this.#held.set(day, release)
          if (isLate) this.granted(day)
          resolve(true)
        })
      locks.request(lockOf(day), { signal: controller.signal }, hold).catch(() => {
        clearTimeout(timer)
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
