import { beliefsOf, correlationsOf, worthOfReading, type LearntBelief } from '../model/learn/beliefs'
import { evidenceOf, type ChargeReading } from '../model/learn/evidence'
import { ownTest, type Tested } from '../model/learn/foretell'
import { posteriorOf } from '../model/learn/posterior'
import { smallHaltsBelief } from '../model/learn/small-halts'
import type { Plan } from '../model/plan/schema'
import { factsOf } from '../model/recording/facts'
import { readRecording } from '../model/recording/read'
import type { Recording } from '../model/recording/recording'
import { joulesPerWattHour, metresPerKilometre } from '../model/units'
import { wordsIn } from '../view/words/words'
import { Fault, numberOf, planHelp, readArguments, type Door } from './arguments'
import type { Note } from './notes'
import { nameOf, planAsked, type Read } from './open'
import { written } from './report'
import { time } from './text'

const usage =
  'Usage: npm run -s learn -- RECORDING... [--plan PLAN.json] [--set path=value]... [--charge-start PCT] [--charge-end PCT] [--power-hidden] [--until KM] [--charge-until PCT] [--json]'

const door: Door = {
  usage,
  help: `${usage}

${planHelp}  --charge-start PCT what was left at the start of the first recording, of all that is usable in all packs
  --charge-end PCT   and at its end
  --power-hidden     leaves a measured power aside
  --until KM         learns from the first recording up to here alone, and foretells the rest of it
  --charge-until PCT what was left there: with the charge at the end, what the rest took out of the packs is foretold too
  --json             with the unit in each number's name
`,
  options: {
    'charge-start': { type: 'string' },
    'charge-end': { type: 'string' },
    'power-hidden': { type: 'boolean' },
    until: { type: 'string' },
    'charge-until': { type: 'string' },
  },
  many: true,
}

/** Facts of a recording as a script reads them; null is what the file does not have. */
interface FactsReport {
  recording: string
  length_m: number
  ascent_m: number
  /** From the first to the last time: in motion, standing for half a minute or more, travelling. */
  elapsed_s: number
  riding_s: number
  stopped_s: number
  crossing_s: number
  power_W: number | null
  heart_per_min: number | null
  cadence_per_min: number | null
  halts: { km: number; seconds: number }[]
  crossings: { km: number; length_km: number; seconds: number }[]
}

/** A figure of the plan, in its unit: middle and the span that holds 80 %, now and before the rides. */
interface BeliefReport {
  middle: number
  low80: number
  high80: number
  prior_middle: number
  prior_low80: number
  prior_high80: number
  verdict: LearntBelief['verdict']
}

/** What rides tell as a script reads it. */
export interface LearnReport {
  facts: FactsReport
  /** Of further recordings. */
  further: FactsReport[]
  /** By the path in the plan. */
  beliefs: Record<string, BeliefReport>
  correlations: { a: string; b: string; value: number }[]
  /** Half the span over the middle, now and with the charge at start and end read too; null where it is read. */
  worth: { path: string; now_pct: number; then_pct: number }[] | null
  /** Of the part behind `--until`. */
  prediction: {
    from_km: number
    riding_s: number
    low80_s: number
    high80_s: number
    plain_guess_s: number
    ridden_s: number
    /** Out of the packs, beside as many Wh/km as before and what the readings say; null without readings at `--until` and at the end. */
    energy: { Wh: number; low80_Wh: number; high80_Wh: number; plain_guess_Wh: number; read_Wh: number } | null
  } | null
  warnings: Note[]
}

/** What was left at the start, where the rest begins, and at the end, 0 to 1. */
type Charge = Record<'start' | 'until' | 'end', number | undefined>

/**
 * What recorded rides tell of rider and bike, as text to print.
 *
 * @param words of the command line
 * @param read bytes of a file named there; throws a Fault if it can't be read
 * @throws Fault, with a line that says what is wrong
 */
