const focusable = ['a[href]', 'button', 'input', 'select', 'textarea', 'summary', '[tabindex]'].join()
const isFit = (one: HTMLElement) => !one.matches(':disabled') && one.checkVisibility({ visibilityProperty: true })

/** What can have the focus in a node and its neighbours, the nearest first: those after it, or those before it. */
function* beside(node: Node | null, step: 'nextSibling' | 'previousSibling'): Generator<HTMLElement> {
  for (let at = node; at !== null; at = at[step]) {
    if (!(at instanceof HTMLElement)) continue
    const inside = [...at.querySelectorAll<HTMLElement>(focusable)]
    const all = at.matches(focusable) ? [at, ...inside] : inside
    yield* (step === 'nextSibling' ? all : all.reverse()).filter(isFit)
  }
}

/** What comes next where something was, or else what came before it, in the nearest part that holds anything. */
function nearest(parent: Node, next: Node | null, previous: Node | null): HTMLElement | undefined {
  const there = beside(next, 'nextSibling').next().value ?? beside(previous, 'previousSibling').next().value
  return (
    there ??
    (parent.parentNode === null ? undefined : nearest(parent.parentNode, parent.nextSibling, parent.previousSibling))
  )
}

/**
 * Leads the keyboard on where what it is at is taken away or switched off, unless it is led elsewhere by then. Who points is not led:
 * on a phone a field would bring up its keys.
 */
export function followFocus(): void {
  let at: HTMLElement | undefined
  document.addEventListener('focusin', ({ target }) => {
    at = target instanceof HTMLElement && target.matches(':focus-visible') ? target : undefined
  })
  new MutationObserver((changes) => {
    const had = at
    if (had === undefined) return
    const change = changes.findLast(
      ({ type, target, removedNodes }) =>
        target.isConnected &&
        (type === 'attributes' ? target === had : [...removedNodes].some((gone) => gone.contains(had))),
    )
    if (change === undefined) return
    requestAnimationFrame(() => {
      const { target, nextSibling, previousSibling, type } = change
      if (had.isConnected && !had.matches(':disabled')) return
      if (document.activeElement !== document.body && document.activeElement !== had) return
      if (type === 'attributes') nearest(target.parentNode!, target.nextSibling, target.previousSibling)?.focus()
      else nearest(target, nextSibling, previousSibling)?.focus()
    })
  }).observe(document.body, { subtree: true, childList: true, attributeFilter: ['disabled'] })
}
