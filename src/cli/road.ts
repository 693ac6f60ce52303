import { interpolate } from '../model/columns'
import { askedRest, fitting, restSampling } from '../model/chance/asked-rest'
import { deadlinesOf } from '../model/chance/deadlines'
import { rideRest } from '../model/chance/on-the-way'
import { adviceOf, isOdd, restOf, type Advice, type RestChances } from '../model/chance/rest-chances'
import type { Band } from '../model/chance/spread'
import type { Outcome } from '../model/forecast/outcome'
import { simulate } from '../model/forecast/simulate'
import { addReading } from '../model/plan/edit-readings'
import { most, type PlanReading } from '../model/plan/schema'
import { restOfDay } from '../model/studies/rest-of-day'
import { joulesPerWattHour, metresPerKilometre } from '../model/units'
import { localAt, nearestClock } from '../model/world/zone'
import { each, pct } from './bands'
import { daysOf, Fault, numberOf, planHelp, readArguments, type Door, type Request } from './arguments'
import { openAsked, type Read } from './open'
import { written } from './report'
import { chargeText, ofHundredDays, time } from './text'

const usage =
  'Usage: npm run -s road -- FILE [--at KM --charge PCT --clock HH:MM]... [--power W] [--days N] [--plan PLAN.json] [--set path=value]... [--json]'

const door: Door = {
  usage,
  help: `${usage}

  --at KM            ridden distance where it was read; with --charge and --clock again for each further reading,
                     in order of the route; without any, the readings of the plan file count
  --charge PCT       what was left there, of all that is usable in all packs
  --clock HH:MM      the clock there; of the days of the ride the one that fits the plan best
  --power W          also: how it goes with this power of the rider from there on
  --days N           how many days are ridden, a multiple of 8; else 512, as in the page
${planHelp}  --json             with the unit in each number's name
`,
  options: {
    at: { type: 'string', multiple: true },
    charge: { type: 'string', multiple: true },
    clock: { type: 'string', multiple: true },
    power: { type: 'string' },
    days: { type: 'string' },
  },
}

/** Days that are equally likely before the readings, by what those say: chances as shares, with their standard errors. */
interface WayReport {
  /** Factor on the plan's assist; and the rider's power in place of the plan's, null for that. */
  assist: number
  power_W: number | null
  reserve_pct: number
  reserve_error_pct: number
  motor_pct: number
  motor_error_pct: number
  /** What one day in ten, half, and nine in ten are below: local date and time, and what is left of all that is usable. */
  finish: { low: string; middle: string; high: string }
  left_pct: Band
}

/** The rest of a day as a script reads it. */
export interface RoadReport {
  route: string
  zone: string
  readings: { km: number; at: string; charge_pct: number }[]
  at_km: number
  /** Local date and time of the last reading, and of the finish as planned from there, `YYYY-MM-DDTHH:mm`. */
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
  /** As in the page: whether it is enough, and the greatest factor on the plan's assist that lasts on 90 days of 100; null where none does. */
  verdict: Advice['verdict']
  ride_on_at: number | null
  ways: WayReport[]
  /** What has to be reached by a time, as planned and with the most assist that was ridden. */
  deadlines: {
    kind: string
    id: string
    km: number
    latest: string
    chance_pct: number
    error_pct: number
    most_assist_pct: number
  }[]
  /** As planned, at the places ahead. */
  places: { km: number; clock: { low: string; middle: string; high: string }; charge_pct: Band }[]
  days: number
  /** Days that count as much as equally likely ones. */
  effective_days: number
  /** Whether the readings are hardly likely by the plan and what is believed of it. */
  odd: boolean
  /** How far the readings lie from what was believed before, standard deviations: later, and with more charge. */
  late_sd: number
  spare_sd: number
}

/**
 * The rest of the day from readings on the way, as text to print.
 *
 * @param words of the command line
 * @param read bytes of a file named there; throws a Fault if it can't be read
 * @throws Fault, with a line that says what is wrong
 */
