import { stepTo, without, type Points } from '../route/points'

/** Where the rider stood: from when, Unix time, and how long, s. */
export interface Stood {
  arrive: number
  time: number
}

/** A halt lasts at least so long, s. */
export const shortestHalt = 30

// All numbers below are choices; what they find is held by `test/unit/recording.test.ts`.

/** Slower than this over a window of 20 s, m/s, is standing: a receiver at rest wanders by some metres. */
const standingSpeed = 0.5
const standingWindow = 20
/** However long nothing was recorded, who stood came no farther than this, m. */
const standingReach = 28
/** A step of at least so many seconds may be ridden in part; over more metres it is a hole of the recording. */
const coarse = 8
const longestStep = 500
/** Such a step holds a halt where it is slower than this share of what lies within 90 s of it, and not on a climb, rise over run. */
const slowShare = 0.6
const about = 90
const climb = 0.03

/** The step from each point to the next. */
interface Steps {
  /** s; NaN where a time is unknown or runs backwards. */
  took: Float64Array
  /** m. */
  length: Float64Array
  /** Of the time, how much the rider stood all of it, and how much is lost against those about it, s. */
  stood: Float64Array
  lost: Float64Array
}

/**
 * Where the rider stood for at least 30 s. Where points lie close in time, that is where 20 s bring no one on; where they lie far apart, also the
 * time that a step took beyond what those about it take for its length.
 *
 * @param points cleaned, with repeated ones taken out
 * @returns halts in order; and the points with all of a halt as one, at their middle, with the time of the first
 */
export function standing(points: Points): { points: Points; halts: Stood[] } {
  const steps = stepsOf(points)
  const { took, stood, lost } = steps
  const halts: Stood[] = []
  const drop = new Uint8Array(points.time.length)
  for (let i = 0; i < took.length; i++) {
    if (stood[i]! + lost[i]! === 0) continue
    const first = i
    while (i < took.length && stood[i]! + lost[i]! > 0) i++
    const halt = haltIn(points, steps, first, i)
    if (halt === undefined) continue
    halts.push(halt)
    gatherWhole(points, drop, stood, first, i)
  }
  return { points: remeasured(without(points, drop)), halts }
}

function stepsOf(points: Points): Steps {
  const { time, step } = points
  const took = Float64Array.from({ length: Math.max(0, time.length - 1) }, (_, i) => {
    const seconds = time[i + 1]! - time[i]!
    return seconds >= 0 ? seconds : NaN
  })
  const length = step.slice(1)
  const stood = wholly(points, took)
  return { took, length, stood, lost: lostIn(took, length, stood) }
}

/** Of each step how long the rider stood, where that is all of it, s. */
function wholly(points: Points, took: Float64Array): Float64Array {
  const stood = new Float64Array(took.length)
  for (let i = 0, ahead = 0; i < took.length; i++) {
    ahead = Math.max(ahead, i + 1)
    while (ahead < took.length && points.time[ahead]! - points.time[i]! < standingWindow) ahead++
    const window = points.time[ahead]! - points.time[i]!
    if (!(window > 0) || stepTo(points, i, ahead) >= Math.min(standingSpeed * window, standingReach)) continue
    for (let k = i; k < ahead; k++) if (took[k]! > 0) stood[k] = took[k]!
  }
  return stood
}

/** Of each step how much it took beyond what those about it take for its length, where that is much, s. */
function lostIn(took: Float64Array, length: Float64Array, stood: Float64Array): Float64Array {
  const lost = new Float64Array(took.length)
  for (let i = 0; i < took.length; i++) {
    if (!(took[i]! >= coarse) || stood[i]! > 0 || length[i]! > longestStep) continue
    const speeds: number[] = []
    for (const way of [-1, 1])
      for (let k = i + way, time = 0; k >= 0 && k < took.length && time < about; k += way) {
        if (!(took[k]! > 0) || stood[k]! > 0) continue
        time += took[k]!
        speeds.push(length[k]! / took[k]!)
      }
    const usual = speeds.sort((a, b) => a - b)[speeds.length >> 1]
    if (usual !== undefined && length[i]! < slowShare * usual * took[i]!) lost[i] = took[i]! - length[i]! / usual
  }
  return lost
}

/** The halt of a run of steps, if it is one: a longer run in which no step was stood is a slow road. */
function haltIn(points: Points, { took, length, stood, lost }: Steps, first: number, end: number): Stood | undefined {
  const isWhole = stood.subarray(first, end).some((time) => time > 0)
  if (!isWhole && end - first > 2) return undefined
  let time = 0
  let arrive = NaN
  for (let i = first; i < end; i++) {
    const borders = isWhole && (stood[i - 1]! > 0 || stood[i + 1]! > 0)
    const rise = points.elevation[i + 1]! - points.elevation[i]!
    const isClimb = rise > climb * length[i]! && length[i]! > standingSpeed * took[i]!
    const counts = stood[i]! > 0 || borders || (!isWhole && !isClimb)
    if (!counts) continue
    const here = stood[i]! + lost[i]!
    if (Number.isNaN(arrive)) arrive = points.time[i]! + took[i]! - here
    time += here
  }
  return time >= shortestHalt ? { arrive, time } : undefined
}

/** Makes one point of those of each run of steps that were stood: the first, at the middle of all. */
function gatherWhole(points: Points, drop: Uint8Array, stood: Float64Array, first: number, end: number): void {
  for (let i = first; i < end; i++) {
    if (stood[i] === 0) continue
    const from = i
    while (i < end && stood[i]! > 0) i++
    for (const key of ['latitude', 'longitude', 'elevation'] as const) {
      const known = points[key].subarray(from, i + 1).filter((value) => !Number.isNaN(value))
      if (known.length > 0) points[key][from] = known.reduce((sum, value) => sum + value, 0) / known.length
    }
    drop.fill(1, from + 1, i + 1)
  }
}

/** After points were moved. */
function remeasured(points: Points): Points {
  for (let i = 1; i < points.step.length; i++) points.step[i] = stepTo(points, i - 1, i)
  return points
}
