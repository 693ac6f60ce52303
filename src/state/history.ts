/**
 * Past, present and future of a document. An edit is one step; a gesture (a drag, a run of keystrokes in one field) previews freely and becomes
 * one step when committed, or none when cancelled.
 */
export class History<T> {
  private past: T[] = []
  private future: T[] = []
  private base: T | undefined

  constructor(private current: T) {}

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

  /** One step; none if the document is the same object. Ends a gesture first. */
  edit(next: T): void {
    this.commit()
    if (next === this.current) return
    this.past.push(this.current)
    this.future = []
    this.current = next
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
    return this.canUndo && this.step(this.past, this.future)
  }

  redo(): boolean {
    return this.canRedo && this.step(this.future, this.past)
  }

  private step(from: T[], to: T[]): boolean {
    const next = from.pop()
    if (next === undefined) return false
    to.push(this.current)
    this.current = next
    return true
  }
}
