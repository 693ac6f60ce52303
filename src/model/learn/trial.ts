import { momentAt, type MomentOfRun } from '../battery/moment'
import { packAt } from '../battery/pack'
import { transferIn } from '../battery/arrangement'
import { arrangementOf, sourceRefusal } from '../forecast/sources'
import { carriedParameters, converterParameters } from '../plan/bench-parameters'
import { packParameters } from '../plan/parameters'
import type { CarriedSource, PlanMeterReading, PlanPack, PlanTrial } from '../plan/schema'
import { verdictOn, type Verdict } from './beliefs'
import { inverse, solve, type Matrix } from './linear'
import { toNinetyPercent } from './unknowns'

/** What a trial of charging can tell: the converter's best efficiency, what the bike's pack holds and what the carried one holds, as shares of what is rated. */
export const trialFigures = ['efficiency', 'packHealth', 'health'] as const
export type TrialFigure = (typeof trialFigures)[number]

/** A figure after a trial, as the plan holds it. */
export interface TrialBelief {
  figure: TrialFigure
  stated: number
  /** Most likely; one case in ten lies below `low`, one above `high`. */
  middle: number
  low: number
  high: number
  /** How much of what was believed before the trial narrowed. */
  verdict: Verdict
}

/** What a reading shows beside what it would show by the figures found; A, V or 0 to 1. */
export interface TrialRow {
  /** Number of the reading, and what was read. */
  reading: number
  of: 'voltage' | 'current' | 'charge'
  read: number
  found: number
  /** Whether the two are further apart than meter and model can be: three deviations. */
  isFar: boolean
}

export interface TrialResult {
  beliefs: TrialBelief[]
  rows: TrialRow[]
}

/** An unknown: its logarithm's deviation before the trial, and its bounds. The current that is set is one beside the figures: a turned knob. */
interface Unknown {
  key: TrialFigure | 'setCurrent'
  deviation: number
  least: number
  most: number
}
/** Deviations: judgement. Efficiency of small converters 0.87 to 0.98 about a stated 0.955; a health that was stated, not measured; a current set by a meter of its own. */
const unknowns: readonly Unknown[] = [
  {
    key: 'efficiency',
    deviation: 0.06,
    least: converterParameters.efficiency.min,
    most: converterParameters.efficiency.max,
  },
  { key: 'packHealth', deviation: 0.12, least: packParameters.health.min, most: packParameters.health.max },
  { key: 'health', deviation: 0.12, least: carriedParameters.health.min, most: carriedParameters.health.max },
  { key: 'setCurrent', deviation: 0.03, least: converterParameters.current.min, most: converterParameters.current.max },
]

/**
 * Deviations of what is read. A hand meter's current and its power: 1.5 %; of a voltage what the table of open-circuit voltages lets pass a cell, 30 mV;
 * of a display that tells whole percents 1 point, from one reading to another. Judgement but for the cells' (spread of four measured cells, 16 to 26 mV).
 */
const meterShare = 0.015
const leastCurrent = 0.03
const cellVoltage = 0.03
const display = 0.01
const farOff = 3

/** Rows of the traced charge are no further apart, s. */
const everyRow = 60
/** Step of a difference, in deviations; change at which it rests. */
const step = 0.05
const atRest = 1e-4
const mostPasses = 25

interface Observed {
  reading: number
  of: TrialRow['of']
  read: number
  deviation: number
  /** Of the model's moment, what is read. */
  shows: (moment: MomentOfRun) => number
}

/**
 * What readings of a trial tell of converter and packs: the most likely figures by least squares through the charging model itself, each pulled to what is
 * stated as strongly as that is known, within the bounds of the plan. Where a meter shows both voltage and current, their product is held against the
 * power of the model, which does not hang on the table of voltages as a current alone does. What the readings do not tell is left as it is stated, and the
 * rest found anew.
 *
 * @param source the arrangement as stated
 * @param pack the bike's pack as stated
 * @param temperature of all cells, °C
 * @param trial charges at its beginning, 0 to 1, and its readings
 * @see Gelb 1974, Applied Optimal Estimation, ch. 4: least squares with what was known before as further readings (from memory)
 * @returns undefined where nothing was read, or the arrangement is refused
 */
