import Papa from 'papaparse'
import { dateTimeAfter } from '../world/zone'
import type { Leg } from '../readings/legs'
import type { Outcome } from '../forecast/outcome'
import { joulesPerWattHour } from '../units'
import { legNote } from './note'

const columns = [
  'leg',
  'from',
  'to',
  'start_km',
  'end_km',
  'length_km',
  'ascent_m',
  'descent_m',
  'mean_gradient_pct',
  'max_gradient_pct',
  'riding_time_s',
  'mean_speed_kmh',
  'rider_kJ',
  'motor_kJ',
  'battery_Wh',
  'drain_Wh_per_km',
  'charge_start_pct',
  'charge_end_pct',
  'arrive',
  'depart',
  'note',
]

const rounded = (value: number, digits: number) => Number(value.toFixed(digits))

/**
 * The leg table as CSV by RFC 4180: header, CRLF, text that a spreadsheet would run as a formula made harmless by an apostrophe.
 *
 * @param outcome the forecast
 * @param legs its legs, from `legsOf`
 * @returns UTF-8 text without a byte order mark
 */
export function legsCsv(outcome: Outcome, legs: readonly Leg[]): string {
  const percent = (energy: number) => rounded((100 * energy) / outcome.usable, 1)
  const data = legs.map((leg) => [
    leg.number,
    leg.from,
    leg.to,
    rounded(leg.start / 1000, 3),
    rounded(leg.end / 1000, 3),
    rounded(leg.length / 1000, 3),
    rounded(leg.ascent, 0),
    rounded(leg.descent, 0),
    rounded(100 * leg.meanGradient, 1),
    rounded(100 * leg.steepestGradient, 1),
    rounded(leg.ridingTime, 0),
    rounded(leg.meanSpeed * 3.6, 2),
    rounded(leg.riderWork / 1000, 1),
    rounded(leg.motorWork / 1000, 1),
    rounded(leg.drained / joulesPerWattHour, 1),
    rounded((leg.drain * 1000) / joulesPerWattHour, 2),
    percent(leg.leftAtStart),
    percent(leg.leftAtEnd),
    dateTimeAfter(outcome.plan.start, leg.arrive, outcome.zone),
    dateTimeAfter(outcome.plan.start, leg.depart, outcome.zone),
    legNote(outcome, leg),
  ])
  return Papa.unparse({ fields: columns, data }, { newline: '\r\n', escapeFormulae: true }) + '\r\n'
}
