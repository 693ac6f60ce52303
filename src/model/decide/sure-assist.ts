import { coarser } from '../forecast/coarser'
import { usualSampling, type Sampling } from '../chance/days'
import { HowSure } from '../chance/how-sure'
import { meanOf, quantile, type Estimate } from '../chance/spread'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { bestAssist, planWithWay, type AssistAsk, type AssistProposal, type NoAssist } from './assist'

/** What an assist is sought for, with the share of days on which the charge is to stay above the reserve; undefined where the day as planned counts. */
export interface SureAsk extends AssistAsk {
  sure: number | undefined
}

/** The best assist, on what share of days the advice keeps the reserve, and how much of all usable energy is lacking on one of those that are to; with the plan of its stops. */
export type SureProposal = NoAssist | (AssistProposal & { chance: Estimate; short: number; stopped: Plan })

/** Enough for a table: a standard error of about two in a hundred. A choice. */
const sampling: Sampling = { ...usualSampling, days: 256 }
const rounds = 3
/** By so much of all usable energy more is kept back at least where the chance falls short, and so near it is reached. */
const leastStep = 0.01
const near = 0.01
/** A reserve raised by more leaves no ride. */
const mostKept = 0.95

/**
 * The best assist that keeps the reserve with a stated chance: so much more is kept back on the day as planned as days fall short of it, until so many
 * do not; found over the road with fewer stations, then ridden over the whole.
 *
 * @param tell takes the share done, 0 to 1
 * @param stopsOf the plan with stops that suit its reserve; as they are where it is not given
 */
export function sureAssist(
  route: Route,
  { sure, ...ask }: SureAsk,
  tell: (share: number) => void = () => undefined,
  stopsOf: (plan: Plan) => Plan = (plan) => plan,
): SureProposal {
  if (sure === undefined) return keeping(route, { sure, ...ask }, 0, stopsOf, tell)
  const kept = keptBack(route, { sure, ...ask }, (share) => tell(0.6 * share), stopsOf)
  return keeping(route, { sure, ...ask }, kept, stopsOf, (share) => tell(0.6 + 0.4 * share))
}

/** So much more than the reserve, as a share of all usable energy, is to be kept back on the day as planned, so that the reserve is kept with a stated chance. */
export function keptBack(
  route: Route,
  ask: SureAsk,
  tell: (share: number) => void = () => undefined,
  stopsOf: (plan: Plan) => Plan = (plan) => plan,
): number {
  const { plan, sure } = ask
  const road = coarser(route, plan.bike)
  let kept = 0
  for (let round = 0; round < rounds && sure !== undefined; round++) {
    tell(round / rounds)
    const found = keeping(road, ask, kept, stopsOf)
    if (found.code !== 'found' || found.chance.value >= sure - near) break
    kept = Math.min(kept + Math.max(leastStep, found.short), mostKept - plan.battery.reserve)
  }
  return kept
}

/** The best assist with so much more than the reserve kept back on the day as planned, as a share of all usable energy. */
export function keeping(
  route: Route,
  { sure, ...ask }: SureAsk,
  kept: number,
  stopsOf: (plan: Plan) => Plan,
  tell?: (share: number) => void,
): SureProposal {
  const { reserve } = ask.plan.battery
  const plan = withReserve(stopsOf(withReserve(ask.plan, reserve + kept)), reserve + kept)
  const found = bestAssist(route, { ...ask, plan }, tell)
  if (found.code !== 'found') return found
  const stopped = withReserve(plan, reserve)
  const taken = planWithWay(stopped, found.advice)
  return { ...found, plan: taken, stopped, ...daysOf(route, taken ?? stopped, sure ?? 0) }
}

export const withReserve = (plan: Plan, reserve: number): Plan => ({ ...plan, battery: { ...plan.battery, reserve } })

/** On what share of days the charge stays above the reserve, and how much of all usable energy is lacking at the finish on all but so many. */
function daysOf(route: Route, plan: Plan, sure: number): { chance: Estimate; short: number } {
  const { reserveAt, left, usable } = new HowSure(route, { plan, sampling, places: [] }).ride(0, sampling.days)
  const lacking = left.map((energy, day) => plan.battery.reserve - energy / usable[day]!).sort()
  return {
    chance: meanOf(sampling.days, sampling.replicates, (day) => (Number.isNaN(reserveAt[day]) ? 1 : 0)),
    short: quantile(lacking, sure),
  }
}
