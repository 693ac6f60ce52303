import { between, makeRandom } from './random'

/** A place on the designed profile: distance along the road and elevation, both in metres. */
export interface Knot {
  distance: number
  elevation: number
}

/** An elevation profile given by knots: it rises or falls steadily from each to the next. */
export interface Profile {
  knots: readonly Knot[]
  /** metres climbed and descended, exact: the sums over the knots */
  ascent: number
  descent: number
  elevationAt: (distance: number) => number
}

const lowestRoad = 3

/**
 * Designs a profile through given knots with exactly the ascent asked for, by adding seeded undulations between them
 * and scaling those until the ascent fits.
 *
 * @param anchors knots that stay as they are, ascending in distance
 * @param spacing mean distance between the undulations, m
 * @throws Error when the anchors alone climb more than `ascent`, or no undulation under 60 m reaches it
 */
export function design(anchors: readonly Knot[], ascent: number, spacing: number, seed: number): Profile {
  const base = profile(anchors)
  const random = makeRandom(seed, 'undulation')
  const waves = anchors.slice(1).flatMap((to, i) => {
    const from = anchors[i]!
    const count = Math.floor((to.distance - from.distance) / spacing)
    const gap = (to.distance - from.distance) / (count + 1)
    return Array.from({ length: count }, (_, k) => ({
      distance: from.distance + gap * (k + 1 + between(random, -0.2, 0.2)),
      height: between(random, -1, 1) * (gap / spacing),
    }))
  })
  const waved = (scale: number) =>
    profile(
      [
        ...anchors,
        ...waves.map(({ distance, height }) => ({
          distance,
          elevation: Math.max(lowestRoad, base.elevationAt(distance) + scale * height),
        })),
      ].sort((a, b) => a.distance - b.distance),
    )
  let [low, high] = [0, 60]
  if (base.ascent > ascent || waved(high).ascent < ascent) {
    throw new Error(`No undulation gives ${ascent} m: the anchors alone climb ${base.ascent} m.`)
  }
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2
    if (waved(middle).ascent < ascent) low = middle
    else high = middle
  }
  return waved(high)
}

/**
 * The monotone cubic through knots: no hump or hollow between two of them, no kink at one.
 *
 * @see Fritsch and Butland 1984, SIAM J. Sci. Stat. Comput. 5:300-304 (slopes by Brodlie's weighted harmonic mean)
 */
function profile(knots: readonly Knot[]): Profile {
  const rises = knots.slice(1).map((knot, i) => knot.elevation - knots[i]!.elevation)
  const widths = knots.slice(1).map((knot, i) => knot.distance - knots[i]!.distance)
  const secants = rises.map((rise, i) => rise / widths[i]!)
  const slopes = knots.map((_, i) => {
    const [before, after] = [secants[i - 1], secants[i]]
    if (before === undefined || after === undefined) return before ?? after ?? 0
    if (before * after <= 0) return 0
    const weight = (widths[i - 1]! + 2 * widths[i]!) / (3 * (widths[i - 1]! + widths[i]!))
    return (before * after) / (weight * after + (1 - weight) * before)
  })
  return {
    knots,
    ascent: rises.reduce((sum, rise) => sum + Math.max(rise, 0), 0),
    descent: rises.reduce((sum, rise) => sum + Math.max(-rise, 0), 0),
    elevationAt: (distance) => {
      const i = pieceAt(knots, distance)
      const width = widths[i]!
      const t = Math.min(1, Math.max(0, (distance - knots[i]!.distance) / width))
      return (
        knots[i]!.elevation +
        rises[i]! * t * t * (3 - 2 * t) +
        width * t * (1 - t) * (slopes[i]! * (1 - t) - slopes[i + 1]! * t)
      )
    },
  }
}

function pieceAt(knots: readonly Knot[], distance: number): number {
  let [low, high] = [0, knots.length - 2]
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (knots[middle]!.distance <= distance) low = middle
    else high = middle - 1
  }
  return low
}
