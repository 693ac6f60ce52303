import type { Estimate } from '../chance/spread'
import { totalMass } from '../forecast/mass'
import { usedSources } from '../forecast/sources'
import { prepare } from '../forecast/prepare'
import { tallyOf } from '../forecast/tally'
import { addPack, removePack, removeSource } from '../plan/edit'
import type { Numbered } from '../plan/names'
import { most, type Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { usualRatios, type Way } from './assist'
import { bestLengths } from './best-stop'
import { chargingStops, planWithStops, type StopAt } from './stop-search'
import { sureAssist, type SureAsk } from './sure-assist'

/** What could be taken along: so many packs, with or without the carried packs that charge on the way. */
export interface LoadOut {
  packs: number
  /** Undefined where the plan has none. */
  carried: 'asWired' | 'without' | undefined
  isPlanned: boolean
  plan: Plan
}

/** What a load-out brings, with the best lengths of the plan's stops for charge and the assist that is advised for it; as ridden. */
export type LoadOutRide =
  | { code: 'belowReserve'; mass: number }
  | {
      code: 'lasts'
      /** At the start, all in all, kg. */
      mass: number
      plan: Plan
      way: Way
      stops: StopAt[]
      /** Finish, s since the start; and charge at the finish and at least on arrival anywhere, shares of all usable. */
      time: number
      left: number
      least: number
      /** That the charge stays above the reserve. */
      chance: Estimate
    }

/** Why a load-out is no choice: another, by its index, is as soon, as light and as sure, and better by something. Amounts by which it is, not below 0: s, kg, share of days. */
export interface Dominated {
  by: number
  sooner: number
  lighter: number
  surer: number
}

const fewer = 1
const more = 2

/** A pack less to two packs more, each with the carried packs that the plan uses and without. @param named what a further pack is called */
export function loadOutsOf(plan: Plan, named: Numbered): LoadOut[] {
  const now = plan.battery.packs.length
  const carried = usedSources(plan).filter(({ kind }) => kind === 'carried')
  const counts = Array.from({ length: fewer + more + 1 }, (_, k) => now - fewer + k)
  return counts
    .filter((count) => count >= 1 && count <= most.packs)
    .flatMap((packs): LoadOut[] => {
      const loaded = withPacks(plan, packs, named)
      const isPlanned = packs === now
      if (carried.length === 0) return [{ packs, carried: undefined, isPlanned, plan: loaded }]
      return [
        { packs, carried: 'asWired', isPlanned, plan: loaded },
        {
          packs,
          carried: 'without',
          isPlanned: false,
          plan: carried.reduce((one, { id }) => withoutSource(one, id), loaded),
        },
      ]
    })
}

function withPacks(plan: Plan, count: number, named: Numbered): Plan {
  let next = plan
  while (next.battery.packs.length > count) next = removePack(next, next.battery.packs.at(-1)!.id)
  while (next.battery.packs.length < count) next = addPack(next, named)
  return next
}

/** Where one only charged by it one stops no more. */
const withoutSource = (plan: Plan, id: string): Plan =>
  removeSource(
    planWithStops(
      plan,
      chargingStops(plan).filter(({ place }) => place.source !== id),
    ),
    id,
  )

/**
 * Rides a load-out with its own best lengths of stops and assist.
 *
 * @param plan of the load-out
 * @param sure share of days on which the charge is to stay above the reserve; undefined where the day as planned counts
 * @param tell takes the share done, 0 to 1
 */
export function rideLoadOut(
  route: Route,
  { plan, sure }: Pick<SureAsk, 'plan' | 'sure'>,
  tell: (share: number) => void = () => undefined,
): LoadOutRide {
  const ask: SureAsk = { plan, sure, ratios: usualRatios, aim: { for: 'soonest' } }
  const found = sureAssist(route, ask, tell, (one) => bestLengths(route, one))
  if (found.code === 'belowReserve') return { code: found.code, mass: totalMass(plan) }
  const taken = found.plan ?? found.stopped
  const { time, left, least } = tallyOf(route, taken)
  const { usable } = prepare(route, taken)
  return {
    ...{ code: 'lasts', mass: totalMass(taken), plan: taken, way: found.advice, stops: chargingStops(taken) },
    ...{ time, left: left / usable, least: least / usable, chance: found.chance },
  }
}

/** Chances that differ by less are the same, and finishes, s: choices. */
const asSure = 0.03
const asSoon = 30

/** For each load-out why it is no choice; undefined where it is one. */
export function dominatedOf(rides: readonly LoadOutRide[]): (Dominated | undefined)[] {
  return rides.map((one) => {
    if (one.code !== 'lasts') return undefined
    let best: Dominated | undefined
    rides.forEach((other, by) => {
      if (other === one || other.code !== 'lasts') return
      const [sooner, lighter, surer] = [
        one.time - other.time,
        one.mass - other.mass,
        other.chance.value - one.chance.value,
      ]
      if (sooner < -asSoon || lighter < -1e-9 || surer < -asSure) return
      if (sooner <= asSoon && lighter <= 1e-9 && surer <= asSure) return
      if (best === undefined || sooner > best.sooner)
        best = { by, sooner: Math.max(0, sooner), lighter: Math.max(0, lighter), surer: Math.max(0, surer) }
    })
    return best
  })
}
