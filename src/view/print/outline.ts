import { interpolate } from '../../model/columns'
import type { Route } from '../../model/route/route'

const samples = 400

/** The profile as an SVG path in a box of 1000 by 100, its foot at the bottom. */
export function outlinePath({ stations, length }: Route): string {
  const heights = Array.from({ length: samples + 1 }, (_, k) =>
    interpolate(stations.distance, stations.elevation, (k * length) / samples),
  )
  const low = Math.min(...heights)
  const span = Math.max(50, Math.max(...heights) - low)
  const points = heights.map(
    (height, k) => `${((1000 * k) / samples).toFixed(1)} ${(98 - (90 * (height - low)) / span).toFixed(1)}`,
  )
  return `M 0 100 L ${points.join(' L ')} L 1000 100 Z`
}
