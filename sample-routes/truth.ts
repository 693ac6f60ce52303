import { align } from './alignment'
import { geodesicLength, type LonLat, type Metres, toLonLat } from './plane'
import { design, type Knot, type Profile } from './profile'
import { makeRandom } from './random'
import type { Design, Pass } from './roads'

/** The true road of a sample route: dense points with their exact distance, elevation and bend. */
export interface Road {
  /** on the drawing board, m */
  points: Metres[]
  /** ridden distance to each point on the ellipsoid, m; the crossing adds nothing */
  distance: number[]
  /** 1/m, one per point */
  curvature: number[]
  /** index of the first point of each ridden part */
  starts: number[]
  profile: Profile
  places: { name: string; type: string; at: LonLat; distance: number; elevation: number }[]
}

/**
 * Builds the road of a design: its line, its length on the ellipsoid, its profile and its places.
 *
 * @throws Error when a ferry does not land at the elevation it left from
 */
export function build(route: Design): Road {
  const points: Metres[] = []
  const distance: number[] = []
  const curvature: number[] = []
  const starts: number[] = []
  const passed: (Pass & { index: number })[] = []
  route.parts.forEach((part, partIndex) => {
    const line = align(
      part.map(({ at, onward }) => ({ at: [at[0] * 1000, at[1] * 1000], onward: onward ?? 'open' })),
      makeRandom(route.seed, `line ${partIndex}`),
    )
    const start = points.length
    const places = line.points.map(toLonLat)
    starts.push(start)
    points.push(...line.points)
    curvature.push(...line.curvature)
    places.forEach((place, i) => {
      const before = places[i - 1]
      distance.push((distance.at(-1) ?? 0) + (before ? geodesicLength(before, place) : 0))
    })
    passed.push(...part.map((pass, i) => ({ ...pass, index: start + line.controls[i]! })))
  })
  const anchors = passed.flatMap(({ elevation, index }) =>
    elevation === undefined ? [] : [{ distance: distance[index]!, elevation }],
  )
  const profile = design(withoutCrossings(anchors), route.ascent, route.undulation, route.seed)
  const places = passed.flatMap(({ place, index }) => {
    if (!place) return []
    return [
      {
        ...place,
        at: toLonLat(points[index]!),
        distance: distance[index]!,
        elevation: profile.elevationAt(distance[index]!),
      },
    ]
  })
  return { points, distance, curvature, starts, profile, places }
}

/** One knot for both harbours of a crossing, which lie at the same ridden distance. */
function withoutCrossings(anchors: readonly Knot[]): Knot[] {
  return anchors.filter((anchor, i) => {
    const before = anchors[i - 1]
    if (before?.distance !== anchor.distance) return true
    if (before.elevation !== anchor.elevation) throw new Error('Both harbours of a crossing need the same elevation.')
    return false
  })
}

/** The steepest climb and descent, as a mean over 50 m of road, dimensionless. */
export function steepest({ distance, profile }: Road): { up: number; down: number } {
  const end = distance.at(-1)!
  const gradients = Array.from({ length: Math.floor((end - 50) / 5) }, (_, i) => {
    return (profile.elevationAt(i * 5 + 50) - profile.elevationAt(i * 5)) / 50
  })
  return { up: Math.max(...gradients), down: Math.min(...gradients) }
}
