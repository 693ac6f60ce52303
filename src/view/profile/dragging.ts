import { metresPerPixel, type Frame } from './frame'

/** What is dragged along the profile. */
export interface Dragged {
  /** @param distance ridden, m; may lie beyond the route */
  lead(distance: number): void
  keep(): void
  cancel(): void
}

/** Drags along the profile: one at a time, ended by Escape as if it had never been. */
export class Dragging {
  #drag: { dragged: Dragged; pointer: number; startX: number; startDistance: number } | undefined

  /** @param frame of the profile as it is now */
  constructor(private readonly frame: () => Frame) {}

  get underway(): boolean {
    return this.#drag !== undefined
  }

  /** @param distance where it lies, m */
  grab(event: PointerEvent, distance: number, dragged: Dragged): void {
    if (event.button !== 0 || this.#drag !== undefined) return
    ;(event.currentTarget as HTMLElement).setPointerCapture(event.pointerId)
    this.#drag = { dragged, pointer: event.pointerId, startX: event.clientX, startDistance: distance }
  }

  move(event: PointerEvent): void {
    const drag = this.#drag
    if (drag?.pointer !== event.pointerId) return
    drag.dragged.lead(drag.startDistance + (event.clientX - drag.startX) * metresPerPixel(this.frame()))
  }

  release(event: PointerEvent, isKept: boolean): void {
    const drag = this.#drag
    if (drag?.pointer !== event.pointerId) return
    this.#drag = undefined
    if (isKept) drag.dragged.keep()
    else drag.dragged.cancel()
  }

  escape(event: KeyboardEvent): void {
    const drag = this.#drag
    if (event.key !== 'Escape' || drag === undefined) return
    event.preventDefault()
    this.#drag = undefined
    drag.dragged.cancel()
  }
}
