import { type Ground, heightAt, type Lacking, pixelWidth } from './ground'
import type { Ridden } from './ridden'

/** Elevations along what is ridden, each at its own distance: those of the file's points, and of the ground where it has none. */
export interface Heights {
  /** Ridden distance, m. */
  distance: Float64Array
  /** m; NaN where unknown. */
  elevation: Float64Array
  /** First and last of each ridden stretch, inclusive. */
  stretches: { first: number; last: number }[]
}

/** Shorter pieces without elevation, m, are drawn straight: no terrain model knows better. A choice. */
const SHORT = 100
/** Heights are taken no closer together than this, m: stations are no closer. */
const CLOSEST = 10

/** The pieces of what is ridden on which a file has no elevation, longer than 100 m. */
export function lackingIn({ elevation, distance, stretches }: Omit<Ridden, 'time'>): Lacking[] {
  const pieces: Lacking[] = []
  for (const { first, last } of stretches)
    for (let i = first; i <= last; i++) {
      if (!Number.isNaN(elevation[i]!)) continue
      const from = Math.max(i - 1, first)
      while (i < last && Number.isNaN(elevation[i]!)) i++
      if (distance[i]! - distance[from]! > SHORT) pieces.push({ first: from, last: i })
    }
  return pieces
}

/**
 * Elevations of a file with those of the ground in its pieces without, taken about every pixel. There the ground is raised or lowered to meet the
 * elevations at both ends, evenly in between, so that no step stands where a barometer and a terrain model differ (the delta surface of Grohman,
 * Kroenung and Strebeck 2006, Photogrammetric Engineering and Remote Sensing 72:213-216, along a line).
 *
 * @param ridden points, their elevation NaN where unknown
 * @param pieces as `lackingIn` gives them
 * @returns the elevations, and on how much of the way they are the ground's, m
 */
export function fillFromGround(
  { latitude, longitude, elevation, distance, stretches }: Omit<Ridden, 'time'>,
  pieces: readonly Lacking[],
  ground: Ground,
): Heights & { fromGround: number } {
  const at: number[] = []
  const heights: number[] = []
  const filled: Heights['stretches'] = []
  let fromGround = 0
  let next = 0

  /** By how much the elevation of a point differs from the ground; NaN where either is unknown. */
  const offset = (point: number) => elevation[point]! - heightAt(ground, latitude[point]!, longitude[point]!)

  const fill = ({ first, last }: Lacking) => {
    const [start, end] = [distance[first]!, distance[last]!]
    const width = Math.max(CLOSEST, pixelWidth(ground.across, latitude[first]!))
    const steps = Math.max(1, Math.round((end - start) / width))
    const [before, after] = [offset(first), offset(last)]
    const shift = (share: number) => {
      if (Number.isNaN(before)) return Number.isNaN(after) ? 0 : after
      return Number.isNaN(after) ? before : before * (1 - share) + after * share
    }
    let [asked, known] = [0, 0]
    let point = first
    for (let k = 0; k <= steps; k++) {
      const isEnd = k === 0 || k === steps
      // Points of the file stand for themselves.
      if (isEnd && !Number.isNaN(elevation[k === 0 ? first : last]!)) continue
      const place = k === steps ? end : start + ((end - start) * k) / steps
      while (point < last - 1 && distance[point + 1]! < place) point++
      const step = distance[point + 1]! - distance[point]!
      const share = step > 0 ? (place - distance[point]!) / step : 0
      const height = heightAt(
        ground,
        latitude[point]! * (1 - share) + latitude[point + 1]! * share,
        longitude[point]! * (1 - share) + longitude[point + 1]! * share,
      )
      asked++
      if (!Number.isNaN(height)) known++
      at.push(place)
      heights.push(height + shift(k / steps))
    }
    if (known > 0) fromGround += ((end - start) * known) / asked
  }

  for (const stretch of stretches) {
    const first = at.length
    for (let i = stretch.first; i <= stretch.last;) {
      const piece = pieces[next]
      const isPiece = piece?.first === i
      if (!isPiece || !Number.isNaN(elevation[i]!)) {
        at.push(distance[i]!)
        heights.push(elevation[i]!)
      }
      i++
      if (!isPiece) continue
      fill(piece)
      next++
      // A last point with an elevation stands for itself, and may begin another piece.
      i = Number.isNaN(elevation[piece.last]!) ? piece.last + 1 : piece.last
    }
    filled.push({ first, last: at.length - 1 })
  }
  return { distance: Float64Array.from(at), elevation: Float64Array.from(heights), stretches: filled, fromGround }
}
