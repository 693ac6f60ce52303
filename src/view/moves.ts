const fine = 100 // m
const coarse = 1000 // m

/**
 * How far a key moves what lies on the route, m; infinite for its ends, undefined for a key that moves nothing.
 * The same on the map and on the profile.
 */
export function movedBy(event: KeyboardEvent): number | undefined {
  if (event.ctrlKey || event.metaKey || event.altKey) return undefined
  const step = event.shiftKey ? coarse : fine
  const moves: Record<string, number> = {
    ArrowLeft: -step,
    ArrowDown: -step,
    ArrowRight: step,
    ArrowUp: step,
    PageDown: -coarse,
    PageUp: coarse,
    Home: -Infinity,
    End: Infinity,
  }
  return moves[event.key]
}

/** Whether a key removes what has the keyboard's focus. */
export const removes = ({ key, ctrlKey, metaKey, altKey }: KeyboardEvent): boolean =>
  !ctrlKey && !metaKey && !altKey && (key === 'Delete' || key === 'Backspace')
