import type { Plan, PlanStretch } from '../plan/schema'
import { charges, chargesToShare } from '../plan/stop-goal'
import type { Route } from '../route/route'
import type { Aim } from './chain'
import { DayParts, isBetter, unopenedBy, type Chosen } from './day-parts'
import { Frontier, type AssistTable } from './frontier'
import type { AssistedRide, Ridden } from './held'
import { pricesAlong, pricesOf } from './price'
import { goodRules, placesOf, type Place } from './rule'
import { bestPair } from './simple'
import { planWithRatios } from './with-ratios'

/** What an assist is sought for, and by. */
export interface AssistAsk {
  /** Valid; what its stretches state of assist is put aside. */
  plan: Plan
  /** Ratios that the rider's display has, motor power for each watt of the rider: two or more, ascending. */
  ratios: readonly number[]
  aim: Aim
}

/** From none to three times the rider's power, by a tenth: where nothing is known of the display. A choice. */
export const usualRatios: readonly number[] = Array.from({ length: 31 }, (_, k) => k / 10)

/** Ratios that can be chosen for a plan: the steps of its display, ascending, with the motor off; the usual ones where it has none. */
export const ratiosOf = ({ steps }: Pick<Plan, 'steps'>): readonly number[] =>
  steps.length === 0 ? usualRatios : [...new Set([0, ...steps.map(({ ratio }) => ratio)])].sort((a, b) => a - b)

/** How a day went that was ridden, SI. */
export interface Went {
  /** Finish, s since the start; and of it in motion. */
  time: number
  ridingTime: number
  /** J. */
  riderWork: number
  /** Usable energy at the finish, J. */
  left: number
}

/** A way to choose the assist: one ratio; one on the flat and one on climbs; a few places; a ratio for each stretch of like terrain. */
export type Way =
  | (Went & { by: 'constant'; ratio: number })
  | (Went & { by: 'pair'; flat: number; climb: number })
  | (Went & { by: 'rule' | 'stretches'; places: Place[] })

/** A simpler way is preferred where it is within so much of the best, s, or as a share of all usable energy where charge is sought: choices. */
export const simpleWithin = 120
const simpleWithinShare = 0.02

/** The best assist for a day, and what simpler ones give. */
export interface AssistProposal {
  code: 'found'
  /** Simplest first; each that is there lasts. */
  ways: Way[]
  best: Way
  /** The simplest within `simpleWithin` of the best; where none is, of the best that a rider can keep in mind. */
  advice: Way
  /** Number of stretches of like terrain. */
  stretches: number
  /** No choice of ratios for these stretches rides in less, s, weather, fatigue and charges held; undefined where time is not what is sought. */
  bound: number | undefined
  /** What one more joule saves at the finish, s/J, in each part of the day between charges and sailings, m: 0 where there is enough. */
  prices: { start: number; end: number; price: number }[]
  /** What one more joule saves where it is spent, s/J, by place, m: 0 where the motor can't make one sooner. */
  along: { start: number; end: number; price: number }[]
  /** The plan with the assist of the advice; undefined where it would take more stretches than a plan can hold. */
  plan: Plan | undefined
}

/** No constant ratio keeps the charge above the reserve: what the least brings, which falls below it. */
export interface NoAssist {
  code: 'belowReserve'
  least: Way
}

/**
 * The best assist for a day: for each stretch of like terrain the ratio with which the finish comes soonest, or most charge is left by a time, and the
 * charge never falls below the reserve; stops, packs, swaps, tapers, sailings and controls as they are. All that is given was ridden through the forecast.
 *
 * The rider's power is as planned, so what comes soonest also costs the rider least, but for where the rider coasts.
 *
 * @param route at least two stations
 * @param tell takes the share done, 0 to 1
 */
