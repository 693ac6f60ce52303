import type { Outcome } from '../forecast/outcome'
import { simulate } from '../forecast/simulate'
import { sailingBefore } from '../world/sailings'
import { instantOf, localAt } from '../world/zone'

/** A sailing that is gone a little before the rider is there. */
export interface MissedSailing {
  /** Number of the crossing among the route's. */
  gap: number
  /** Of the sailing that is gone, and of the one that is taken instead; Unix time, s. */
  missed: number
  taken: number
  /** How much too late the rider is there for it, s. */
  late: number
  /** The latest start with which it is caught, `YYYY-MM-DDTHH:mm` local. */
  leaveBy: string
}

/** A sailing that is missed by more than this is out of reach, and one that brings less is not missed much, s. Choices. */
const mostLate = 1200
const leastCost = 900
/** An earlier start meets other weather, so that it is asked again how much earlier it has to be; the wind settles that in a round or two. */
const rounds = 4

/**
 * The first sailing of the day that is missed by little, and the start that would catch it, by a forecast or two with an earlier start. Not for each
 * frame of a gesture.
 *
 * @returns undefined where none is
 */
export function missedSailing(outcome: Outcome): MissedSailing | undefined {
  for (const { gap, sailing } of outcome.halts) {
    if (gap === undefined || sailing?.latest === undefined) continue
    const missed = justGone(outcome, gap)
    if (missed === undefined) continue
    const leaveBy = startFor(outcome, gap, missed)
    if (leaveBy !== undefined) return { gap, missed: missed.depart, taken: sailing.depart, late: missed.late, leaveBy }
  }
  return undefined
}

/** A departure, Unix time, s, and by how much it is missed, s. */
export interface Gone {
  depart: number
  late: number
}

/**
 * The sailing of a crossing that is missed by little where the next one costs much; no forecast is made for it.
 *
 * @param gap number of the crossing among the route's
 * @returns undefined where none is
 */
export function justGone(outcome: Outcome, gap: number): Gone | undefined {
  const sailing = outcome.halts.find((halt) => halt.gap === gap)?.sailing
  const missed = sailing && goneBefore(outcome, gap)
  if (missed === undefined || missed.late > mostLate || sailing!.depart - missed.depart < leastCost) return undefined
  return missed
}

function goneBefore({ plan, halts, started, zone }: Outcome, gap: number): Gone | undefined {
  const { timetable } = plan.crossings[gap]!
  if (timetable.kind === 'duration') return undefined
  const there = started + halts.find((halt) => halt.gap === gap)!.arrive
  const depart = sailingBefore(timetable, there, zone)
  return depart === undefined ? undefined : { depart, late: there + timetable.boardBefore - depart }
}

/** Whole minutes earlier, until it is caught. */
function startFor({ route, plan, zone }: Outcome, gap: number, missed: Gone): string | undefined {
  const start = instantOf(plan.start, zone)
  let earlier = 0
  let late = missed.late
  for (let round = 0; round < rounds; round++) {
    earlier += 60 * Math.ceil(late / 60)
    const leaveBy = localAt(start - earlier, zone)
    const tried = simulate(route, { ...plan, start: leaveBy })
    const sailing = tried.halts.find((halt) => halt.gap === gap)?.sailing
    if (sailing !== undefined && sailing.depart <= missed.depart) return leaveBy
    const still = goneBefore(tried, gap)
    if (still === undefined) return undefined
    late = still.late
  }
  return undefined
}
