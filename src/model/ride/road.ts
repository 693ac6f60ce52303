import type { Route } from '../route/route'
import { gravity } from './grade'
import { climbShare } from './rider'

/** What the ride asks of a route at every step, whatever the plan. One entry a station, for the step from it to the next; see `Stations`. */
export interface Road {
  lowest: number
  highest: number
  /** Gravity for the whole ride, m/s²: half-way, between the lowest and the highest place. */
  gravity: number
  /** Elevation half-way, m. */
  middle: Float64Array
  /** Along the slope, m; 0 for a crossing, which is not ridden. */
  length: Float64Array
  /** Cosine and sine of the slope's angle. */
  level: Float64Array
  rise: Float64Array
  /** See `climbShare`. */
  climb: Float64Array
  /** Sine and cosine of the heading: how much of a metre goes east and north. */
  east: Float64Array
  north: Float64Array
}

const known = new WeakMap<Route, Road>()

/** The road of a route; worked out once for each. */
export function roadOf(route: Route): Road {
  const road = known.get(route) ?? pave(route)
  known.set(route, road)
  return road
}

function pave({ stations: { distance, elevation, gradient, heading, latitude } }: Route): Road {
  const last = elevation.length - 1
  let lowest = Infinity
  let highest = -Infinity
  for (const height of elevation) {
    lowest = Math.min(lowest, height)
    highest = Math.max(highest, height)
  }
  const level = gradient.map((slope) => 1 / Math.sqrt(1 + slope * slope))
  return {
    lowest,
    highest,
    gravity: gravity(latitude[latitude.length >> 1]!, 0.5 * (lowest + highest)),
    middle: elevation.map((height, i) => 0.5 * (height + elevation[Math.min(i + 1, last)]!)),
    length: distance.map((at, i) => (i < last ? (distance[i + 1]! - at) / level[i]! : 0)),
    level,
    rise: gradient.map((slope, i) => slope * level[i]!),
    climb: gradient.map(climbShare),
    east: heading.map(Math.sin),
    north: heading.map(Math.cos),
  }
}
