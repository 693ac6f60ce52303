import type { Route } from '../../model/route/route'
import type { Box } from './labels'
import { worldOf, type World } from '../../model/geo/mercator'
import { waypointSpots, type Spot } from './spots'

/** Waypoints nearer to each other than this, px, would hide the route: only the first is shown. */
const apart = 24
/** Of so many waypoints fewer are shown at a time, so that their number in any view is bounded. */
const many = 500
const apartOfMany = 60

/** The waypoints of a route file, and which of them a view of the map shows. */
export class Waypoints {
  #spots: readonly Spot[] = []
  #world: World = { x: new Float64Array(), y: new Float64Array() }
  #kept: { scale: number; numbers: readonly number[] } | undefined

  setRoute(route: Route): void {
    this.#spots = waypointSpots(route)
    const column = (key: 'latitude' | 'longitude') => Float64Array.from(this.#spots, (spot) => spot[key])
    this.#world = worldOf(column('latitude'), column('longitude'))
    this.#kept = undefined
  }

  /**
   * Those in a part of the map that don't lie on others.
   *
   * @param scale width of the world, px
   * @param part from the world's corner, px
   */
  inView(scale: number, { left, right, top, bottom }: Box): Spot[] {
    const { x, y } = this.#world
    if (this.#kept?.scale !== scale) {
      const least = this.#spots.length > many ? apartOfMany : apart
      this.#kept = { scale, numbers: thinned(this.#world, least / scale) }
    }
    return this.#kept.numbers.flatMap((i) => {
      const px = x[i]! * scale
      const py = y[i]! * scale
      return px >= left && px <= right && py >= top && py <= bottom ? [this.#spots[i]!] : []
    })
  }
}

/** Farther apart than the world has rows at any zoom. */
const cellOf = (column: number, row: number) => column * 2 ** 26 + row

/**
 * Of places those that are no nearer to an earlier one than some distance. It depends on no view, so that none comes or goes as the map is moved.
 *
 * @param apart least distance, in the unit of the columns
 * @returns numbers of the places, ascending
 */
export function thinned({ x, y }: World, apart: number): number[] {
  const cells = new Map<number, number[]>()
  const kept: number[] = []
  for (let i = 0; i < x.length; i++) {
    const [column, row] = [Math.floor(x[i]! / apart), Math.floor(y[i]! / apart)]
    let isFree = true
    for (let k = -1; k <= 1 && isFree; k++)
      for (let m = -1; m <= 1 && isFree; m++)
        isFree = !cells
          .get(cellOf(column + k, row + m))
          ?.some((other) => Math.hypot(x[other]! - x[i]!, y[other]! - y[i]!) < apart)
    if (!isFree) continue
    kept.push(i)
    const key = cellOf(column, row)
    const cell = cells.get(key)
    if (cell === undefined) cells.set(key, [i])
    else cell.push(i)
  }
  return kept
}
