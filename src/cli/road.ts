import { restOfDay } from '../model/studies/rest-of-day'
import { joulesPerWattHour, metresPerKilometre } from '../model/units'
import { instantOf, localAt, nearestClock, zoneOfRoute } from '../model/world/zone'
import { Fault, numberOf, planHelp, readArguments, type Door } from './arguments'
import { openAsked, type Read } from './open'
import { written } from './report'
import { chargeText, time } from './text'

const usage =
  'Usage: npm run -s road -- FILE --at KM --charge PCT --clock HH:MM [--plan PLAN.json] [--set path=value]... [--json]'

const door: Door = {
  usage,
  help: `${usage}

  --at KM            ridden distance where it was read
  --charge PCT       what was left there, of all that is usable in all packs
  --clock HH:MM      the clock there; of the days of the ride the one that fits the plan best
${planHelp}  --json             with the unit in each number's name
`,
  options: { at: { type: 'string' }, charge: { type: 'string' }, clock: { type: 'string' } },
}

/** The rest of a day as a script reads it. */
export interface RoadReport {
  route: string
  zone: string
  at_km: number
  /** Local date and time of the reading, and of the finish, `YYYY-MM-DDTHH:mm`. */
  at: string
  finish: string
  /** Later than planned there; negative where earlier. And what is left beyond what is planned there, of all that is usable. */
  behind_s: number
  beyond_plan_pct: number
  /** From here to the finish; and of it in motion. */
  rest_s: number
  riding_s: number
  charge_end_pct: number
  spare_Wh: number
  reserve_km: number | null
  motor_off_km: number | null
}

/**
 * The rest of the day from a reading on the way, as text to print.
 *
 * @param words of the command line
 * @param read bytes of a file named there; throws a Fault if it can't be read
 * @throws Fault, with a line that says what is wrong
 */
export async function roadFor(words: readonly string[], read: Read): Promise<string> {
  const request = readArguments(words, door)
  if (request === 'help') return door.help
  const { given } = request
  const [at, charge, clock] = ['at', 'charge', 'clock'].map((name) => {
    const text = given.get(name)
    if (text === undefined) throw new Fault(`--${name} is missing. ${usage}`)
    return text
  }) as [string, string, string]
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(clock)) throw new Fault(`--clock needs a time such as 12:40, not “${clock}”.`)
  const share = numberOf('charge', charge, 'a percentage from 0 to 100', (value) => value >= 0 && value <= 100) / 100
  const { plan, reading } = await openAsked(request, read)
  const { route } = reading
  const length = route.length / metresPerKilometre
  const km = numberOf(
    'at',
    at,
    `a place from km 0 to km ${length.toFixed(1)}`,
    (value) => value >= 0 && value <= length,
  )
  const zone = plan.zone ?? zoneOfRoute(route)
  const started = instantOf(plan.start, zone)
  let now = 0
  const rest = restOfDay(route, plan, km * metresPerKilometre, (planned) => {
    now = nearestClock(clock, started + planned.time, zone)
    if (now < started)
      throw new Fault(`At ${clock} the day has not begun: it starts at ${plan.start.replace('T', ' ')}.`)
    return { time: now - started, left: share * planned.usable }
  })
  const { planned, usable, reserve, left, reserveAt, emptyAt, finish } = rest
  const report: RoadReport = {
    route: route.name,
    zone,
    at_km: km,
    at: localAt(now, zone),
    finish: localAt(started + finish, zone),
    behind_s: now - started - planned.time,
    beyond_plan_pct: 100 * (share - planned.left / usable),
    rest_s: started + finish - now,
    riding_s: rest.ridingTime,
    charge_end_pct: (100 * left) / usable,
    spare_Wh: (left - reserve) / joulesPerWattHour,
    reserve_km: reserveAt === undefined ? null : reserveAt / metresPerKilometre,
    motor_off_km: emptyAt === undefined ? null : emptyAt / metresPerKilometre,
  }
  return given.has('json') ? written(report) : textOf(report)
}

function textOf(report: RoadReport): string {
  const { behind_s, beyond_plan_pct, rest_s, riding_s } = report
  const minutes = Math.round(Math.abs(behind_s) / 60)
  const rows: [string, string][] = [
    ['Charge', chargeText(report)],
    ['Here', `km ${report.at_km.toFixed(1)}, ${report.at.replace('T', ' ')}, ${report.zone}`],
    [
      'Against',
      `the plan ${minutes === 0 ? 'on time' : `${time(Math.abs(behind_s))} ${behind_s > 0 ? 'later' : 'earlier'}`}, with ${Math.abs(beyond_plan_pct).toFixed(0)} % ${beyond_plan_pct < 0 ? 'less' : 'more'} charge`,
    ],
    ['Finish', report.finish.replace('T', ' ')],
    ['Time', `${time(rest_s)} from here, ${time(riding_s)} riding`],
  ]
  return [report.route, ...rows.map(([name, text]) => `  ${name.padEnd(9)} ${text}`)].join('\n') + '\n'
}
