import type { Points } from './points'
import type { CleaningCounts } from './route'

/** No receiver of satellites had a time before this: 6 January 1980, when GPS time begins (IS-GPS-200). */
export const FIRST_TIME = 315_964_800
/** Times by which one went faster than this, m/s, most of the way are no times of a ride: 90 km/h. A choice. */
const FASTEST_RIDE = 25
const STEPS_OF_A_RUN = 10
/** A ride is over within this, s: 30 days. A choice. */
export const LONGEST_RIDE = 30 * 86_400

/**
 * Times that can't be a ride's become unknown: those before there were satellites to tell them, and all of them where most of the way
 * would have been faster than anyone rides, as where all times are one.
 *
 * @param counts where they are counted
 */
export function takeOutImpossibleTimes(points: Points, counts: CleaningCounts): Points {
  const { time } = points
  for (let i = 0; i < time.length; i++) {
    if (!(time[i]! < FIRST_TIME)) continue
    time[i] = NaN
    counts.impossibleTimes++
  }
  if (isTooFast(points)) {
    counts.impossibleTimes += time.reduce((sum, t) => sum + (Number.isNaN(t) ? 0 : 1), 0)
    time.fill(NaN)
  }
  return points
}

/** Whether most runs of ten steps went too fast; few do where single points are displaced. */
function isTooFast({ time, step, starts }: Points): boolean {
  let runs = 0
  let fast = 0
  let way = 0
  let seconds = 0
  let steps = 0
  for (let i = 1; i <= time.length; i++) {
    const took = i < time.length && starts[i] === 0 ? time[i]! - time[i - 1]! : NaN
    if (took >= 0) {
      way += step[i]!
      seconds += took
      steps++
    }
    if (steps === 0 || (took >= 0 && steps < STEPS_OF_A_RUN)) continue
    runs++
    if (way > FASTEST_RIDE * seconds) fast++
    way = seconds = steps = 0
  }
  return fast > runs / 2
}

/**
 * Times that run backwards are taken out: a single wrong one becomes unknown, a clock that was set back and goes on is left from there.
 *
 * @param counts where the places are counted
 */
export function mendTimes(points: Points, counts: CleaningCounts): Points {
  const { time } = points
  // Of those that are known; beyond either end there is none, and no comparison holds.
  let last = -1
  let beforeLast = -1
  for (let i = 0; i < time.length; i++) {
    if (Number.isNaN(time[i]!)) continue
    if (time[i]! < time[last]!) {
      counts.backwardTimes++
      let next = i + 1
      while (Number.isNaN(time[next])) next++
      const goesOn = time[next]! >= time[i]! && time[next]! < time[last]!
      if (!goesOn) {
        time[i] = NaN
        continue
      }
      // Either the one before was too late, or the clock was set back for good.
      if (time[beforeLast]! <= time[i]!) time[last] = NaN
    }
    beforeLast = last
    last = i
  }
  return points
}

/** Seconds from the first to the last time, as recorded; or, where they are too far apart to be one ride, how far. */
export function totalTime(time: Float64Array): { recordedTime: number | undefined; timesApart: number | undefined } {
  const known = time.filter((t) => !Number.isNaN(t))
  const total = (known.at(-1) ?? NaN) - (known[0] ?? NaN)
  return {
    recordedTime: total > 0 && total <= LONGEST_RIDE ? total : undefined,
    timesApart: total > LONGEST_RIDE ? total : undefined,
  }
}
