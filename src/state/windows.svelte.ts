import { newId } from './day'
import { Hold, type Changed, type Word } from './hold'

/** The day on screen, as windows share it. */
export interface Shared {
  /** Its id; undefined as long as a sample is as it came. */
  id(): string | undefined
  /** Ends a gesture as it is, and keeps the day. @returns whether it is kept */
  settle(): Promise<boolean>
  /** Opens it as another window left it. */
  reopen(id: string): Promise<void>
  /** Shows what another window made of it. */
  follow(word: Changed): Promise<void>
}

const answersWithin = 3000 // ms
const toldAfter = 100 // ms

/** Which window of the page works at the day on screen, and how it goes from one to another. */
export class Windows {
  /** The day on screen is another window's. */
  #isFollowing = $state(false)
  readonly #me = newId()
  readonly #hold = new Hold({
    granted: (day) => void this.#granted(day),
    lost: (day) => void this.#lost(day),
    heard: (word) => void this.#hear(word),
  })
  #whenGranted: (() => void) | undefined
  /** Until when a window that asked may take the day. */
  #handing: ReturnType<typeof setTimeout> | undefined
  #telling: ReturnType<typeof setTimeout> | undefined
  /** The day that another window has taken. */
  #taken: string | undefined

  constructor(private readonly day: Shared) {}

  /** Whether the day on screen is worked at in another window, and only shown here. */
  get isFollowing(): boolean {
    return this.#isFollowing
  }

  /** @returns whether a day is this window's; where another has it this one waits for it */
  take(day: string): Promise<boolean> {
    return this.#hold.take(day)
  }

  /** A day that was taken does not come on screen. */
  leave(day: string): void {
    this.#hold.leave(day)
  }

  /** Another day is on screen. @param isOthers whether another window works at it */
  shows(day: string | undefined, isOthers: boolean): void {
    // It may have been taken while it was read.
    this.#isFollowing = isOthers || (day !== undefined && day === this.#taken && !this.#hold.has(day))
    this.#hold.leaveAllBut(day)
    // It came while it was read, and may have changed until then.
    if (day !== undefined && isOthers && this.#hold.has(day)) void this.#granted(day)
  }

  /** Tells the others what the day on screen is now: after it is painted, and of several words the last. */
  tell(word: Omit<Changed, 'code'>): void {
    clearTimeout(this.#telling)
    this.#telling = setTimeout(() => this.#hold.tell({ code: 'changed', ...word }), toldAfter)
  }

  /** Asks the other window for the day on screen. @returns whether it is this one's from then on */
  async takeOver(): Promise<boolean> {
    const day = this.day.id()
    if (day === undefined || !this.#isFollowing) return true
    return new Promise<boolean>((resolve) => {
      this.#whenGranted = () => resolve(true)
      setTimeout(() => resolve(false), answersWithin)
      this.#hold.tell({ code: 'asked', day, by: this.#me })
    })
  }

  /** Does something to a day of the list. @returns false where another window has it */
  async alone(day: string, work: () => Promise<void>): Promise<boolean> {
    const isShown = day === this.day.id()
    try {
      if (isShown ? this.#isFollowing : !(await this.#hold.take(day))) return false
      await work()
      return true
    } finally {
      if (day !== this.day.id()) this.#hold.leave(day)
    }
  }

  async #granted(day: string): Promise<void> {
    // A day that is new here is this window's before the browser has said so.
    if (day !== this.day.id() || !this.#isFollowing) return
    this.#taken = undefined
    this.#whenGranted?.()
    await this.day.reopen(day)
  }

  /** Another window has taken the day: this one follows it, and waits behind it. */
  async #lost(day: string): Promise<void> {
    clearTimeout(this.#handing)
    this.#taken = day
    if (day !== this.day.id()) return
    this.#isFollowing = true
    if (await this.#hold.take(day)) await this.#granted(day)
  }

  async #hear(word: Word): Promise<void> {
    const { day } = word
    if (day !== this.day.id()) return
    if (word.code === 'changed' && this.#isFollowing) await this.day.follow(word)
    else if (word.code === 'asked' && !this.#isFollowing) await this.#handOver(day, word.by)
    else if (word.code === 'handed' && word.to === this.#me && this.#isFollowing && (await this.#hold.seize(day)))
      await this.#granted(day)
  }

  /** Keeps the day on screen and lets a window have it that asked for it, before others that wait for it. */
  async #handOver(day: string, to: string): Promise<void> {
    // What could not be kept would be lost on the way.
    if (!(await this.day.settle()) || this.#isFollowing) return
    this.#isFollowing = true
    this.#hold.tell({ code: 'handed', day, to })
    // Where that is gone meanwhile the day is the next one's that waits.
    clearTimeout(this.#handing)
    this.#handing = setTimeout(() => {
      if (!this.#isFollowing || !this.#hold.has(day)) return
      this.#hold.leave(day)
      void this.#lost(day)
    }, answersWithin)
  }
}
