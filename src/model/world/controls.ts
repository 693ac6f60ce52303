import type { Control } from '../plan/day-schema'
import { given, type PlaceName } from '../place-name'
import { dateAfter, instantOf } from './zone'

/** Opening and closing of a control, or the finish with its goal, as instants. */
export interface Window {
  kind: 'control' | 'goal'
  /** Id of the control; 'finish' for the goal. */
  id: string
  name: PlaceName
  /** Ridden distance, m. */
  distance: number
  /** Unix time, s; undefined where it does not open or close at a set time. */
  opens: number | undefined
  closes: number | undefined
}

/** A window with the rider's arrival. */
export interface Passage extends Window {
  /** Unix time, s. */
  arrive: number
  /** Time in hand before it closes, s; negative where it is missed, undefined where it does not close. */
  margin: number | undefined
  /** Time before it opens, s; 0 where it is open. */
  early: number
  met: boolean
}

/**
 * Controls and the goal in order of the route.
 *
 * @param controls as planned
 * @param goal time from start to finish that the rider wants, such as last year's, s; null for none
 * @param start local date and time, `YYYY-MM-DDTHH:mm`
 * @param zone tz database name
 * @param length ridden length of the route, m; a control beyond it counts at the finish
 */
export function windowsOf(
  controls: readonly Control[],
  goal: number | null,
  start: string,
  zone: string,
  length: number,
): Window[] {
  const began = instantOf(start, zone)
  const windows = controls.map((control): Window => {
    const distance = Math.min(control.distance, length)
    const instant = (limit: Control['opens']) =>
      limit === null
        ? undefined
        : limit.by === 'clock'
          ? instantOf(`${dateAfter(start.slice(0, 10), limit.day)}T${limit.time}`, zone)
          : began + distance / limit.speed
    const { id, name } = control
    return {
      kind: 'control',
      id,
      name: given(name),
      distance,
      opens: instant(control.opens),
      closes: instant(control.closes),
    }
  })
  if (goal !== null)
    windows.push({
      kind: 'goal',
      id: 'finish',
      name: { code: 'finish' },
      distance: length,
      opens: undefined,
      closes: began + goal,
    })
  return windows.sort((a, b) => a.distance - b.distance)
}

/** A window as met by a rider. @param arrive Unix time, s */
export const passageOf = (window: Window, arrive: number): Passage => {
  const margin = window.closes === undefined ? undefined : window.closes - arrive
  return {
    ...window,
    arrive,
    margin,
    early: Math.max(0, (window.opens ?? arrive) - arrive),
    met: margin === undefined || margin >= 0,
  }
}
