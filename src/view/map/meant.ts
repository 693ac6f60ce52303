import type * as L from 'leaflet'

/** What scrolled the page over a map that was not meant. */
export type Passed = 'wheel' | 'finger'

const swipe = 24 // px

/**
 * The page scrolls over the map until the map is meant: by a press on it, and as long as the pointer stays there or, by a finger, none presses
 * elsewhere; by the control key with the wheel; or by two fingers.
 *
 * @param frame of the map, and of what stands over it
 * @param onPassed told when the page was scrolled over the map
 * @returns what ends it
 */
export function minded(map: L.Map, frame: HTMLElement, onPassed: (by: Passed) => void): () => void {
  let isMeant = false
  let from: { x: number; y: number } | undefined

  const turn = (handler: L.Handler, on: boolean) => (on ? handler.enable() : handler.disable())
  const enter = ({ pointerType }: PointerEvent) => turn(map.dragging, isMeant || pointerType === 'mouse')
  const leave = ({ pointerType }: PointerEvent) => {
    if (pointerType === 'mouse') isMeant = false
  }
  const press = (event: PointerEvent) => {
    enter(event)
    if (event.pointerType === 'mouse') isMeant = true
    else from = { x: event.clientX, y: event.clientY }
  }
  /** A finger that moves scrolls, and does not press. */
  const cancel = ({ pointerType, clientX, clientY }: PointerEvent) => {
    if (
      pointerType === 'touch' &&
      !isMeant &&
      from !== undefined &&
      Math.abs(clientY - from.y) + Math.abs(clientX - from.x) > swipe
    )
      onPassed('finger')
  }
  const click = () => {
    isMeant = true
    map.dragging.enable()
  }
  const elsewhere = ({ target }: Event) => {
    if (target instanceof Node && frame.contains(target)) return
    isMeant = false
  }
  const wheel = (event: WheelEvent) => {
    const isForMap = isMeant || event.ctrlKey || event.metaKey
    turn(map.scrollWheelZoom, isForMap)
    if (!isForMap) onPassed('wheel')
  }

  map.dragging.disable()
  map.scrollWheelZoom.disable()
  const ending = new AbortController()
  const { signal } = ending
  const first = { signal, capture: true }
  frame.addEventListener('pointerenter', enter, { signal })
  frame.addEventListener('pointerleave', leave, { signal })
  frame.addEventListener('pointerdown', press, first)
  frame.addEventListener('pointercancel', cancel, first)
  frame.addEventListener('click', click, { signal })
  frame.addEventListener('wheel', wheel, { ...first, passive: true })
  window.addEventListener('pointerdown', elsewhere, first)
  return () => ending.abort()
}
