import { coarser } from '../forecast/coarser'
import { usualSampling, type Sampling } from '../chance/days'
import { HowSure } from '../chance/how-sure'
import { meanOf, quantile, type Estimate } from '../chance/spread'
import type { Outcome } from '../forecast/outcome'
import { simulate } from '../forecast/simulate'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { stationNear } from '../route/nearest'
import { windowsOf } from '../world/controls'
import { instantOf, localAt } from '../world/zone'
import type { SureAsk } from './sure-assist'

/** The latest start for something that has to be reached by a time. */
export interface LatestStart {
  kind: 'sailing' | 'control'
  /** Index of the route's crossing; id of the control. */
  id: string
  distance: number
  /** When to be there at the latest, and of a sailing when it leaves, Unix time, s. */
  latest: number
  departs: number | undefined
  /** `YYYY-MM-DDTHH:mm` local; it is reached with that, and on the day as planned with none later. */
  start: string
  /** That it is reached with that start. */
  chance: Estimate
  /** How much later one is at the finish where it is missed, s; undefined for a control. */
  missed: number | undefined
  /** Whether the day as planned takes it. */
  isPlanned: boolean
}

/** Latest starts, and what a later start costs. */
export interface LatestStarts {
  starts: LatestStart[]
  /** How much later one is at the finish if one starts five minutes later than planned, s. */
  fiveLater: number
}

/** Starts that are tried: each so many seconds from the next, up to so many before and after that of the plan. Choices. */
const step = 300
const steps = 30
const sampling: Sampling = { ...usualSampling, days: 256 }
const rounds = 3
const near = 0.02

/** A plan's day with another start. @param by later, s: whole minutes */
function startingLater(plan: Plan, zone: string, by: number): Plan {
  return by === 0 ? plan : { ...plan, start: localAt(instantOf(plan.start, zone) + by, zone) }
}

const finishOf = ({ started, columns }: Outcome): number => started + columns.time.at(-1)!

/**
 * The latest start for each control that closes and each sailing that some start within two and a half hours of the plan's catches, with all else as
 * planned.
 *
 * @param route at least two stations
 * @param sure with what chance it is to be reached; undefined where the day as planned counts
 * @param tell takes the share done, 0 to 1
 */
export function latestStarts(
  route: Route,
  { plan, sure }: Pick<SureAsk, 'plan' | 'sure'>,
  tell: (share: number) => void = () => undefined,
): LatestStarts {
  const road = coarser(route, plan.bike)
  const planned = simulate(road, plan)
  const { zone } = planned
  const known = new Map<number, Outcome>()
  /** The day with a start so much later. */
  const day = (by: number): Outcome => {
    const outcome = known.get(by) ?? simulate(road, startingLater(plan, zone, by))
    known.set(by, outcome)
    return outcome
  }
  const dues = duesOf(
    road,
    plan,
    zone,
    Array.from({ length: 2 * steps + 1 }, (_, k) => day(step * (k - steps))),
  )
  tell(0.4)
  const starts = dues.flatMap((due, k): LatestStart[] => {
    tell(0.4 + (0.6 * k) / dues.length)
    const reaches = (by: number) => lateness(day(by), due) <= 0
    // Of the starts tried the last that reaches it, then by the minute.
    let by = steps * step
    while (by >= -steps * step && !reaches(by)) by -= step
    if (by < -steps * step || by === steps * step) return []
    while (reaches(by + 60)) by += 60
    const missed = due.kind === 'sailing' ? finishOf(day(by + 60)) - finishOf(day(by)) - 60 : undefined
    let sureBy = chanceAt(route, plan, zone, due, by)
    for (let round = 0; round < rounds && sure !== undefined && sureBy.chance.value < sure - near; round++)
      sureBy = chanceAt(route, plan, zone, due, sureBy.by - 60 * Math.max(1, Math.ceil(sureBy.late(sure) / 60)))
    const { kind, id, distance, latest, departs } = due
    const { start } = startingLater(plan, zone, sureBy.by)
    const isPlanned = kind === 'control' || planned.halts.some(({ sailing }) => sailing?.depart === departs)
    return [{ kind, id, distance, latest, departs, start, chance: sureBy.chance, missed, isPlanned }]
  })
  return { starts, fiveLater: finishOf(day(step)) - finishOf(planned) }
}

/** Something that is due at a place. */
interface Due extends Pick<LatestStart, 'kind' | 'id' | 'distance' | 'latest' | 'departs'> {
  /** Where, on the road with fewer stations. */
  station: number
}

/** All sailings that some of these days take, and the controls that close by the clock, in order of the route and of time. */
function duesOf(road: Route, plan: Plan, zone: string, days: readonly Outcome[]): Due[] {
  const dues = new Map<string, Due>()
  const byClock = plan.controls.filter(({ closes }) => closes?.by === 'clock')
  for (const { id, distance, closes } of windowsOf(byClock, null, plan.start, zone, road.length))
    dues.set(id, {
      kind: 'control',
      id,
      distance,
      station: stationNear(road, distance),
      latest: closes!,
      departs: undefined,
    })
  for (const { halts } of days)
    for (const { gap, distance, station, sailing } of halts) {
      if (gap === undefined || sailing?.latest === undefined) continue
      const { latest, depart } = sailing
      dues.set(`${gap} ${depart}`, { kind: 'sailing', id: String(gap), distance, station, latest, departs: depart })
    }
  return [...dues.values()].sort((a, b) => a.distance - b.distance || a.latest - b.latest)
}

/** How far after the latest one is there, s; negative before it. */
const lateness = ({ started, columns }: Outcome, { station, latest }: Due): number =>
  started + columns.time[station]! - latest

/** With what chance it is reached with another start, and how late one is, s, on all but a share of days. @param by later than planned, s */
function chanceAt(route: Route, plan: Plan, zone: string, due: Due, by: number) {
  const started = startingLater(plan, zone, by)
  const asked = { plan: started, sampling, places: [due.distance] }
  const arrive = new HowSure(route, asked).ride(0, sampling.days).arrive
  const late = arrive.map((time) => instantOf(started.start, zone) + time - due.latest).sort()
  return {
    by,
    chance: meanOf(sampling.days, sampling.replicates, (day) =>
      instantOf(started.start, zone) + arrive[day]! <= due.latest ? 1 : 0,
    ),
    late: (wanted: number) => quantile(late, wanted),
  }
}