export async function learnFor(words: readonly string[], read: Read): Promise<string> {
  const request = readArguments(words, door)
  if (request === 'help') return door.help
  const { given, files } = request
  const share = (option: string): number | undefined => {
    const text = given.get(option)
    if (text === undefined) return undefined
    return numberOf(option, text, 'a percentage from 0 to 100', (value) => value >= 0 && value <= 100) / 100
  }
  const charge = { start: share('charge-start'), until: share('charge-until'), end: share('charge-end') }
  const known = Object.entries(charge).filter((entry): entry is [string, number] => entry[1] !== undefined)
  known.forEach(([name, left], k) => {
    const before = known[k - 1]
    if (before !== undefined && left > before[1])
      throw new Fault(`--charge-${name} is above --charge-${before[0]}; what was charged on the way is not known here.`)
  })
  if (charge.until !== undefined && !given.has('until')) throw new Fault('--charge-until needs --until.')
  const plan = planAsked(request, read)
  const recordings: Recording[] = []
  for (const file of files) recordings.push(await opened(file, read))
  const length = recordings[0]!.route.length / metresPerKilometre
  const until = given.get('until')
  const km =
    until === undefined
      ? undefined
      : numberOf(
          'until',
          until,
          `a place from km 1 to km ${length.toFixed(1)}`,
          (value) => value >= 1 && value < length,
        )
  const report = learntFrom(recordings, files.map(nameOf), plan, charge, given.has('power-hidden'), km)
  return given.has('json') ? written(report) : textOf(report)
}

async function opened(file: string, read: Read): Promise<Recording> {
  const reading = await readRecording(read(file), nameOf(file))
  if (reading.ok) return reading.recording
  const { fault } = reading
  if (fault.code === 'noTimes') throw new Fault(`“${file}” has no times of a ride: a plan is no recording.`)
  throw new Fault(wordsIn('metric').route.fault(fault))
}

function learntFrom(
  recordings: readonly Recording[],
  names: readonly string[],
  plan: Plan,
  charge: Charge,
  powerHidden: boolean,
  km: number | undefined,
): LearnReport {
  const until = km === undefined ? undefined : km * metresPerKilometre
  const used = recordings.filter(({ faults }) => !faults.some(({ code }) => code === 'madeUpTimes'))
  const evidence = used.map((recording) => {
    const isFirst = recording === recordings[0]
    const { length } = recording.route
    const readings = [
      { distance: until, left: charge.until },
      { distance: length, left: charge.end },
    ].filter((one): one is ChargeReading => isFirst && one.distance !== undefined && one.left !== undefined)
    const start = isFirst && charge.start !== undefined ? { start: charge.start } : {}
    return evidenceOf(recording, plan, { ...start, readings, powerHidden }, isFirst ? until : undefined)
  })
  const posterior = posteriorOf(evidence)
  const seen = {
    halts: used.flatMap(({ halts }) => halts),
    length: used.reduce((sum, { route }) => sum + route.length, 0),
  }
  const beliefs = [...beliefsOf(posterior, plan), smallHaltsBelief(plan, seen)]
  const isRead = charge.end !== undefined && until === undefined
  const test =
    until === undefined || used[0] !== recordings[0]
      ? undefined
      : ownTest(
          posterior,
          recordings[0]!,
          0,
          until,
          charge.until === undefined || charge.end === undefined
            ? undefined
            : [evidence[0]!.start, charge.until, charge.end],
        )
  const [facts, ...further] = recordings.map((recording, k) => factsReport(recording, names[k]!))
  return {
    facts: facts!,
    further,
    beliefs: Object.fromEntries(beliefs.map((belief) => [belief.path, beliefReport(belief)])),
    correlations: correlationsOf(posterior, plan),
    worth:
      isRead || used.length === 0
        ? null
        : worthOfReading(posterior, plan, 0).map(({ path, now, then }) => ({
            path,
            now_pct: 100 * now,
            then_pct: 100 * then,
          })),
    prediction:
      test === undefined
        ? null
        : {
            from_km: km!,
            riding_s: test.riding.foretold.middle,
            low80_s: test.riding.foretold.low80,
            high80_s: test.riding.foretold.high80,
            plain_guess_s: test.riding.plainGuess,
            ridden_s: test.riding.ridden,
            energy: test.energy === undefined ? null : energyReport(test.energy),
          },
    warnings: warningsOn(
      recordings,
      names,
      plan,
      evidence.map(({ time }) => time.length),
      posterior.settled,
      charge,
      until !== undefined,
    ),
  }
}

function warningsOn(
  recordings: readonly Recording[],
  names: readonly string[],
  plan: Plan,
  stretches: readonly number[],
  settled: boolean,
  charge: Charge,
  isParted: boolean,
): Note[] {
  const notes: Note[] = recordings.flatMap(({ faults, route }, k) => [
    ...faults.map((fault) => ({ ...fault, recording: names[k]! })),
    ...(route.elevationKnown === 'all' ? [] : [{ code: 'elevationUnknown', recording: names[k]! }]),
  ])
  if (stretches.some((count) => count < 20)) notes.push({ code: 'fewStretches', least: Math.min(...stretches) })
  if (!settled) notes.push({ code: 'notSettled' })
  const hasMotor = plan.assist.ratio > 0 || plan.assist.climbRatio > 0
  if (hasMotor && charge.end === undefined) notes.push({ code: 'chargeNotRead' })
  if (charge.end !== undefined && charge.start === undefined) notes.push({ code: 'startChargeAssumed' })
  if (charge.end !== undefined && isParted && charge.until === undefined) notes.push({ code: 'chargeUntilNotRead' })
  if (plan.stretches.length > 0) notes.push({ code: 'planStretchesNotUsed', count: plan.stretches.length })
  if (plan.stops.some(({ source }) => source !== null)) notes.push({ code: 'chargingNotCounted' })
  return notes
}