export function bestAssist(
  route: Route,
  { plan, ratios, aim }: AssistAsk,
  tell: (share: number) => void = () => undefined,
): AssistProposal | NoAssist {
  const day = new DayParts(route, { ...plan, stretches: withoutAssist(plan) })
  const constants = constantsOf(day, ratios, aim)
  tell(0.2)
  const lasting = constants.filter(({ ridden }) => ridden.lasts)
  const constantWay = ({ ratio, ridden }: (typeof constants)[number]): Way => ({
    by: 'constant',
    ratio,
    ...wentOf(ridden),
  })
  if (lasting.length === 0) return { code: 'belowReserve', least: constantWay(constants[0]!) }
  const constant = lasting.reduce((best, one) => (isBetter(one.ridden, best.ridden, aim) ? one : best))

  const around = day.held(constant.ridden)
  const drafts = draftsOf(day, around, ratios, aim)
  const { table: plain } = drafts[0]!
  tell(0.6)

  const links = day.links(plain, around)
  // A display with steps has none between the flat's and the climb's.
  const pair = plan.steps.length === 0 ? bestPair(day, plain, links, around, aim) : undefined
  tell(0.7)
  const found: { way: Way; ridden: Ridden }[] = [{ way: constantWay(constant), ridden: constant.ridden }]
  if (pair !== undefined) {
    const { flat, climb, ridden } = pair
    found.push({ way: { by: 'pair', flat, climb, ...wentOf(ridden) }, ridden })
  }
  for (const { places, ridden } of goodRules(day, plain, links, around, ratios.indexOf(constant.ratio), aim))
    found.push({ way: { by: 'rule', places, ...wentOf(ridden) }, ridden })
  for (const { found: one } of drafts) {
    if (one === undefined) continue
    const places = placesOf(day.ends, route.stations.distance, (k) => ratios[one.choice[k]!]!)
    found.push({ way: { by: 'stretches', places, ...wentOf(one.ridden) }, ridden: one.ridden })
  }
  const best = found.reduce((one, other) => (isBetter(other.ridden, one.ridden, aim) ? other : one))
  const simple = found.filter(({ way }) => way.by !== 'stretches')
  const bestSimple = simple.reduce((one, other) => (isBetter(other.ridden, one.ridden, aim) ? other : one))
  const nearlyAs = (than: Ridden) => simple.find(({ ridden }) => isNearly(ridden, than, aim, day.planned.usable))
  const { way: advice } = nearlyAs(best.ridden) ?? nearlyAs(bestSimple.ridden)!
  const { distance } = route.stations
  const ofBest = day.held(best.ridden)
  const { table, held } = truest(draftsWith(drafts, unopenedBy(ofBest)))
  const ofTable = day.links(table, held)
  const prices = pricesOf(day, ofTable, ofBest)
  return {
    code: 'found',
    // By stretches only where nothing simpler is as good.
    ways: found.filter(({ way, ridden }) => way.by !== 'stretches' || ridden === best.ridden).map(({ way }) => way),
    best: best.way,
    advice,
    stretches: day.stretches,
    bound: aim.for === 'soonest' ? boundOf(day, drafts, ofBest) : undefined,
    prices: prices.map((price, s) => ({
      start: distance[day.ends[day.parts[s]!]!]!,
      end: distance[day.ends[day.parts[s + 1]!]!]!,
      price,
    })),
    along: pricesAlong(day, table, ofTable, prices, ofBest),
    plan: planWithWay(plan, advice),
  }
}

/** A table is made anew around what the one before it found, until what it foretells is off by a smaller share of the time, or so many were made. */
const trueEnough = 0.0005
const mostTables = 6

/** A table around a ride, and what is best by it; undefined where none of it lasts. */
interface Draft {
  /** So many of the last packs stay as they are. */
  unopened: number
  held: AssistedRide
  table: AssistTable
  found: Chosen | undefined
}

/** The best by tables around rides, the first around one ratio: with all packs, and with fewer where a table says that the swap that is saved may be worth it. */
function draftsOf(day: DayParts, around: AssistedRide, ratios: readonly number[], aim: Aim): Draft[] {
  const drafts = draftsFrom(day, around, ratios, aim, 0)
  if (aim.for !== 'soonest') return drafts
  const { table, held, found } = truest(drafts)
  const all = leastTime(day, table, held, 0)
  for (let unopened = 1; unopened <= day.mostUnopened; unopened++)
    if (leastTime(day, table, held, unopened) < all)
      drafts.push(...draftsFrom(day, found?.ridden ?? held, ratios, aim, unopened))
  return drafts
}

/**
 * Tables each around what the one before it found: near the end of a pack, where its voltage leaves the motor less, a table is off as soon as the end is
 * elsewhere.
 */
function draftsFrom(
  day: DayParts,
  around: AssistedRide,
  ratios: readonly number[],
  aim: Aim,
  unopened: number,
): Draft[] {
  const drafts: Draft[] = []
  for (let held = around; drafts.length < mostTables;) {
    const made = day.table(held, ratios)
    const table = drafts.length < 2 ? made : meanOf(drafts.at(-1)!.table, made)
    const found = day.best(table, held, aim, unopened)
    drafts.push({ unopened, held, table, found })
    if (found === undefined || (drafts.length > 1 && found.astray <= trueEnough * found.ridden.ridingTime)) break
    held = found.ridden
  }
  return drafts
}

/** Between two tables, so that one that is off the other way than that before it brings no swinging to and fro. */
const meanOf = (one: AssistTable, other: AssistTable): AssistTable => ({
  ratios: one.ratios,
  time: one.time.map((time, k) => (time + other.time[k]!) / 2),
  energy: one.energy.map((energy, k) => (energy + other.energy[k]!) / 2),
})

/** The table that was off least. */
const truest = (drafts: readonly Draft[]): Draft =>
  drafts.reduce((one, other) => ((other.found?.astray ?? Infinity) < (one.found?.astray ?? Infinity) ? other : one))

/** Drafts with so many packs unopened; where there are none, all. */
function draftsWith(drafts: readonly Draft[], unopened: number): readonly Draft[] {
  const some = drafts.filter((draft) => draft.unopened === unopened)
  return some.length > 0 ? some : drafts
}

