import { placed } from '../columns'
import type { CleaningCounts } from './route'
import { LEAST_RIDDEN } from './travelled'
import { BROKEN, type Points, stepTo, without } from './points'

/** Segments farther apart than this, m, are not simply joined. */
export const JOINED = 300
/** No one rides faster, m/s; a track that does is displaced, or in a vehicle. */
const FASTEST = 40
/** Most points of a burst that is taken for an error of the receiver when the track comes back to where it was. */
const LONGEST_BURST = 10

/** How far apart the points of a file are, m. */
interface Spacing {
  median: number
  /** Nearly all steps are alike, as a receiver records them; drawn routes have long steps where the road is straight. */
  regular: boolean
  most: number
}

function spacingOf({ step, starts }: Points): Spacing {
  const inside = new Float64Array(step.length)
  let n = 0
  for (let i = 1; i < step.length; i++) if (starts[i] === 0) inside[n++] = step[i]!
  const steps = inside.subarray(0, n)
  const [half, many, most] = [0.5, 0.95, 0.99].map((share) => Math.floor(share * n)) as [number, number, number]
  const median = placed(steps, half) ?? 0
  return { median, regular: (placed(steps, many, half) ?? 0) < 3 * median, most: placed(steps, most, many) ?? 0 }
}

/** Whether no one rode from one point to another: too fast by the file's times, or too far for its spacing where it has none. */
function isBreak(points: Points, from: number, to: number, step: number, spacing: Spacing): boolean {
  const time = points.time[to]! - points.time[from]!
  const long = spacing.regular
    ? Math.max(2000, 30 * spacing.median)
    : Math.max(2000, 200 * spacing.median, 10 * spacing.most)
  if (step > long) return true
  if (time >= 0) return step > Math.max(50, 5 * spacing.median) && step > FASTEST * Math.max(time, 1)
  return spacing.regular && step > Math.max(JOINED, 30 * spacing.median)
}

/** A single point far out to one side of two that are close to each other. */
function isSpike(points: Points, i: number, spacing: Spacing): boolean {
  const far = spacing.regular ? Math.max(25, 6 * spacing.median) : Math.max(300, 30 * spacing.median)
  const before = points.step[i]!
  const after = points.step[i + 1]!
  return before >= far && after >= far && stepTo(points, i - 1, i + 1) < 0.5 * Math.min(before, after)
}

/** Displaced points that the track returns from are taken out; a displacement that lasts begins a new part. */
export function takeOutJumps(points: Points, counts: CleaningCounts): Points {
  const spacing = spacingOf(points)
  const n = points.latitude.length
  const drop = new Uint8Array(n)
  for (let i = 1; i < n - 1; i++) {
    if (!points.starts[i] && !points.starts[i + 1] && !drop[i - 1] && isSpike(points, i, spacing)) drop[i] = 1
  }
  const kept = without(points, drop)
  const runs = splitAtBreaks(kept, spacing)
  const dropRun = new Uint8Array(kept.latitude.length)
  let last = -1
  runs.forEach((run, k) => {
    const next = runs[k + 1]
    const short = run.last - run.first < LONGEST_BURST
    const before = runs[last]
    const returns =
      before !== undefined &&
      run.broken &&
      next?.broken === true &&
      !isBreak(kept, before.last, next.first, stepTo(kept, before.last, next.first), spacing)
    const strayStart = last < 0 && next?.broken === true && run.last - run.first < 3 && kept.latitude.length > 30
    const strayEnd = next === undefined && run.broken && run.last - run.first < 3 && kept.latitude.length > 30
    if (short && (returns || strayStart || strayEnd)) {
      dropRun.fill(1, run.first, run.last + 1)
      if (next !== undefined) next.broken = false
    } else {
      last = k
      if (run.broken) kept.starts[run.first] = BROKEN
    }
  })
  const result = without(kept, dropRun)
  counts.jumps += n - result.latitude.length
  return result
}

/** Runs of points without a break; `broken` says that a break, not the start of a part, lies before it. */
function splitAtBreaks(points: Points, spacing: Spacing): { first: number; last: number; broken: boolean }[] {
  const n = points.latitude.length
  const runs: { first: number; last: number; broken: boolean }[] = []
  let first = 0
  let broken = false
  for (let i = 1; i <= n; i++) {
    const breaks = i < n && !points.starts[i] && isBreak(points, i - 1, i, points.step[i]!, spacing)
    if (i < n && !points.starts[i] && !breaks) continue
    runs.push({ first, last: i - 1, broken })
    first = i
    broken = breaks
  }
  return runs
}

/** What lies between two gaps and is shorter than two stations is no stretch of road; its points are taken out. */
export function takeOutLonePoints(points: Points, counts: CleaningCounts): Points {
  const { starts, step } = points
  const n = step.length
  const drop = new Uint8Array(n)
  for (let first = 0; first < n;) {
    let last = first
    let length = 0
    // Up to where a part begins far from the end of the one before.
    while (last + 1 < n && !(starts[last + 1]! > 0 && step[last + 1]! > JOINED)) length += step[++last]!
    if (length < LEAST_RIDDEN && last - first < n - 1) drop.fill(1, first, last + 1)
    first = last + 1
  }
  const result = without(points, drop)
  counts.jumps += n - result.step.length
  return result
}