export async function roadFor(words: readonly string[], read: Read): Promise<string> {
  const request = readArguments(words, door)
  if (request === 'help') return door.help
  const { given } = request
  const typed = typedIn(request)
  const powerText = given.get('power')
  const power =
    powerText === undefined
      ? undefined
      : numberOf('power', powerText, 'watts from 20 to 500', (value) => value >= 20 && value <= 500)
  const daysText = given.get('days')
  const days = daysText === undefined ? restSampling.days : daysOf(daysText, restSampling.replicates)
  const { plan, reading } = await openAsked(request, read)
  const { route } = reading
  const before = simulate(route, plan)
  const readings = typed.length === 0 ? plan.readings : readingsOf(typed, before)
  const outcome = { ...before, plan: { ...plan, readings } }
  const fit = fitting(readings, outcome)
  if (typed.length > 0 && fit.length < readings.length)
    throw new Fault('Each reading must lie in the day of the plan, and be later than the one before it.')
  const last = fit.at(-1)
  if (last === undefined) throw new Fault(`--at is missing, and the plan has no readings. ${usage}`)
  const { started, zone } = outcome
  const rest = restOfDay(route, plan, last.distance, ({ usable }) => ({ time: last.time, left: last.charge * usable }))
  const deadlines = deadlinesOf(outcome)
  const found = (await restOf(askedRest(outcome, fit, power, { ...restSampling, days }), deadlines, (asked) =>
    Promise.resolve([rideRest(route, { asked, from: 0, to: asked.sampling.days })]),
  ))!
  const ways = found.ways.filter((way) => way.power === undefined)
  const { verdict, assist } = adviceOf(ways)
  const [planned, faster] = [ways.find((way) => way.assist === 1)!, ways.at(-1)!]
  const clock = (seconds: number) => localAt(started + seconds, zone)
  const clocks = ({ low, middle, high }: Band) => ({ low: clock(low), middle: clock(middle), high: clock(high) })
  const km = (metres: number) => metres / metresPerKilometre
  const { usable, reserve, left, reserveAt, emptyAt, finish } = rest
  const report: RoadReport = {
    route: route.name,
    zone,
    readings: fit.map(({ distance, time, charge }) => ({ km: km(distance), at: clock(time), charge_pct: pct(charge) })),
    at_km: km(last.distance),
    at: clock(last.time),
    finish: clock(finish),
    behind_s: last.time - rest.planned.time,
    beyond_plan_pct: pct(last.charge - rest.planned.left / usable),
    rest_s: finish - last.time,
    riding_s: rest.ridingTime,
    charge_end_pct: pct(left / usable),
    spare_Wh: (left - reserve) / joulesPerWattHour,
    reserve_km: reserveAt === undefined ? null : km(reserveAt),
    motor_off_km: emptyAt === undefined ? null : km(emptyAt),
    verdict,
    ride_on_at: assist ?? null,
    ways: found.ways.map((way) => wayReport(way, clocks)),
    deadlines: planned.deadlines.map(({ kind, id, distance, latest, chance }, k) => ({
      ...{ kind, id, km: km(distance), latest: clock(latest) },
      chance_pct: pct(chance.value),
      error_pct: pct(chance.error),
      most_assist_pct: pct(faster.deadlines[k]!.chance.value),
    })),
    places: planned.places.map(({ distance, clock: there, charge }) => ({
      km: km(distance),
      clock: clocks(there),
      charge_pct: each(charge, pct),
    })),
    days,
    effective_days: found.effective,
    odd: isOdd(found),
    late_sd: found.late,
    spare_sd: found.spare,
  }
  return given.has('json') ? written(report) : textOf(report)
}

const wayReport = (way: RestChances, clocks: (band: Band) => WayReport['finish']): WayReport => ({
  assist: way.assist,
  power_W: way.power ?? null,
  reserve_pct: pct(way.reserve.value),
  reserve_error_pct: pct(way.reserve.error),
  motor_pct: pct(way.motor.value),
  motor_error_pct: pct(way.motor.error),
  finish: clocks(way.time),
  left_pct: each(way.left, pct),
})

interface Typed {
  at: string
  charge: number
  clock: string
}

