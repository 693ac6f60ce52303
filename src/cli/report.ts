import { leftAtFinish, type Outcome } from '../model/forecast/outcome'
import { legRows, type LegRow } from '../model/export/csv'
import { timesOf } from '../model/readings/facts'
import { legsOf } from '../model/readings/legs'
import { marginOf } from '../model/readings/reach'
import type { GapReason } from '../model/route/holes'
import type { ReadRoute } from '../model/route/reading'
import { joulesPerWattHour, metresPerKilometre } from '../model/units'
import { localAt } from '../model/world/zone'
import { rowWordsIn } from '../view/words/rows'
import { notesOn, type Note } from './notes'

/** A forecast as a script reads it: each number's unit is in its name, null is what does not happen or is not known. */
export interface Report {
  route: string
  zone: string
  /** Local dates and times, `YYYY-MM-DDTHH:mm`. */
  start: string
  finish: string
  length_m: number
  ascent_m: number
  descent_m: number
  /** In motion; halted, small halts included; from arriving at a crossing to riding on. Their sum is the elapsed time. */
  riding_s: number
  standing_s: number
  crossing_s: number
  elapsed_s: number
  /** Taken from inside the packs. */
  battery_Wh: number
  /** Of what is usable in all packs, after whatever is charged at the finish. */
  charge_end_pct: number
  /** Left above the reserve at the finish; negative where it is below. */
  spare_Wh: number
  reserve_km: number | null
  motor_off_km: number | null
  walked_m: number
  notes: Note[]
  crossings: CrossingReport[]
  legs: LegRow[]
}

interface CrossingReport {
  start_km: number
  length_km: number
  seconds: number
  /** Code of what speaks for it, or that the rider marked it. */
  why: GapReason['code'] | 'marked'
}

/** @param reading what the route file gave @param outcome its forecast */
export function reportOf(reading: ReadRoute, outcome: Outcome): Report {
  const { route, plan, zone, started, reserveAt, emptyAt } = outcome
  const times = timesOf(outcome)
  return {
    route: route.name,
    zone,
    start: plan.start,
    finish: localAt(started + times.elapsed, zone),
    length_m: outcome.length,
    ascent_m: route.ascent,
    descent_m: route.descent,
    riding_s: times.riding,
    standing_s: times.smallHalts + times.stopped,
    crossing_s: times.crossing,
    elapsed_s: times.elapsed,
    battery_Wh: outcome.electric.drained / joulesPerWattHour,
    charge_end_pct: (100 * leftAtFinish(outcome)) / outcome.usable,
    spare_Wh: marginOf(outcome).margin / joulesPerWattHour,
    reserve_km: reserveAt === undefined ? null : reserveAt / metresPerKilometre,
    motor_off_km: emptyAt === undefined ? null : emptyAt / metresPerKilometre,
    walked_m: outcome.walked,
    notes: notesOn(reading, outcome),
    crossings: crossingsOf(reading, outcome),
    legs: legRows(outcome, legsOf(outcome), rowWordsIn('metric')),
  }
}

function crossingsOf({ travelled, gaps }: ReadRoute, { route, halts }: Outcome): CrossingReport[] {
  const between = travelled.filter(({ place }) => place === 'between')
  return route.crossings.map(({ distance, length }, gap) => {
    const halt = halts.find((halt) => halt.gap === gap)!
    const { marked, from, to } = between[gap]!
    return {
      start_km: distance / metresPerKilometre,
      length_km: length / metresPerKilometre,
      seconds: halt.depart - halt.arrive,
      why: marked ? 'marked' : gaps.find((one) => one.from < to && one.to > from)!.why.code,
    }
  })
}

/** As JSON: numbers to six decimals, null for what is not finite. */
export const written = (report: object): string =>
  JSON.stringify(report, (_key, value: unknown) => (typeof value === 'number' ? plain(value) : value), 2) + '\n'

const plain = (value: number): number | null => (Number.isFinite(value) ? Number(value.toFixed(6)) : null)
