import { bestAssist, ratiosOf, type AssistAsk, type AssistProposal, type Way } from '../model/decide/assist'
import type { Plan } from '../model/plan/schema'
import { sureAssist } from '../model/decide/sure-assist'
import { joulesPerWattHour, metresPerKilometre } from '../model/units'
import { instantOf, localAt, zoneOfRoute } from '../model/world/zone'
import { Fault, numberOf, planHelp, readArguments, type Door } from './arguments'
import { otherChoices, otherRows, type OtherChoices } from './other-choices'
import { openAsked, type Read } from './open'
import { written } from './report'
import { time } from './text'

const usage =
  'Usage: npm run -s decide -- FILE [--plan PLAN.json] [--set path=value]... [--ratios PCT,PCT,...] [--keep HOURS] [--sure PCT] [--all] [--json]'

const door: Door = {
  usage,
  help: `${usage}

${planHelp}  --ratios PCT,...   the assist ratios that the display has; else the steps of the plan, or 0 to 300 by 10
  --keep HOURS       arrive within so many hours with as much charge as can be; else as soon as can be
  --sure PCT         the charge is to stay above the reserve on so many of 100 days; else on the day as planned
  --all              also the best stops, what to take along and the latest starts: takes several seconds
  --json             with the unit in each number's name, and the plan with the advice taken
`,
  options: { ratios: { type: 'string' }, keep: { type: 'string' }, sure: { type: 'string' }, all: { type: 'boolean' } },
}

/** A way to choose the assist as a script reads it. */
interface WayReport {
  by: Way['by']
  /** One entry for one ratio; two for the flat and climbs; else none. */
  ratios_pct: number[]
  /** Where each ratio holds, one behind the other. */
  places: { start_km: number; end_km: number; ratio_pct: number }[]
  elapsed_s: number
  /** Local date and time. */
  finish: string
  riding_s: number
  rider_kJ: number
  left_Wh: number
  /** Later than the best. */
  behind_s: number
}

/** What one more Wh saves in a part of the route. */
interface PriceReport {
  start_km: number
  end_km: number
  s_per_Wh: number
}

/** The best assist as a script reads it. */
interface DecideReport {
  route: string
  /** 'found', or 'belowReserve' where no ratio keeps the charge above the reserve; then all that follows but `ways` is null, and that is the least ratio. */
  code: 'found' | 'belowReserve'
  /** Index of the simplest way within two minutes of the best, and of the best, in `ways`. */
  advice: number | null
  best: number | null
  ways: WayReport[]
  /** By how much sooner than the best single ratio, and than the best for the flat and for climbs, the best is; null where there is no such pair. */
  gain_over_constant_s: number | null
  gain_over_pair_s: number | null
  stretches: number | null
  /** No choice of ratios for these stretches rides in less; and by how much less than the best at most. */
  bound_riding_s: number | null
  gap_pct: number | null
  prices: PriceReport[] | null
  /** The same where it is spent, along the route: 0 where the motor can't make one sooner. */
  price_along: PriceReport[] | null
  /** Of days on which the advice keeps the reserve; null where no chance was asked for. */
  chance_pct: number | null
  plan: object | null
  /** Only where all was asked for. */
  others?: OtherChoices
}

const pct = (share: number): number => 100 * share
const km = (metres: number): number => metres / metresPerKilometre
const pricesIn = (prices: AssistProposal['prices']): PriceReport[] =>
  prices.map(({ start, end, price }) => ({ start_km: km(start), end_km: km(end), s_per_Wh: price * joulesPerWattHour }))

/**
 * The best assist of a day, as text to print.
 *
 * @param words of the command line
 * @param read bytes of a file named there; throws a Fault if it can't be read
 * @throws Fault, with a line that says what is wrong
 */
