import type { CleaningCounts, Route } from '../src/model/route/route'

export const noCounts = (): CleaningCounts => ({
  repeatedPoints: 0,
  zeroPoints: 0,
  outOfRangePoints: 0,
  jumps: 0,
  unknownElevations: 0,
  elevationSpikes: 0,
  impossibleTimes: 0,
  backwardTimes: 0,
})

export interface Course {
  length: number
  spacing?: number
  latitude?: number
  /** Elevation, m, curvature, 1/m, and heading, radians, at a distance, m. */
  elevation?: (distance: number) => number
  curvature?: (distance: number) => number
  heading?: (distance: number) => number
  /** Places, m, at which a crossing of 10 km lies. */
  crossings?: number[]
}

/** A course from the lengths, m, and gradients of its pieces. */
export const pieces = (
  ...parts: [length: number, gradient: number][]
): Course & { elevation: (d: number) => number } => ({
  length: parts.reduce((sum, [length]) => sum + length, 0),
  elevation: (d) => {
    let height = 100
    let at = 0
    for (const [length, gradient] of parts) {
      height += gradient * Math.min(length, Math.max(0, d - at))
      at += length
    }
    return height
  },
})

/** A Route made of formulas, for tests that must not depend on the reading of files. */
export function courseRoute({
  length,
  spacing = 10,
  latitude = 45,
  elevation = () => 0,
  curvature = () => 0,
  heading = () => 0,
  crossings = [],
}: Course): Route {
  const ends = [0, ...crossings, length]
  const distance: number[] = []
  const sections: Route['sections'] = []
  for (let k = 0; k + 1 < ends.length; k++) {
    const steps = Math.max(1, Math.round((ends[k + 1]! - ends[k]!) / spacing))
    const first = distance.length
    for (let i = 0; i < steps; i++) distance.push(ends[k]! + ((ends[k + 1]! - ends[k]!) * i) / steps)
    distance.push(ends[k + 1]!)
    sections.push({ first, last: distance.length - 1, firstPoint: first, lastPoint: distance.length - 1 })
  }
  const column = (f: (d: number) => number) => Float64Array.from(distance, f)
  const height = column(elevation)
  const gradient = new Float64Array(distance.length)
  let ascent = 0
  let descent = 0
  for (let i = 0; i + 1 < distance.length; i++) {
    const run = distance[i + 1]! - distance[i]!
    if (run === 0) continue
    const rise = height[i + 1]! - height[i]!
    gradient[i] = rise / run
    if (rise > 0) ascent += rise
    else descent -= rise
  }
  const at = Float64Array.from(distance)
  const latitudes = column((d) => latitude + d / 111_000)
  const longitudes = column(() => 7)
  return {
    name: 'course',
    points: { latitude: latitudes, longitude: longitudes, distance: at },
    stations: {
      distance: at,
      latitude: latitudes,
      longitude: longitudes,
      elevation: height,
      gradient,
      heading: column(heading),
      curvature: column(curvature),
    },
    sections,
    crossings: crossings.map((place, after) => ({ after, distance: place, length: 10_000, recordedTime: undefined })),
    waypoints: [],
    length,
    ascent,
    descent,
    ascentSpread: 0,
    elevationKnown: 'all',
    lacking: [],
    fromGround: 0,
    recordedTime: undefined,
    counts: noCounts(),
    smoothingWavelength: 0,
    notes: [],
  }
}
