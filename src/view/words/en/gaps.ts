import type { ProposedGap } from '../../../model/route/clean'
import type { GapReason } from '../../../model/route/holes'
import type { MarkFault } from '../../../model/route/travelled'
import type { Format } from '../../format'
import { worded } from '../worded'
import { nothingRidden } from './route'

/** Of the gaps of a track and the parts that are marked as travelled. */
export const gapsIn = ({ distance, duration, place, shortDistance, speed }: Format) => {
  /** Why a gap is taken as a crossing, or as ridden. */
  const gapReason = worded<GapReason>({
    tooFast: ({ speed: v }) => `nobody rides ${speed(v)} there`,
    silent: ({ time }) => `nothing was recorded for ${duration(time)}`,
    travelled: ({ kind, speed: v }) =>
      kind === 'level'
        ? `all about it went at a steady ${speed(v)} on level water`
        : `all about it went at ${speed(v)}, faster than a rider can go there`,
    brokenOff: () => 'the file breaks off and goes on there, and has no times to tell',
    rideable: ({ speed: v }) => `a rider can go ${speed(v)}`,
    drawn: () => 'the file draws a line there, and has no times to tell',
  })

  return {
    /** A gap of the track, and why it is taken as a crossing or as ridden. */
    gap: ({ distance: at, from, to, recordedTime, why, isCrossing, ridden }: ProposedGap) => {
      const recorded = recordedTime === undefined ? '' : `, ${duration(recordedTime)} in the recording`
      const gap = `${place(at)}: a gap of ${distance(to - from)}${recorded}`
      if (isCrossing && ridden) return `${gap}; ridden, as you said.`
      return `${gap}, ${ridden ? 'counted as ridden straight' : 'taken as a crossing'}: ${gapReason(why)}.`
    },
    /** Why a part can't be marked as travelled. */
    markFault: worded<MarkFault>({
      backward: () => 'The part must end after it begins.',
      tooShort: ({ least }) => `The part must be at least ${shortDistance(least)} long.`,
      nothingRidden: () => nothingRidden,
    }),
  }
}