export async function decideFor(words: readonly string[], read: Read): Promise<string> {
  const request = readArguments(words, door)
  if (request === 'help') return door.help
  const { given } = request
  const keep = given.get('keep')
  const { plan, reading } = await openAsked(request, read)
  const ask: Omit<AssistAsk, 'plan'> = {
    ratios: ratiosAsked(given.get('ratios'), plan),
    aim:
      keep === undefined
        ? { for: 'soonest' }
        : { for: 'charge', by: 3600 * numberOf('keep', keep, 'hours above 0', (value) => value > 0 && value < 1000) },
  }
  const { route } = reading
  const pctSure = given.get('sure')
  const sure =
    pctSure === undefined
      ? undefined
      : numberOf('sure', pctSure, 'a percentage above 0 and below 100', (value) => value > 0 && value < 100) / 100
  const sured = sure === undefined ? undefined : sureAssist(route, { plan, sure, ...ask })
  const found = sured ?? bestAssist(route, { plan, ...ask })
  const ways = found.code === 'found' ? found.ways : [found.least]
  const soonest = found.code === 'found' ? found.best.time : found.least.time
  const zone = plan.zone ?? zoneOfRoute(route)
  const started = instantOf(plan.start, zone)
  const behind = (by: Way['by']): number | null => {
    const way = found.code === 'found' ? ways.find((one) => one.by === by) : undefined
    return way === undefined ? null : way.time - soonest
  }
  const report: DecideReport = {
    route: route.name,
    code: found.code,
    ...(found.code === 'found'
      ? { advice: ways.indexOf(found.advice), best: ways.indexOf(found.best) }
      : { advice: null, best: null }),
    ways: ways.map((way) => ({
      by: way.by,
      ratios_pct: way.by === 'constant' ? [pct(way.ratio)] : way.by === 'pair' ? [pct(way.flat), pct(way.climb)] : [],
      places:
        way.by === 'constant' || way.by === 'pair'
          ? []
          : way.places.map(({ start, end, ratio }) => ({
              start_km: km(start),
              end_km: km(end),
              ratio_pct: pct(ratio),
            })),
      elapsed_s: way.time,
      finish: localAt(started + way.time, zone),
      riding_s: way.ridingTime,
      rider_kJ: way.riderWork / 1000,
      left_Wh: way.left / joulesPerWattHour,
      behind_s: way.time - soonest,
    })),
    gain_over_constant_s: behind('constant'),
    gain_over_pair_s: behind('pair'),
    stretches: found.code === 'found' ? found.stretches : null,
    ...(found.code === 'found' && found.bound !== undefined
      ? {
          bound_riding_s: found.bound,
          gap_pct: pct(Math.max(0, 1 - found.bound / found.best.ridingTime)),
        }
      : { bound_riding_s: null, gap_pct: null }),
    prices: found.code === 'found' ? pricesIn(found.prices) : null,
    price_along: found.code === 'found' ? pricesIn(found.along) : null,
    chance_pct: sured?.code === 'found' ? pct(sured.chance.value) : null,
    plan: (found.code === 'found' ? found.plan : undefined) ?? null,
    ...(given.has('all') && { others: otherChoices(route, plan, sure) }),
  }
  return given.has('json') ? written(report) : textOf(report)
}

function ratiosAsked(text: string | undefined, plan: Plan): readonly number[] {
  if (text === undefined) return ratiosOf(plan)
  const what = 'two to 60 percentages from 0 to 400, such as 0,50,100,200'
  const ratios = text
    .split(',')
    .map((one) => numberOf('ratios', one, what, (value) => value >= 0 && value <= 400) / 100)
  const ascending = [...new Set(ratios)].sort((a, b) => a - b)
  if (ascending.length < 2 || ascending.length > 60) throw new Fault(`--ratios needs ${what}, not “${text}”.`)
  return ascending
}

function textOf({
  route,
  code,
  advice,
  best,
  ways,
  gap_pct,
  stretches,
  prices,
  chance_pct,
  others,
}: DecideReport): string {
  const rows: [string, string][] = ways.map((way, k) => [
    k === advice ? 'Advice' : k === best ? 'Best' : 'Else',
    `${wordOf(way)}: ${time(way.elapsed_s)}${way.behind_s > 0 ? `, ${time(way.behind_s)} later than the best` : ''}, ${way.left_Wh.toFixed(0)} Wh left`,
  ])
  if (code === 'belowReserve') rows[0]![0] = 'None lasts'
  if (gap_pct !== null)
    rows.push(['Bound', `no choice for its ${stretches} stretches rides more than ${gap_pct.toFixed(2)} % quicker`])
  for (const { start_km, end_km, s_per_Wh } of prices ?? [])
    rows.push([
      'Price',
      `km ${start_km.toFixed(1)} to ${end_km.toFixed(1)}: one more Wh saves ${s_per_Wh.toFixed(1)} s`,
    ])
  const places = advice === null ? [] : ways[advice]!.places
  for (const { start_km, end_km, ratio_pct } of places)
    rows.push(['', `km ${start_km.toFixed(1)} to ${end_km.toFixed(1)}: ${ratio_pct.toFixed(0)} %`])
  if (chance_pct !== null) rows.push(['Sure', `above the reserve on ${chance_pct.toFixed(0)} of 100 days`])
  if (others !== undefined) rows.push(...otherRows(others))
  return [route, ...rows.map(([name, text]) => `  ${name.padEnd(9)} ${text}`)].join('\n') + '\n'
}

function wordOf({ by, ratios_pct, places }: WayReport): string {
  const [one, other] = ratios_pct.map((ratio) => `${ratio.toFixed(0)} %`)
  switch (by) {
    case 'constant':
      return `${one} all the way`
    case 'pair':
      return `${one} on the flat, ${other} on climbs`
    case 'rule':
      return `${places.length} places`
    case 'stretches':
      return `${places.length} places, each as is best for it`
  }
}
