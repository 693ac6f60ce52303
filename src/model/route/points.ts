import { distance, unwrap } from '../geo/scale'
import type { Part } from './parts'
import type { CleaningCounts } from './route'

/** Points of a line in order: the one document that all steps of cleaning read and mend. */
export interface Points {
  /** Degrees; longitude continuous, so that it may pass 180. */
  latitude: Float64Array
  longitude: Float64Array
  /** m; NaN where unknown. */
  elevation: Float64Array
  /** Seconds since 1970 began; NaN where unknown. */
  time: Float64Array
  /** 1 at the first point of each part as the file has them, BROKEN where a part was broken in two, else 0. */
  starts: Uint8Array
  /** From the point before, m; 0 at the first. */
  step: Float64Array
}

/** A part begins here only because no one could have ridden up to here. */
export const BROKEN = 2

/** Nearer to each other than this, m, points are at one place: coordinates have no more digits. */
const ONE_PLACE = 0.005

/**
 * The points of all parts that have possible coordinates. A point at latitude 0, longitude 0 stands for a missing position, unless others lie
 * about there. Where each part is a single point, the parts say nothing.
 *
 * @param parts segments in ridden order
 * @param counts where impossible points are counted
 */
export function gather(parts: readonly Part[], counts: CleaningCounts): Points {
  const most = parts.reduce((sum, { latitude }) => sum + latitude.length, 0)
  const points = emptyPoints(most)
  const zeroIsReal = nearZero(parts)
  const isSplit = parts.some(({ latitude }) => latitude.length > 1)
  let n = 0
  for (const part of parts) {
    let starts = n === 0 || isSplit ? 1 : 0
    for (let i = 0; i < part.latitude.length; i++) {
      const latitude = part.latitude[i]!
      const longitude = part.longitude[i]!
      if (!(Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180)) counts.outOfRangePoints++
      else if (latitude === 0 && longitude === 0 && !zeroIsReal) counts.zeroPoints++
      else {
        points.latitude[n] = latitude
        points.longitude[n] = n === 0 ? longitude : unwrap(longitude, points.longitude[n - 1]!)
        points.elevation[n] = part.elevation[i]!
        points.time[n] = part.time[i]!
        points.starts[n] = starts
        starts = 0
        n++
      }
    }
  }
  return measureSteps(cut(points, n))
}

/** Whether the file's other points lie about latitude 0, longitude 0, so that a point there is no missing fix. */
function nearZero(parts: readonly Part[]): boolean {
  for (const { latitude, longitude } of parts) {
    for (let i = 0; i < latitude.length; i++) {
      if (latitude[i] === 0 && longitude[i] === 0) continue
      if (Math.abs(latitude[i]!) < 0.5 && Math.abs(longitude[i]!) < 0.5) return true
    }
  }
  return false
}

/** Points at the place of the one before are taken out; an elevation that only they have is kept. A part that begins so goes on from the one before. */
export function takeOutRepeated(points: Points, counts: CleaningCounts): Points {
  const { step, elevation } = points
  const drop = new Uint8Array(step.length)
  let kept = 0
  for (let i = 1; i < step.length; i++) {
    if (step[i]! < ONE_PLACE && (kept === i - 1 || stepTo(points, kept, i) < ONE_PLACE)) {
      drop[i] = 1
      points.starts[i] = 0
      counts.repeatedPoints++
      if (Number.isNaN(elevation[kept]!)) elevation[kept] = elevation[i]!
    } else kept = i
  }
  return without(points, drop)
}

function emptyPoints(n: number): Points {
  const column = () => new Float64Array(n)
  return {
    latitude: column(),
    longitude: column(),
    elevation: column(),
    time: column(),
    starts: new Uint8Array(n),
    step: column(),
  }
}

function cut(points: Points, n: number): Points {
  return {
    latitude: points.latitude.slice(0, n),
    longitude: points.longitude.slice(0, n),
    elevation: points.elevation.slice(0, n),
    time: points.time.slice(0, n),
    starts: points.starts.slice(0, n),
    step: points.step.slice(0, n),
  }
}

function measureSteps(points: Points): Points {
  for (let i = 1; i < points.step.length; i++) points.step[i] = stepTo(points, i - 1, i)
  return points
}

/** From one of the points to another, m. */
export function stepTo(points: Points, from: number, to: number): number {
  return distance(points.latitude[from]!, points.longitude[from]!, points.latitude[to]!, points.longitude[to]!)
}

/** A copy without some points; the start of a part passes on to the next point that is kept. */
export function without(points: Points, drop: Uint8Array): Points {
  const result = emptyPoints(drop.length)
  let n = 0
  let starts = 0
  for (let i = 0; i < drop.length; i++) {
    starts ||= points.starts[i]!
    if (drop[i]) continue
    result.latitude[n] = points.latitude[i]!
    result.longitude[n] = points.longitude[i]!
    result.elevation[n] = points.elevation[i]!
    result.time[n] = points.time[i]!
    result.starts[n] = starts
    result.step[n] = n === 0 ? 0 : drop[i - 1] ? stepTo(result, n - 1, n) : points.step[i]!
    starts = 0
    n++
  }
  return cut(result, n)
}
