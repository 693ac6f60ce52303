import { transferIn } from '../battery/arrangement'
import { chargeAfterStorage } from '../battery/carried'
import { packAt } from '../battery/pack'
import type { Estimate } from '../chance/spread'
import { totalMass } from '../forecast/mass'
import { arrangementOf, sourceRefusal, sourcesAlong } from '../forecast/sources'
import { prepare } from '../forecast/prepare'
import { tallyOf } from '../forecast/tally'
import { carriedParameters } from '../plan/bench-parameters'
import type { KitItem } from '../plan/day-schema'
import { addPack, removePack, removeSource } from '../plan/edit'
import { setKit } from '../plan/edit-day'
import type { Numbered } from '../plan/names'
import { most, type CarriedSource, type Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { joulesPerWattHour } from '../units'
import { ratiosOf, type Way } from './assist'
import { bestLengths, withBestStops } from './best-stop'
import { chargingStops, planWithStops, type StopAt } from './stop-search'
import { keeping, keptBack, sureAssist, withReserve, type SureAsk } from './sure-assist'

/** The blocks of a carried pack joined in another way. */
export interface Rewired {
  /** Id of the charge source. */
  source: string
  inSeries: number
  inParallel: number
}

/** What could be taken along: so many packs, with or without the carried packs that charge on the way, and the kit. */
export interface LoadOut {
  packs: number
  /** Undefined where the plan has none. */
  carried: 'asWired' | Rewired | 'without' | undefined
  /** 'withoutUnused' leaves at home all that came back unused from the last ride, `without` one thing of it, by its id. */
  kit: 'asPlanned' | 'withoutUnused' | { without: string }
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

/**
 * A pack less to two packs more, each with the carried packs that come along as they are wired, with the blocks of one joined as charges most, and
 * without; with as many packs as planned also by each other wiring that charges more, without what of the kit came back unused, and without the
 * heaviest things of it alone.
 *
 * @param named what a further pack is called
 */
export function loadOutsOf(plan: Plan, named: Numbered): LoadOut[] {
  const now = plan.battery.packs.length
  const carried = sourcesAlong(plan).filter((source) => source.kind === 'carried')
  const rewired = carried.flatMap((source) => rewiringsOf(plan, source))
  const counts = Array.from({ length: fewer + more + 1 }, (_, k) => now - fewer + k)
  return counts
    .filter((count) => count >= 1 && count <= most.packs)
    .flatMap((packs): LoadOut[] => {
      const isNow = packs === now
      const base = { packs, kit: 'asPlanned', isPlanned: false, plan: withPacks(plan, packs, named) } as const
      const asIs: LoadOut = { ...base, carried: carried.length === 0 ? undefined : 'asWired', isPlanned: isNow }
      const lighter = isNow ? kitsWithoutUnused(plan) : []
      return [
        asIs,
        ...lighter.map(({ kit, items }) => ({ ...asIs, kit, isPlanned: false, plan: leaving(asIs.plan, items) })),
        ...rewired
          .slice(0, isNow ? rewired.length : 1)
          .map((wiring) => ({ ...base, carried: wiring, plan: withWiring(base.plan, wiring) })),
        ...(carried.length === 0
          ? []
          : [
              {
                ...base,
                carried: 'without',
                plan: carried.reduce((one, { id }) => withoutSource(one, id), base.plan),
              } as const,
            ]),
      ]
    })
}

/** Of several unused things so many may each stay at home alone, if they weigh so much, kg: choices. */
const mostAlone = 2
const worthLeaving = 0.5

/** What of the kit could stay at home: all that came back unused, and of several such things the heaviest. */
function kitsWithoutUnused({ kit }: Plan): { kit: LoadOut['kit']; items: KitItem[] }[] {
  const unused = kit.filter(({ mark }) => mark === 'unused')
  if (unused.length === 0) return []
  const weighs = ({ mass, count }: KitItem) => mass * count
  const heaviest = unused.filter((item) => weighs(item) >= worthLeaving).sort((a, b) => weighs(b) - weighs(a))
  return [
    { kit: 'withoutUnused', items: unused },
    ...heaviest
      .slice(0, unused.length > 1 ? mostAlone : 0)
      .map((item) => ({ kit: { without: item.id }, items: [item] })),
  ]
}

const leaving = (plan: Plan, items: readonly KitItem[]): Plan =>
  setKit(
    plan,
    plan.kit.map((item) => (items.includes(item) ? { ...item, mark: 'stays' } : item)),
  )

/** Other wirings are compared by what they store in a stop so long, s, in a pack with so much charge: choices. */
const comparedStop = 1800
const comparedCharge = 0.2

/** Other ways to join the blocks of a carried pack that store more in half an hour than the one that is there and may charge a pack of the bike: best first. */
function rewiringsOf(plan: Plan, source: CarriedSource): Rewired[] {
  const { temperatureCelsius, packs } = plan.battery
  const { carried } = source
  const { blocksInSeries: series, blocksInParallel: parallel } = carried
  const blocks = series * parallel
  const stored = ({ inSeries, inParallel }: Omit<Rewired, 'source'>) => {
    const wired = { ...source, carried: { ...carried, blocksInSeries: inSeries, blocksInParallel: inParallel } }
    const most = packs.map((spec) => {
      if (sourceRefusal(wired, packAt(spec, temperatureCelsius)) !== undefined) return 0
      const filling = transferIn(arrangementOf(wired, spec, temperatureCelsius))
      return filling.run(chargeAfterStorage(carried), comparedCharge, { time: comparedStop }).stored
    })
    return Math.max(...most)
  }
  const least = stored({ inSeries: series, inParallel: parallel }) + leastGain
  return Array.from({ length: blocks }, (_, k) => k + 1)
    .filter(
      (inSeries) =>
        blocks % inSeries === 0 &&
        inSeries !== series &&
        isWithin(inSeries, 'blocksInSeries') &&
        isWithin(blocks / inSeries, 'blocksInParallel'),
    )
    .map((inSeries) => ({ source: source.id, inSeries, inParallel: blocks / inSeries }))
    .map((wiring) => ({ wiring, stored: stored(wiring) }))
    .filter((one) => one.stored > least)
    .sort((one, other) => other.stored - one.stored)
    .map(({ wiring }) => wiring)
}

/** Another wiring is worth its work where it stores so much more in that time, J: a choice. */
const leastGain = 5 * joulesPerWattHour

const isWithin = (count: number, key: 'blocksInSeries' | 'blocksInParallel') =>
  count >= carriedParameters[key].min && count <= carriedParameters[key].max

/** With the blocks joined anew; plus and minus are to be measured again. */
const withWiring = (plan: Plan, { source: id, inSeries, inParallel }: Rewired): Plan => ({
  ...plan,
  sources: plan.sources.map((source) =>
    source.id === id && source.kind === 'carried'
      ? {
          ...source,
          polarityMeasured: false,
          carried: { ...source.carried, blocksInSeries: inSeries, blocksInParallel: inParallel },
        }
      : source,
  ),
})

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
 * Rides a load-out with its own best stops and assist: those of the plan at their best lengths, or others where the day ends so much sooner with them.
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
  const { reserve } = plan.battery
  const ask: SureAsk = { plan, sure, ratios: ratiosOf(plan), aim: { for: 'soonest' } }
  const lengths = (one: Plan) => bestLengths(route, one)
  const kept = keptBack(route, ask, (share) => tell(0.3 * share), lengths)
  const asPlanned = keeping(route, ask, kept, lengths)
  tell(0.5)
  const stopped = withBestStops(route, withReserve(plan, reserve + kept))
  tell(0.7)
  const elsewhere =
    stopped === undefined || (asPlanned.code === 'found' && hasSamePlaces(stopped, asPlanned.stopped))
      ? asPlanned
      : sureAssist(route, { ...ask, plan: withReserve(stopped, reserve) }, (share) => tell(0.7 + 0.3 * share), lengths)
  const found =
    elsewhere.code === 'found' &&
    (asPlanned.code !== 'found' || elsewhere.advice.time < asPlanned.advice.time - worthOtherStops)
      ? elsewhere
      : asPlanned
  if (found.code === 'belowReserve') return { code: found.code, mass: totalMass(plan) }
  const taken = found.plan ?? found.stopped
  const { time, left, least } = tallyOf(route, taken)
  const { usable } = prepare(route, taken)
  return {
    ...{ code: 'lasts', mass: totalMass(taken), plan: taken, way: found.advice, stops: chargingStops(taken) },
    ...{ time, left: left / usable, least: least / usable, chance: found.chance },
  }
}

/** For less nobody stops elsewhere than planned, s: a choice. */
const worthOtherStops = 120

/** Whether two plans charge at the same places. */
function hasSamePlaces(one: Plan, other: Plan): boolean {
  const [places, others] = [one, other].map((plan) => chargingStops(plan).map(({ place }) => place))
  return (
    places!.length === others!.length &&
    places!.every(({ distance, source }, k) => distance === others![k]!.distance && source === others![k]!.source)
  )
}

/** So much later is hardly later, s: a choice. */
const hardly = 5 * 60

/** Of load-outs the lightest that is hardly later than the soonest, and a choice, by its index; -1 where none lasts. */
export function adviceOf(rides: readonly LoadOutRide[]): number {
  const times = rides.map((ride) => (ride.code === 'lasts' ? ride.time : Infinity))
  const soonest = Math.min(...times)
  if (soonest === Infinity) return -1
  const mass = (k: number) => rides[k]!.mass
  let advised = times
    .flatMap((time, k) => (time <= soonest + hardly ? [k] : []))
    .reduce((one, other) => (mass(other) < mass(one) ? other : one))
  const dominated = dominatedOf(rides)
  for (let n = 0; n < rides.length; n++) advised = dominated[advised]?.by ?? advised
  return advised
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
