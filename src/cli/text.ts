import type { Estimate } from '../model/chance/spread'
import type { Report } from './report'
import type { StationReport } from './stations'

/** A forecast for who reads it in a terminal. @param found sentences on the file */
export function textOf(report: Report, found: readonly string[], stations?: readonly StationReport[]): string {
  const isFlat = report.notes.some(({ code }) => code === 'noElevation')
  const climbs = isFlat ? 'climbs unknown' : `${whole(report.ascent_m)} m up, ${whole(report.descent_m)} m down`
  const rows: [string, string][] = [
    ['Charge', `${isFlat ? 'on flat ground ' : ''}${chargeText(report)}`],
    ['Length', `${km(report.length_m / 1000)}, ${climbs}`],
    ['Start', `${report.start.replace('T', ' ')}, ${report.zone}`],
    ['Finish', report.finish.replace('T', ' ')],
    [
      'Time',
      `${time(report.elapsed_s)}: ${time(report.riding_s)} riding, ${time(report.standing_s)} standing, ${time(report.crossing_s)} on crossings`,
    ],
    ['Battery', `${whole(report.battery_Wh)} Wh used`],
  ]
  if (report.walked_m > 0) rows.push(['On foot', `${whole(report.walked_m)} m`])
  for (const { start_km, length_km, seconds } of report.crossings)
    rows.push(['Crossing', `${place(start_km)}, ${km(length_km)}, ${time(seconds)}`])
  for (const sentence of found) rows.push(['Note', sentence])
  const lines = [report.route, ...rows.map(([name, text]) => `  ${name.padEnd(9)} ${text}`)]
  return [...lines, ...(stations === undefined ? [] : table(stations))].join('\n') + '\n'
}

/** Whether the charge lasts. */
export function chargeText({
  charge_end_pct,
  spare_Wh,
  reserve_km,
  motor_off_km,
}: Pick<Report, 'charge_end_pct' | 'spare_Wh' | 'reserve_km' | 'motor_off_km'>): string {
  const end = `${whole(charge_end_pct)} % at the finish, ${whole(Math.abs(spare_Wh))} Wh ${spare_Wh < 0 ? 'below' : 'above'} the reserve`
  if (motor_off_km !== null) return `does not last: the motor stops at ${place(motor_off_km)}`
  return reserve_km === null ? `lasts: ${end}` : `lasts, but falls below the reserve at ${place(reserve_km)}: ${end}`
}

function table(stations: readonly StationReport[]): string[] {
  const [first] = stations
  if (first === undefined) return []
  const names = Object.keys(first) as (keyof StationReport)[]
  const rows = stations.map((station) => names.map((name) => station[name].toFixed(name === 'km' ? 3 : 1)))
  return ['', ...[names, ...rows].map((cells) => cells.map((cell) => cell.padStart(12)).join(' '))]
}

const whole = (value: number): string => value.toFixed(0)
const km = (value: number): string => `${value.toFixed(1)} km`
const place = (value: number): string => `km ${value.toFixed(1)}`

/** A share of days with its standard error. */
export const ofHundredDays = ({ value, error }: Estimate): string =>
  `in ${(100 * value).toFixed(0)} ± ${(100 * error).toFixed(1)} of 100 days`

export function time(seconds: number): string {
  const minutes = Math.round(seconds / 60)
  const hours = Math.floor(minutes / 60)
  return hours === 0 ? `${minutes} min` : `${hours} h ${String(minutes % 60).padStart(2, '0')} min`
}
