import { chancesOf } from '../model/chance/chances'
import { usualSampling, type Sampling } from '../model/chance/days'
import { deadlinesOf } from '../model/chance/deadlines'
import { driversOf, HowSure, usualEffects } from '../model/chance/how-sure'
import type { Band, Estimate } from '../model/chance/spread'
import { mostAhead } from '../model/plan/schema'
import { simulate } from '../model/forecast/simulate'
import { joulesPerWattHour, metresPerKilometre } from '../model/units'
import { instantOf, localAt, zoneOfRoute } from '../model/world/zone'
import { each, pct } from './bands'
import { daysOf, numberOf, planHelp, readArguments, type Door } from './arguments'
import { openAsked, type Read } from './open'
import { written } from './report'
import { ofHundredDays, time } from './text'

const usage =
  'Usage: npm run -s chance -- FILE [--plan PLAN.json] [--set path=value]... [--days N] [--ahead DAYS] [--seed N] [--json]'

const door: Door = {
  usage,
  help: `${usage}

${planHelp}  --days N           how many days are ridden, a multiple of 8; else 1024
  --ahead DAYS       from the forecast of the weather to the start; else as the plan has it, 1 by default
  --seed N           another choice of equally likely days; else 1
  --json             with the unit in each number's name
`,
  options: { days: { type: 'string' }, ahead: { type: 'string' }, seed: { type: 'string' } },
}

const bandsEvery = 5000 // m

/** How sure a day is, as a script reads it. Chances and effects with their standard errors, bands as what one day in ten, half, and nine in ten lie below. */
export interface ChanceReport {
  route: string
  zone: string
  seed: number
  days: number
  days_ahead: number
  /** That the charge lasts to the finish above the reserve; and that the motor helps to the finish. */
  reserve_pct: number
  reserve_error_pct: number
  motor_pct: number
  motor_error_pct: number
  /** Controls, goal, and sailings that the plan takes; `latest` is a local date and time. */
  deadlines: { kind: string; id: string; km: number; latest: string; chance_pct: number; error_pct: number }[]
  /** Local dates and times. */
  finish: { low: string; middle: string; high: string }
  elapsed_s: Band
  riding_s: Band
  left_Wh: Band
  /** Where the charge most often falls below the reserve; null where it never does. */
  fails: { terrain: string; start_km: number; end_km: number; share_pct: number } | null
  bands: { km: number; clock_s: Band; charge_pct: Band }[]
  /** What part of the variance of the finish time and of the charge at the finish each uncertain figure brings. */
  drivers: {
    figure: string
    finish_pct: number
    finish_error_pct: number
    left_pct: number
    left_error_pct: number
  }[]
}

/**
 * How sure a day is, as text to print.
 *
 * @param words of the command line
 * @param read bytes of a file named there; throws a Fault if it can't be read
 * @throws Fault, with a line that says what is wrong
 */
