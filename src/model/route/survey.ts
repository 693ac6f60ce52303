import { distance } from '../geo/scale'
import type { Line } from './line'
import { FIRST_TIME } from './times'

/** A place, degrees. */
export interface Spot {
  latitude: number
  longitude: number
}

/** A line of the file at a glance. */
export interface LineSummary {
  /** Empty where the file has none. */
  name: string
  kind: Line['kind']
  points: number
  /** As in the file, without gaps between segments, m. */
  length: number
  /** First and last time, seconds since 1970 began; undefined where the file has none, or none that can be of a ride. */
  times: { first: number; last: number } | undefined
  /** At most 64 of its points from first to last, for a small picture; none where none has possible coordinates. */
  outline: Spot[]
}

const OUTLINE = 64

/** Reads a line over, without cleaning it. Points with impossible coordinates, and those at latitude 0, longitude 0, are passed by. */
export function survey({ name, kind, parts }: Line): LineSummary {
  const points = parts.reduce((sum, { latitude }) => sum + latitude.length, 0)
  const every = Math.max(1, Math.ceil(points / (OUTLINE - 2)))
  const outline: Spot[] = []
  let length = 0
  let first = NaN
  let last = NaN
  let seen = 0
  let end: Spot | undefined
  for (const part of parts) {
    let before: Spot | undefined
    for (let i = 0; i < part.latitude.length; i++) {
      const time = part.time[i]!
      if (time >= FIRST_TIME) {
        if (Number.isNaN(first)) first = time
        last = time
      }
      const latitude = part.latitude[i]!
      const longitude = part.longitude[i]!
      if (!isPlace(latitude, longitude)) continue
      if (before !== undefined) length += distance(before.latitude, before.longitude, latitude, longitude)
      end = before = { latitude, longitude }
      if (seen++ % every === 0) outline.push(end)
    }
  }
  if (end !== undefined && outline.at(-1) !== end) outline.push(end)
  return { name, kind, points, length, times: last > first ? { first, last } : undefined, outline }
}

function isPlace(latitude: number, longitude: number): boolean {
  return Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180 && (latitude !== 0 || longitude !== 0)
}
