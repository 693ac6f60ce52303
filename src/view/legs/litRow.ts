import type { Attachment } from 'svelte/attachments'

const legOf = (target: EventTarget | null): number | undefined => {
  const row = target instanceof Element ? target.closest<HTMLElement>('[data-leg]') : null
  return row === null ? undefined : Number(row.dataset.leg)
}

/** Says which leg's row of a table body is under the pointer, has the focus or was touched last; undefined when none. */
export const litRow =
  (show: (leg: number | undefined) => void): Attachment<HTMLElement> =>
  (body) => {
    const listening = new AbortController()
    const on = (type: string, listener: (event: Event) => void) =>
      body.addEventListener(type, listener, { signal: listening.signal })
    on('pointerover', ({ target }) => show(legOf(target)))
    on('pointerleave', (event) => {
      if (event instanceof PointerEvent && event.pointerType === 'mouse') show(legOf(document.activeElement))
    })
    on('focusin', ({ target }) => show(legOf(target)))
    on('focusout', (event) => {
      if (!(event instanceof FocusEvent) || legOf(event.relatedTarget) !== undefined) return
      // A row that is taken away loses the focus while the page is being drawn, when no state may change.
      queueMicrotask(() => show(undefined))
    })
    on('click', ({ target }) => show(legOf(target)))
    on('keydown', (event) => {
      if (!(event instanceof KeyboardEvent) || (event.key !== 'ArrowDown' && event.key !== 'ArrowUp')) return
      const row = event.target instanceof Element ? event.target.closest('[data-leg]') : null
      const next = event.key === 'ArrowDown' ? row?.nextElementSibling : row?.previousElementSibling
      const button = next?.querySelector('button')
      if (!(button instanceof HTMLElement)) return
      event.preventDefault()
      button.focus()
    })
    return () => listening.abort()
  }
