import type { Outcome } from '../forecast/outcome'
import { given, type PlaceName } from '../place-name'
import { factsOf } from './facts'
import { daySheet } from './sheet'

/** A place on the way that a ride can be ended or interrupted at. */
export interface PlaceAhead {
  name: PlaceName
  /** Ridden, m. */
  distance: number
  /** What it is: what the plan does there, or a waypoint of the file. */
  kind: 'stop' | 'crossing' | 'control' | 'finish' | 'waypoint'
}

/** Nearer than this two places are one, m, and so many are named at most. Choices. */
const apart = 1000
const most = 12

/** Stops, crossings, controls and waypoints beyond a ridden distance, m, with the finish, in order of the route; the plan's own before those of the file. */
export function placesAhead(outcome: Outcome, from: number): PlaceAhead[] {
  const planned = daySheet(outcome, factsOf(outcome)).flatMap(({ kind, name, distance }): PlaceAhead[] =>
    kind === 'start' || kind === 'swap' || kind === 'mark' ? [] : [{ kind, name, distance }],
  )
  const waypoints = outcome.route.waypoints.flatMap(({ name, distance }): PlaceAhead[] =>
    name === '' || distance === undefined ? [] : [{ kind: 'waypoint', name: given(name), distance }],
  )
  const found = planned.filter(({ distance }) => distance > from + 1)
  const finish = found.filter(({ kind }) => kind === 'finish')
  const others = found.filter(({ kind }) => kind !== 'finish').slice(0, most)
  for (const one of waypoints) {
    if (others.length >= most) break
    const isApart = [...others, ...finish].every(({ distance }) => Math.abs(distance - one.distance) >= apart)
    if (one.distance > from + 1 && isApart) others.push(one)
  }
  return [...others, ...finish].sort((a, b) => a.distance - b.distance)
}