export async function chanceFor(words: readonly string[], read: Read): Promise<string> {
  const request = readArguments(words, door)
  if (request === 'help') return door.help
  const { given } = request
  const optionOf = (option: string, usual: number, what: string, fits: (value: number) => boolean): number => {
    const text = given.get(option)
    return text === undefined ? usual : numberOf(option, text, what, fits)
  }
  const { replicates } = usualSampling
  const sampling: Sampling = {
    replicates,
    days: given.has('days') ? daysOf(given.get('days')!, replicates) : usualSampling.days,
    seed: optionOf('seed', usualSampling.seed, 'an integer', Number.isSafeInteger),
  }
  const { plan: stated, reading } = await openAsked(request, read)
  const isAhead = (value: number) => value >= 0 && value <= mostAhead
  const forecastAhead = optionOf('ahead', stated.forecastAhead, `days from 0 to ${mostAhead}`, isAhead)
  const plan = { ...stated, forecastAhead }
  const { route } = reading
  const places = Array.from({ length: Math.floor(route.length / bandsEvery) }, (_, k) => (k + 1) * bandsEvery)
  const limits = deadlinesOf(simulate(route, plan))
  const asked = { plan, sampling, places: [...places, route.length, ...limits.map(({ distance }) => distance)] }
  const sure = new HowSure(route, asked)
  const days = sure.ride(0, sampling.days)
  const { reserve, motor, deadlines, ...rest } = chancesOf(route, sampling, days, limits)
  const { time: elapsed, ridingTime, left, fails, bands } = rest
  const surrogates = sure.surrogates(days)
  const effects = { ...usualEffects, seed: sampling.seed }
  const drivers = driversOf(route, plan, [sure.ridePairs(effects, surrogates, 0, effects.points)], surrogates)
  const zone = plan.zone ?? zoneOfRoute(route)
  const started = instantOf(plan.start, zone)
  const clock = (seconds: number) => localAt(started + seconds, zone)
  const km = (metres: number) => metres / metresPerKilometre
  const report: ChanceReport = {
    route: route.name,
    zone,
    seed: sampling.seed,
    days: sampling.days,
    days_ahead: forecastAhead,
    reserve_pct: pct(reserve.value),
    reserve_error_pct: pct(reserve.error),
    motor_pct: pct(motor.value),
    motor_error_pct: pct(motor.error),
    deadlines: deadlines.map(({ kind, id, distance, latest, chance }) => ({
      kind,
      id,
      km: km(distance),
      latest: clock(latest),
      chance_pct: pct(chance.value),
      error_pct: pct(chance.error),
    })),
    finish: { low: clock(elapsed.low), middle: clock(elapsed.middle), high: clock(elapsed.high) },
    elapsed_s: elapsed,
    riding_s: ridingTime,
    left_Wh: each(left, (energy) => energy / joulesPerWattHour),
    fails:
      fails === undefined
        ? null
        : {
            terrain: fails.terrain,
            start_km: km(fails.start),
            end_km: km(fails.end),
            share_pct: pct(fails.share),
          },
    bands: bands.map(({ distance, clock: at, charge }) => ({
      km: km(distance),
      clock_s: at,
      charge_pct: each(charge, pct),
    })),
    drivers: drivers.figures.map((figure, k) => ({
      figure,
      finish_pct: pct(drivers.time.share[k]!),
      finish_error_pct: pct(drivers.time.error[k]!),
      left_pct: pct(drivers.left.share[k]!),
      left_error_pct: pct(drivers.left.error[k]!),
    })),
  }
  return given.has('json') ? written(report) : textOf(report, { reserve, motor })
}

function textOf(report: ChanceReport, { reserve, motor }: Record<'reserve' | 'motor', Estimate>): string {
  const { fails, deadlines, finish, elapsed_s, left_Wh, drivers } = report
  const rows: [string, string][] = [
    [
      'Charge',
      `lasts above the reserve ${ofHundredDays(reserve)}, the motor helps to the finish ${ofHundredDays(motor)}`,
    ],
  ]
  if (fails !== null)
    rows.push([
      'Fails',
      `most often from km ${fails.start_km.toFixed(1)} to km ${fails.end_km.toFixed(1)}, ${fails.terrain}: ${fails.share_pct.toFixed(0)} % of the days that do`,
    ])
  for (const { kind, id, km, latest, chance_pct, error_pct } of deadlines)
    rows.push([
      kind[0]!.toUpperCase() + kind.slice(1),
      `${id}, km ${km.toFixed(1)}, by ${latest.replace('T', ' ')}: ${ofHundredDays({ value: chance_pct / 100, error: error_pct / 100 })}`,
    ])
  rows.push(
    ['Finish', [finish.low, finish.middle, finish.high].map((at) => at.replace('T', ' ')).join(', ')],
    ['Time', [elapsed_s.low, elapsed_s.middle, elapsed_s.high].map(time).join(', ')],
    ['Left', `${[left_Wh.low, left_Wh.middle, left_Wh.high].map((energy) => energy.toFixed(0)).join(', ')} Wh`],
  )
  for (const [name, share, error] of [
    ['Of time', 'finish_pct', 'finish_error_pct'],
    ['Of charge', 'left_pct', 'left_error_pct'],
  ] as const)
    rows.push([
      name,
      [...drivers]
        .sort((one, other) => other[share] - one[share])
        .slice(0, 4)
        .map((driver) => `${driver.figure} ${driver[share].toFixed(0)} ± ${driver[error].toFixed(0)} %`)
        .join(', '),
    ])
  return [report.route, ...rows.map(([name, text]) => `  ${name.padEnd(9)} ${text}`)].join('\n') + '\n'
}
