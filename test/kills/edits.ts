import { gpx, line } from '../browser/tracks'

/** What of a day is seen on the page: the route's file, and its stops by name and place, m. */
export interface Seen {
  file: string
  stops: [name: string, place: number][]
}

/** A change that the page is to make, after a pause, ms. */
export type Edit = { number: number; pause: number } & (
  | { kind: 'nudge'; key: 'ArrowLeft' | 'ArrowRight' }
  | { kind: 'rename'; name: string }
  | { kind: 'open'; file: string; text: string }
  | { kind: 'pin' }
)

/** What the page tells: that an edit begins, or that it has ended, by the machine's clock, ms, and what is seen then. */
export type Told = { number: number } & ({ began: number } | { ended: number; seen: Seen })

const pick = <T>(random: () => number, from: readonly T[]): T => from[Math.floor(random() * from.length)]!

/** The next edits for what is on screen; each depends on whether there is a stop to change. */
export function nextEdits(random: () => number, first: number, hasStop: boolean): Edit[] {
  const edits: Edit[] = []
  const count = 1 + Math.floor(6 * random())
  for (let number = first; number < first + count; number++) {
    const pause = 20 + Math.floor(100 * random())
    const kind = !hasStop ? 'pin' : pick(random, ['nudge', 'nudge', 'nudge', 'rename', 'rename', 'open'] as const)
    hasStop = kind !== 'open'
    if (kind === 'pin') edits.push({ number, pause, kind })
    else if (kind === 'nudge') edits.push({ number, pause, kind, key: pick(random, ['ArrowLeft', 'ArrowRight']) })
    else if (kind === 'rename') edits.push({ number, pause, kind, name: `Mill ${number}` })
    else {
      const points = 200 + Math.floor(300 * random())
      edits.push({ number, pause, kind, file: `ride ${number}.gpx`, text: String(gpx(line(`Ride ${number}`, points))) })
    }
  }
  return edits
}

/**
 * Whether something seen is what an edit makes of what was seen before it.
 *
 * @param before what was seen before the edit
 */
export function isMadeBy(edit: Edit, before: Seen, seen: Seen): boolean {
  const [stop] = before.stops
  const [now, ...others] = seen.stops
  if (edit.kind === 'open') return seen.file === edit.file && seen.stops.length === 0
  if (seen.file !== before.file || now === undefined || others.length > 0) return false
  if (edit.kind === 'pin') return before.stops.length === 0
  if (stop === undefined) return false
  if (edit.kind === 'rename') return now[0] === edit.name && now[1] === stop[1]
  // A step of the keyboard is 100 m, shorter where the route ends.
  const moved = edit.key === 'ArrowRight' ? now[1] - stop[1] : stop[1] - now[1]
  return now[0] === stop[0] && moved >= 0 && moved <= 101
}