function factsReport(recording: Recording, name: string): FactsReport {
  const facts = factsOf(recording)
  return {
    recording: name,
    length_m: facts.length,
    ascent_m: facts.ascent,
    elapsed_s: facts.elapsed,
    riding_s: facts.riding,
    stopped_s: facts.stopped,
    crossing_s: facts.crossing,
    power_W: facts.power ?? null,
    heart_per_min: facts.heartRate ?? null,
    cadence_per_min: facts.cadence ?? null,
    halts: recording.halts.map(({ distance, time }) => ({ km: distance / metresPerKilometre, seconds: time })),
    crossings: recording.crossings.map(({ distance, length, time }) => ({
      km: distance / metresPerKilometre,
      length_km: length / metresPerKilometre,
      seconds: time,
    })),
  }
}

const energyReport = ({ foretold, plainGuess, ridden }: Tested) => ({
  Wh: foretold.middle / joulesPerWattHour,
  low80_Wh: foretold.low80 / joulesPerWattHour,
  high80_Wh: foretold.high80 / joulesPerWattHour,
  plain_guess_Wh: plainGuess / joulesPerWattHour,
  read_Wh: ridden / joulesPerWattHour,
})

const beliefReport = ({ middle, low80, high80, prior, verdict }: LearntBelief): BeliefReport => ({
  middle,
  low80,
  high80,
  prior_middle: prior.middle,
  prior_low80: prior.low80,
  prior_high80: prior.high80,
  verdict,
})

function textOf({ facts, further, beliefs, worth, prediction, warnings }: LearnReport): string {
  const number = (value: number) => value.toPrecision(3)
  const lines = [facts, ...further].flatMap((one) => [
    one.recording,
    `  Length    ${(one.length_m / metresPerKilometre).toFixed(1)} km, ${one.ascent_m.toFixed(0)} m up`,
    `  Time      ${time(one.elapsed_s)}: ${time(one.riding_s)} riding, ${time(one.stopped_s)} standing in ${one.halts.length} halts, ${time(one.crossing_s)} on crossings`,
  ])
  const cell = (text: string) => text.padStart(10)
  lines.push(
    '',
    ['known'.padEnd(20), ...['middle', 'from', 'to', 'before', 'from', 'to'].map(cell), '  learnt'].join(''),
    ...Object.entries(beliefs).map(([path, one]) =>
      [
        path.padEnd(20),
        ...[one.middle, one.low80, one.high80, one.prior_middle, one.prior_low80, one.prior_high80].map((value) =>
          cell(number(value)),
        ),
        `  ${one.verdict}`,
      ].join(''),
    ),
  )
  if (worth !== null)
    for (const { path, now_pct, then_pct } of worth)
      if (then_pct < 0.8 * now_pct)
        lines.push(
          `With the charge at start and end ${path} would be known to ${then_pct.toFixed(0)} % instead of ${now_pct.toFixed(0)} %.`,
        )
  if (prediction !== null)
    lines.push(
      `From km ${prediction.from_km.toFixed(1)}: foretold ${time(prediction.riding_s)} (${time(prediction.low80_s)} to ${time(prediction.high80_s)}), at the same mean speed ${time(prediction.plain_guess_s)}, ridden ${time(prediction.ridden_s)}.`,
    )
  const energy = prediction?.energy
  if (energy)
    lines.push(
      `Out of the packs there: foretold ${energy.Wh.toFixed(0)} Wh (${energy.low80_Wh.toFixed(0)} to ${energy.high80_Wh.toFixed(0)}), at the same Wh/km ${energy.plain_guess_Wh.toFixed(0)} Wh, read ${energy.read_Wh.toFixed(0)} Wh.`,
    )
  for (const { code, ...values } of warnings)
    lines.push(`Note: ${[code, ...Object.entries(values).map(([name, value]) => `${name} ${value}`)].join(', ')}`)
  return lines.join('\n') + '\n'
}
