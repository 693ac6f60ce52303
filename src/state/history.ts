/** A document's states in order, the present one with its number. */
export interface Timeline<T> {
  past: readonly T[]
  present: T
  future: readonly T[]
  /** Number of the present state: each step forward has one more. */
  at: number
}

/**
 * Past, present and future of a document. An edit is one step; a gesture (a drag, a run of keystrokes in one field) previews freely and becomes
 * one step when committed, or none when cancelled.
 */
export class History<T> {
  private past: T[] = []
  private future: T[] = []
  private base: T | undefined

  /** @param at number of the state it begins with */
  constructor(
    private current: T,
    private at = 0,
  ) {}

  get present(): T {
    return this.current
  }
  get canUndo(): boolean {
    return this.past.length > 0 && this.base === undefined
  }
  get canRedo(): boolean {
    return this.future.length > 0 && this.base === undefined
  }

  /** In the middle of a gesture. */
  get isUnderway(): boolean {
    return this.base !== undefined
  }

  /** As it is on screen: in a gesture as if it ended here. */
  get timeline(): Timeline<T> {
    const { past, future, base, current, at } = this
    return base === undefined
      ? { past, present: current, future: future.toReversed(), at }
      : { past: [...past, base], present: current, future: [], at: at + 1 }
  }

  /** Takes up steps of an earlier visit: those before the state it began with, and those after it where nothing was done yet. */
  recall(past: readonly T[], future: readonly T[]): void {
    if (this.past.length === 0 && this.future.length === 0 && !this.isUnderway)
      this.future.unshift(...future.toReversed())
    this.past.unshift(...past)
  }

  /** The state that a step would go to, where there is one. */
  next(way: 'undo' | 'redo'): T | undefined {
    if (way === 'undo') return this.canUndo ? this.past.at(-1) : undefined
    return this.canRedo ? this.future.at(-1) : undefined
  }

  /** One step; none if the document is the same object. Ends a gesture first. */
  edit(next: T): void {
    this.commit()
    if (next === this.current) return
    this.past.push(this.current)
    this.future = []
    this.current = next
    this.at++
  }

  /** Begins a gesture if none is going on, and shows a state of it. */
  preview(next: T): void {
    this.base ??= this.current
    this.current = next
  }

  /** Ends a gesture as one step. */
  commit(): void {
    if (this.base === undefined) return
    const next = this.current
    this.current = this.base
    this.base = undefined
    this.edit(next)
  }

  /** Ends a gesture as if it had not been; the future stays. */
  cancel(): void {
    if (this.base === undefined) return
    this.current = this.base
    this.base = undefined
  }

  /** @returns whether there was a step to go back; never in the middle of a gesture */
  undo(): boolean {
    return this.canUndo && this.step(this.past, this.future, -1)
  }

  redo(): boolean {
    return this.canRedo && this.step(this.future, this.past, 1)
  }

  private step(from: T[], to: T[], by: number): boolean {
    const next = from.pop()
    if (next === undefined) return false
    to.push(this.current)
    this.current = next
    this.at += by
    return true
  }
}