/** Readings of the command line, before the route is known. */
function typedIn({ several }: Request): Typed[] {
  const [at, charge, clock] = ['at', 'charge', 'clock'].map((name) => several.get(name) ?? []) as [
    readonly string[],
    readonly string[],
    readonly string[],
  ]
  const count = Math.max(at.length, charge.length, clock.length)
  if (count > most.readings) throw new Fault(`There may be ${most.readings} readings, not ${count}.`)
  return Array.from({ length: count }, (_, k) => {
    for (const [name, list] of Object.entries({ at, charge, clock }))
      if (list[k] === undefined)
        throw new Fault(`--${name} is missing${count === 1 ? '' : ` for reading ${k + 1}`}. ${usage}`)
    if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(clock[k]!))
      throw new Fault(`--clock needs a time such as 12:40, not “${clock[k]!}”.`)
    const isShare = (value: number) => value >= 0 && value <= 100
    const share = numberOf('charge', charge[k]!, 'a percentage from 0 to 100', isShare) / 100
    return { at: at[k]!, charge: share, clock: clock[k]! }
  })
}

/** The same on the day of the plan. */
function readingsOf(typed: readonly Typed[], outcome: Outcome): PlanReading[] {
  const { route, plan, zone, started, columns } = outcome
  const length = route.length / metresPerKilometre
  const none = { ...plan, readings: [] as PlanReading[] }
  return typed.reduce((read, { at, charge, clock }) => {
    const isOnRoute = (value: number) => value >= 0 && value <= length
    const distance = numberOf('at', at, `a place from km 0 to km ${length.toFixed(1)}`, isOnRoute) * metresPerKilometre
    const now = nearestClock(clock, started + interpolate(route.stations.distance, columns.time, distance), zone)
    if (now < started)
      throw new Fault(`At ${clock} the day has not begun: it starts at ${plan.start.replace('T', ' ')}.`)
    return addReading(read, { distance, at: localAt(now, zone), charge })
  }, none).readings
}

/** `3 to 18 %`, or one figure where both are the same. */
function percentBetween({ low, high }: WayReport['left_pct']): string {
  const [from, to] = [low.toFixed(0), high.toFixed(0)]
  return `${from === to ? to : `${from} to ${to}`} %`
}

function textOf(report: RoadReport): string {
  const { behind_s, beyond_plan_pct, rest_s, riding_s, ride_on_at } = report
  const minutes = Math.round(Math.abs(behind_s) / 60)
  const rows: [string, string][] = [
    ['Charge', `by the plan's figures it ${chargeText(report)}`],
    ['Here', `km ${report.at_km.toFixed(1)}, ${report.at.replace('T', ' ')}, ${report.zone}`],
    [
      'Against',
      `the plan ${minutes === 0 ? 'on time' : `${time(Math.abs(behind_s))} ${behind_s > 0 ? 'later' : 'earlier'}`}, with ${Math.abs(beyond_plan_pct).toFixed(0)} % ${beyond_plan_pct < 0 ? 'less' : 'more'} charge`,
    ],
    ['Finish', report.finish.replace('T', ' ')],
    ['Time', `${time(rest_s)} from here, ${time(riding_s)} riding`],
    [
      'Ride on',
      ride_on_at === null
        ? 'at no assist that was ridden does it last on 90 days of 100'
        : `at up to ${ride_on_at.toFixed(2)} of the plan's assist: then it lasts on 90 days of 100`,
    ],
  ]
  if (report.odd)
    rows.push(['Check', 'the readings: they are hardly likely by this plan; trust them more than these figures'])
  for (const { assist, power_W, reserve_pct, reserve_error_pct, finish, left_pct } of report.ways)
    rows.push([
      power_W === null ? `× ${assist}` : `${power_W} W`,
      `lasts ${ofHundredDays({ value: reserve_pct / 100, error: reserve_error_pct / 100 })}, finish ${finish.low.slice(11)} to ${finish.high.slice(11)}, ${percentBetween(left_pct)} left`,
    ])
  for (const { kind, id, km, latest, chance_pct, error_pct, most_assist_pct } of report.deadlines)
    rows.push([
      kind[0]!.toUpperCase() + kind.slice(1),
      `${id}, km ${km.toFixed(1)}, by ${latest.replace('T', ' ')}: ${ofHundredDays({ value: chance_pct / 100, error: error_pct / 100 })}, with most assist in ${most_assist_pct.toFixed(0)}`,
    ])
  return [report.route, ...rows.map(([name, text]) => `  ${name.padEnd(9)} ${text}`)].join('\n') + '\n'
}
