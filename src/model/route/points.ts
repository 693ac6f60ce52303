import { distance } from '../geo/scale'

/** Points of one file in order. */
export interface Points {
  latitude: Float64Array
  longitude: Float64Array
  elevation: Float64Array
  time: Float64Array
  /** 1 at the first point of each part. */
  starts: Uint8Array
  /** From the point before, m; 0 at the first. */
  step: Float64Array
}

export function emptyPoints(n: number): Points {
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

export function cut(points: Points, n: number): Points {
  return {
    latitude: points.latitude.slice(0, n),
    longitude: points.longitude.slice(0, n),
    elevation: points.elevation.slice(0, n),
    time: points.time.slice(0, n),
    starts: points.starts.slice(0, n),
    step: points.step.slice(0, n),
  }
}

export function measureSteps(points: Points): Points {
  for (let i = 1; i < points.step.length; i++) points.step[i] = stepTo(points, i - 1, i)
  return points
}

export function stepTo(points: Points, from: number, to: number): number {
  return distance(points.latitude[from]!, points.longitude[from]!, points.latitude[to]!, points.longitude[to]!)
}

/** A copy without some points; the start of a part passes on to the next point that is kept. */
export function without(points: Points, drop: Uint8Array): Points {
  if (!drop.includes(1)) return points
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
    starts = 0
    n++
  }
  return measureSteps(cut(result, n))
}