export function learnFromTrial(
  source: CarriedSource,
  pack: PlanPack,
  temperature: number,
  trial: Pick<PlanTrial, 'packCharge' | 'sourceCharge' | 'readings'>,
): TrialResult | undefined {
  const observed = observedIn(trial.readings, source, pack)
  if (observed.length === 0 || sourceRefusal(source, packAt(pack, temperature)) !== undefined) return undefined
  const stated = [source.converter.efficiency, pack.health, source.carried.health, source.converter.current]
  const longest = trial.readings.reduce((last, { time }) => Math.max(last, time), 1)
  const valueOf = (z: readonly number[], k: number) => {
    const { deviation, least, most } = unknowns[k]!
    return z[k] === 0 ? stated[k]! : Math.min(most, Math.max(least, stated[k]! * Math.exp(deviation * z[k]!)))
  }
  const shown = (z: readonly number[]): number[] => {
    const value = (key: Unknown['key']) =>
      valueOf(
        z,
        unknowns.findIndex((unknown) => unknown.key === key),
      )
    const converter = { ...source.converter, efficiency: value('efficiency'), current: value('setCurrent') }
    const changed = { ...source, converter, carried: { ...source.carried, health: value('health') } }
    const transfer = transferIn(arrangementOf(changed, { ...pack, health: value('packHealth') }, temperature))
    const { columns } = transfer.trace(trial.sourceCharge, trial.packCharge, { time: longest }, everyRow)
    return observed.map(({ reading, shows }) => shows(momentAt(columns, trial.readings[reading]!.time)))
  }
  const all = fitted(observed, shown, () => true)
  const left = all.covariance.map((row, k) => Math.sqrt(row[k]!))
  const isTold = (k: number) => verdictOn(left[k]!) !== 'not'
  const { z, found } = left.every((_, k) => isTold(k)) ? all : fitted(observed, shown, isTold)
  return {
    beliefs: trialFigures.map((figure, k) => {
      const at = (u: number) =>
        valueOf(
          z.map((value, j) => (j === k ? value + u * left[k]! : value)),
          k,
        )
      const [low, high] = [at(-toNinetyPercent), at(toNinetyPercent)]
      return { figure, stated: stated[k]!, middle: valueOf(z, k), low, high, verdict: verdictOn(left[k]!) }
    }),
    rows: observed.map(({ reading, of, read, deviation }, k) => {
      const isFar = Math.abs(read - found[k]!) > farOff * deviation
      return { reading, of, read, found: found[k]!, isFar }
    }),
  }
}

/** What is held against the model, with its deviation. */
function observedIn(readings: readonly PlanMeterReading[], source: CarriedSource, pack: PlanPack): Observed[] {
  return readings.flatMap(({ side, voltage, current, charge }, reading) => {
    const isSource = side === 'source'
    const volts = (moment: MomentOfRun) => (isSource ? moment.inputVoltage : moment.outputVoltage)
    const amperes = (moment: MomentOfRun) => (isSource ? moment.sourceCurrent : moment.current)
    const cells = isSource ? source.carried.blockCells * source.carried.blocksInSeries : pack.series
    const seen: Observed[] = []
    if (voltage !== null)
      seen.push({ reading, of: 'voltage', read: voltage, deviation: cells * cellVoltage, shows: volts })
    if (current !== null) {
      const deviation = Math.hypot(meterShare * current, leastCurrent)
      // At the voltage that was read, the current that makes the model's power.
      const shows = voltage === null ? amperes : (moment: MomentOfRun) => (amperes(moment) * volts(moment)) / voltage
      seen.push({ reading, of: 'current', read: current, deviation, shows })
    }
    if (charge !== null)
      seen.push({ reading, of: 'charge', read: charge, deviation: display, shows: ({ charge }) => charge })
    return seen
  })
}

/** Gauss and Newton's method with halved steps, of unknowns that are standard normal before anything was read. */
function fitted(
  observed: readonly Observed[],
  shown: (z: readonly number[]) => number[],
  isFree: (k: number) => boolean,
): { z: number[]; covariance: Matrix; found: number[] } {
  const off = (found: readonly number[]) => observed.map(({ read, deviation }, i) => (read - found[i]!) / deviation)
  const cost = (z: readonly number[], found: readonly number[]) =>
    [...off(found), ...z].reduce((sum, value) => sum + value * value, 0)
  let z = unknowns.map(() => 0)
  let found = shown(z)
  for (let pass = 0; ; pass++) {
    const slopes = unknowns.map((_, k) => {
      if (!isFree(k)) return observed.map(() => 0)
      const moved = shown(z.map((value, j) => (j === k ? value - step : value)))
      return observed.map(({ deviation }, i) => (found[i]! - moved[i]!) / step / deviation)
    })
    const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, value, i) => sum + value * b[i]!, 0)
    const normal = slopes.map((row, k) => slopes.map((other, j) => dot(row, other) + (j === k ? 1 : 0)))
    const residual = off(found)
    const onward = solve(
      normal,
      slopes.map((row, k) => dot(row, residual) - z[k]!),
    )
    const before = cost(z, found)
    let share = 1
    let next = z
    let there = found
    do {
      next = z.map((value, k) => value + share * onward[k]!)
      there = shown(next)
      share /= 2
    } while (cost(next, there) > before && share > 1e-3)
    const isBetter = cost(next, there) < before
    const rests = !isBetter || Math.max(...onward.map(Math.abs)) < atRest || pass >= mostPasses
    if (isBetter) [z, found] = [next, there]
    if (rests) return { z, covariance: inverse(normal), found }
  }
}
