import { coarser } from '../forecast/coarser'
import { riderParameters } from '../plan/parameters'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { bestAssist } from './assist'
import { keptBack, sureAssist, withReserve, type SureAsk, type SureProposal } from './sure-assist'

/** What is sought where the rider is to work least. */
export interface EasiestAsk extends Omit<SureAsk, 'aim'> {
  /** Latest finish, s since the start. */
  by: number
}

/** A rider tells powers apart by so much, W: a choice. */
const step = 5

/**
 * The least steady power, in steps of 5 W and not above that of the plan, with which the finish is still reached by a time with the best assist: found
 * over the road with fewer stations, then ridden over the whole.
 *
 * @param tell takes the share done, 0 to 1
 * @returns the best assist with that power in its `stopped` and `plan`; with that of the plan where not even so the time is kept
 */
export function easiestAssist(
  route: Route,
  { plan, sure, ratios, by }: EasiestAsk,
  tell: (share: number) => void = () => undefined,
): SureProposal {
  const ask: SureAsk = { plan, sure, ratios, aim: { for: 'soonest' } }
  const road = coarser(route, plan.bike)
  const kept = keptBack(route, ask, (share) => tell(0.3 * share))
  const isInTime = (power: number) => {
    const careful = withReserve(withPower(plan, power), plan.battery.reserve + kept)
    const found = bestAssist(road, { plan: careful, ratios, aim: ask.aim })
    return found.code === 'found' && found.advice.time <= by
  }
  let high = plan.rider.power
  let low = Math.max(riderParameters.power.min, step)
  // The whole number of steps below is not in time, or is the least there is; that of `high` is, or is the planned one.
  for (let k = 0; high - low > step; k++) {
    tell(0.3 + 0.08 * Math.min(k, 5))
    const middle = step * Math.round((low + high) / 2 / step)
    if (middle <= low || middle >= high) break
    if (isInTime(middle)) high = middle
    else low = middle
  }
  let found = sureAssist(route, { ...ask, plan: withPower(plan, high) }, (share) => tell(0.7 + 0.3 * share))
  // On the whole road it may be late by a little.
  if (high < plan.rider.power && (found.code !== 'found' || found.advice.time > by)) {
    high = Math.min(plan.rider.power, high + step)
    found = sureAssist(route, { ...ask, plan: withPower(plan, high) })
  }
  return found
}

const withPower = (plan: Plan, power: number): Plan => ({ ...plan, rider: { ...plan.rider, power } })
