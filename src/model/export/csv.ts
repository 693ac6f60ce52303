import Papa from 'papaparse'
import { formulaStart, tableForm } from './cells'
import { dateTimeAfter } from '../world/zone'
import { legNotes, type LegNote } from '../readings/leg-notes'
import type { Leg } from '../readings/legs'
import type { Outcome } from '../forecast/outcome'
import type { PlaceName } from '../place-name'
import { joulesPerWattHour } from '../units'

const rounded = (value: number, digits: number) => Number(value.toFixed(digits))

/** A row of the leg table, keyed by its columns: what they hold and in which unit is in their names. */
export type LegRow = ReturnType<typeof legRow>

/** How names and notes of legs are worded. */
export interface LegWords {
  place: (name: PlaceName) => string
  legNotes: (notes: readonly LegNote[]) => string
}

function legRow(outcome: Outcome, leg: Leg, words: LegWords) {
  const percent = (energy: number) => rounded((100 * energy) / outcome.usable, 1)
  return {
    leg: leg.number,
    from: words.place(leg.from),
    to: words.place(leg.to),
    start_km: rounded(leg.start / 1000, 3),
    end_km: rounded(leg.end / 1000, 3),
    length_km: rounded(leg.length / 1000, 3),
    ascent_m: rounded(leg.ascent, 0),
    descent_m: rounded(leg.descent, 0),
    mean_gradient_pct: rounded(100 * leg.meanGradient, 1),
    max_gradient_pct: rounded(100 * leg.steepestGradient, 1),
    riding_time_s: rounded(leg.ridingTime, 0),
    mean_speed_kmh: rounded(leg.meanSpeed * 3.6, 2),
    rider_kJ: rounded(leg.riderWork / 1000, 1),
    motor_kJ: rounded(leg.motorWork / 1000, 1),
    battery_Wh: rounded(leg.drained / joulesPerWattHour, 1),
    drain_Wh_per_km: rounded((leg.drain * 1000) / joulesPerWattHour, 2),
    charge_start_pct: percent(leg.leftAtStart),
    charge_end_pct: percent(leg.leftAtEnd),
    arrive: dateTimeAfter(outcome.plan.start, leg.arrive, outcome.zone),
    depart: dateTimeAfter(outcome.plan.start, leg.depart, outcome.zone),
    note: words.legNotes(legNotes(outcome, leg)),
  }
}

/** The leg table as rows of values. @param legs of the outcome, from `legsOf` */
export const legRows = (outcome: Outcome, legs: readonly Leg[], words: LegWords): LegRow[] =>
  legs.map((leg) => legRow(outcome, leg, words))

/**
 * The leg table as CSV by RFC 4180: header, CRLF, text that a spreadsheet would run as a formula made harmless by an apostrophe.
 *
 * @param outcome the forecast
 * @param legs its legs, from `legsOf`; at least one
 * @returns UTF-8 text without a byte order mark
 */
export const legsCsv = (outcome: Outcome, legs: readonly Leg[], words: LegWords): string =>
  Papa.unparse(legRows(outcome, legs, words), { ...tableForm, escapeFormulae: formulaStart }) + '\r\n'