/** So many ratios below the best are no better before it is left at that. */
const lookedBelow = 3

/**
 * Rides at one ratio, among which is the best, ascending. More assist takes more charge and brings one there sooner, also past sailings, unless a stop's
 * length depends on the charge or most charge is sought: then all are ridden.
 */
function constantsOf(day: DayParts, ratios: readonly number[], aim: Aim): { ratio: number; ridden: Ridden }[] {
  const known = new Map<number, Ridden>()
  const at = (k: number): Ridden => {
    const ridden = known.get(k) ?? day.rideAt(ratios[k]!)
    known.set(k, ridden)
    return ridden
  }
  const { plan } = day
  if (aim.for === 'soonest' && !plan.stops.some((stop) => charges(plan, stop) && chargesToShare(stop))) {
    let lasts = -1
    let fails = ratios.length
    while (fails - lasts > 1) {
      const middle = (lasts + fails) >> 1
      if (at(middle).lasts) lasts = middle
      else fails = middle
    }
    for (let k = lasts - 1, best = lasts; k >= 0 && best - k <= lookedBelow; k--)
      if (at(k).lasts && at(k).time <= at(best).time) best = k
  }
  if (![...known.values()].some(({ lasts }) => lasts)) ratios.forEach((_, k) => at(k))
  return [...known].sort(([a], [b]) => a - b).map(([k, ridden]) => ({ ratio: ratios[k]!, ridden }))
}

const wentOf = ({ time, ridingTime, riderWork, left }: Ridden): Went => ({ time, ridingTime, riderWork, left })

/**
 * Least time that any choice of ratios takes for riding and swaps, s: with all that a ride had, what it set out with and was charged.
 *
 * @param unopened so many of the last packs stay as they are
 */
function leastTime(day: DayParts, table: AssistTable, ridden: AssistedRide, unopened: number): number {
  let energy = ridden.leftOnLeaving[0]! - day.floor(ridden, unopened)
  for (let e = 1; e < day.stretches; e++) energy += ridden.leftOnLeaving[e]! - ridden.leftOnArrival[e]!
  return new Frontier(table, 0, day.stretches).time(energy) - unopened * day.plan.battery.swapTime
}

/**
 * Least riding time, were there as many swaps as on a ride. Where that is more than the ride took, the table is off by so much at least: then the
 * bound is as far below, or by what the table was off when its best was ridden; or it is by a table around that ride, whichever is closer.
 */
function boundOf(day: DayParts, drafts: readonly Draft[], ridden: AssistedRide): number {
  const saved = unopenedBy(ridden) * day.plan.battery.swapTime
  let bound = Infinity
  let astray = 0
  for (let unopened = 0; unopened <= day.mostUnopened; unopened++) {
    const { table, found } = truest(draftsWith(drafts, unopened))
    const least = leastTime(day, table, ridden, unopened) + saved
    if (least >= bound) continue
    bound = least
    astray = found?.astray ?? 0
  }
  const above = bound - ridden.ridingTime
  if (above < 0) return bound
  const own = leastTime(day, day.table(ridden, drafts[0]!.table.ratios), ridden, unopenedBy(ridden)) + saved
  return Math.min(ridden.ridingTime, Math.max(own, ridden.ridingTime - Math.max(above, astray)))
}

/** Whether a ride is as good as the best for who likes it simple. */
function isNearly(one: Ridden, best: Ridden, aim: Aim, usable: number): boolean {
  if (aim.for === 'soonest' || best.time > aim.by) return one.time <= best.time + simpleWithin
  return one.time <= aim.by && one.left >= best.left - simpleWithinShare * usable
}

const isOfAssist = ({ name, surface, shelter, speedLimit, assistRatio }: PlanStretch): boolean =>
  assistRatio !== null && name === '' && surface === null && shelter === null && speedLimit === null

const withoutAssist = ({ stretches }: Plan): PlanStretch[] =>
  stretches.map((stretch) => ({ ...stretch, assistRatio: null }))

/** The plan with its assist chosen in a way; undefined where it would take more stretches than a plan can hold. */
export function planWithWay(plan: Plan, way: Way): Plan | undefined {
  const places = way.by === 'rule' || way.by === 'stretches' ? way.places : []
  const constant = way.by === 'constant' ? { ratio: way.ratio, climbRatio: way.ratio } : undefined
  const blended = way.by === 'pair' ? { ratio: way.flat, climbRatio: way.climb } : constant
  if (blended === undefined) return planWithRatios({ ...plan, stretches: withoutAssist(plan) }, places)
  // Of a stretch that was there for its assist alone nothing is left.
  const stretches = plan.stretches.flatMap((stretch) =>
    isOfAssist(stretch) ? [] : [{ ...stretch, assistRatio: null }],
  )
  return { ...plan, stretches, assist: { ...plan.assist, ...blended } }
}
