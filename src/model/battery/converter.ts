import { chargeAtOpenCircuit } from './chemistry'
import type { Pack } from './pack'

export type ConverterKind = 'step-down' | 'step-up' | 'step-up-down'

/** Currents that are printed on a converter, A: what it gives and draws for hours, and for moments; null where it is not printed. */
export interface PrintedCurrents {
  outputCurrent: number | null
  inputCurrent: number | null
  outputPeak: number | null
  inputPeak: number | null
}

/** Share of a peak current that is taken as flowing for hours where only the peak is printed: judgement, as for connectors, of which 50 to 70 % is usual. */
export const peakShare = 0.6

/** Currents that flow for hours, A, from what is printed: 60 % of the peak where nothing else is, 0 where nothing is. A charge lasts for hours, so a peak never flows. */
export function steadyCurrents(printed: PrintedCurrents): Pick<Converter, 'outputCurrent' | 'inputCurrent'> {
  const steady = (continuous: number | null, peak: number | null) => continuous ?? peakShare * (peak ?? 0)
  return {
    outputCurrent: steady(printed.outputCurrent, printed.outputPeak),
    inputCurrent: steady(printed.inputCurrent, printed.inputPeak),
  }
}

/** What is to be said of a converter's printed currents, A. */
export type CurrentCaution =
  | { code: 'peakOnly'; side: 'output' | 'input'; peak: number; taken: number }
  | { code: 'peakBelow'; side: 'output' | 'input'; continuous: number; peak: number }
  | { code: 'setAbove'; set: number; continuous: number; peak: number | null }

/** What is to be said of a converter's printed currents. @param set output current, A */
export function currentCautions(printed: PrintedCurrents & { current: number }): CurrentCaution[] {
  const taken = steadyCurrents(printed)
  const said = (['output', 'input'] as const).flatMap((side): CurrentCaution[] => {
    const [continuous, peak] = [printed[`${side}Current`], printed[`${side}Peak`]]
    if (peak === null) return []
    if (continuous === null) return [{ code: 'peakOnly', side, peak, taken: taken[`${side}Current`] }]
    return peak < continuous ? [{ code: 'peakBelow', side, continuous, peak }] : []
  })
  const { current: set, outputPeak: peak } = printed
  return set > taken.outputCurrent ? [...said, { code: 'setAbove', set, continuous: taken.outputCurrent, peak }] : said
}

/** Efficiency at some shares of the rated output power, ascending; at least one. */
export interface EfficiencyByLoad {
  load: readonly number[]
  efficiency: readonly number[]
  /** Taken off where the output voltage is far above the source's (`ratioLoss`); 0 where it is not given. */
  highRatioLoss?: number
}

/** A DC-DC converter with constant current and constant voltage at its output. */
export interface Converter {
  kind: ConverterKind
  /** Range of input voltage in which it runs; above it breaks. V. */
  inputVoltageLeast: number
  inputVoltageMost: number
  /** Greatest input current for hours, A. */
  inputCurrent: number
  /** Range of output voltage, V. */
  outputVoltageLeast: number
  outputVoltageMost: number
  /** Greatest output current for hours, A. */
  outputCurrent: number
  /** Greatest output power, W; where it is not given, output current times set voltage. */
  outputPower?: number | undefined
  /** Set output voltage, V. */
  voltage: number
  /** Set output current, A. */
  current: number
  efficiencyByLoad: EfficiencyByLoad
  /** Drawn from the source as long as it runs, W, besides what the efficiency takes. */
  standby: number
  /** Least difference between input and output of a converter that steps one way only, V. */
  headroom: number
}

/** Greatest efficiency of the typical curve as it stands below. */
const typicalBest = 0.955

/**
 * Efficiency over load of a good synchronous converter with a stated greatest efficiency. The shape is a judgement: published designs of this size state
 * 93 to 98 % at one load each, and a curve over load was read for a larger stage only.
 *
 * @param best greatest efficiency, above 0, below 1
 */
export function typicalEfficiency(best: number): EfficiencyByLoad {
  return {
    load: [0.02, 0.05, 0.1, 0.2, 0.5, 1],
    efficiency: [0.75, 0.88, 0.92, 0.945, 0.955, 0.95].map((value) => (value * best) / typicalBest),
    // Judgement: 1 to 2 percent.
    highRatioLoss: 0.015,
  }
}

/** Ratio of output to input voltage up to which a step-up loses no more than at even voltages, and from which all of `highRatioLoss` is lost. */
const evenRatio = 2.5
const highRatio = 3.5

/**
 * Share of `highRatioLoss` at a ratio of output to input voltage: a straight rise about 3, the ratio above which 1 to 2 percent are usually taken off, as one figure,
 * so that a voltage set a little higher costs a little more. A judgement: the published designs read here say only that nothing is lost yet at 2.9 (97 % there
 * as at 1.6) and 95 % is left at 4.2, with a diode.
 */
function ratioLoss(ratio: number): number {
  return Math.min(1, Math.max(0, (ratio - evenRatio) / (highRatio - evenRatio)))
}

/** Output power and the power drawn for it, W, standby not in it; both ascending from 0 and linear between. */
export interface PowerCurve {
  out: Float64Array
  drawn: Float64Array
}

/** Rated output power, W. */
export function ratedPower(converter: Converter): number {
  return Math.min(converter.outputPower ?? Infinity, converter.outputCurrent * converter.voltage)
}

/**
 * Power drawn over power given. It is linear between the loads of the efficiency table, which makes it exact at them and as cheap to read backwards.
 *
 * @param sourceVoltage nominal voltage of the source, V: for the loss at a high ratio, which so stands still as the source empties
 */
export function powerCurve(converter: Converter, sourceVoltage: number): PowerCurve {
  const { load, efficiency, highRatioLoss = 0 } = converter.efficiencyByLoad
  const less = highRatioLoss * ratioLoss(converter.voltage / sourceVoltage)
  const rated = ratedPower(converter)
  return {
    out: Float64Array.from([0, ...load.map((share) => share * rated)]),
    drawn: Float64Array.from([0, ...load.map((share, i) => (share * rated) / (efficiency[i]! - less))]),
  }
}

/** Column `to` at a value of column `from`, both of one power curve; beyond the end straight on. Most values lie near the end, so it looks from there. */
function along(from: Float64Array, to: Float64Array, value: number): number {
  let k = from.length - 1
  while (k > 1 && value < from[k - 1]!) k--
  const share = (value - from[k - 1]!) / (from[k]! - from[k - 1]!)
  return to[k - 1]! + share * (to[k]! - to[k - 1]!)
}

/** Power drawn, W, for a power given, W, not below 0. */
export function drawnFor(curve: PowerCurve, out: number): number {
  return along(curve.out, curve.drawn, out)
}

/** Power given, W, for a power drawn, W, not below 0. */
export function givenFor(curve: PowerCurve, drawn: number): number {
  return along(curve.drawn, curve.out, drawn)
}

/** What is wrong with a converter's own figures. Voltages in V. */
export type ConverterFault =
  | { code: 'inputRange' }
  | { code: 'outputRange' }
  | { code: 'noOutput' }
  | { code: 'nothingSet' }
  | { code: 'setOutside'; least: number; most: number; set: number }
  | { code: 'negativeDraw' }
  | { code: 'converterEfficiency' }

/** What is wrong with a converter's own figures; undefined where nothing is. */
export function converterFault(converter: Converter): ConverterFault | undefined {
  const { voltage: set, outputVoltageLeast: least, outputVoltageMost: most } = converter
  const { load, efficiency } = converter.efficiencyByLoad
  if (!(converter.inputVoltageLeast >= 0 && converter.inputVoltageLeast < converter.inputVoltageMost))
    return { code: 'inputRange' }
  if (!(least >= 0 && least < most)) return { code: 'outputRange' }
  if (!(set > 0 && converter.current > 0)) return { code: 'nothingSet' }
  if (!(converter.inputCurrent > 0 && ratedPower(converter) > 0)) return { code: 'noOutput' }
  if (!(set >= least && set <= most)) return { code: 'setOutside', least, most, set }
  if (!(converter.standby >= 0 && converter.headroom >= 0)) return { code: 'negativeDraw' }
  const rising = load.every((share, i) => share > (load[i - 1] ?? 0))
  if (load.length < 1 || efficiency.length !== load.length || !rising || !efficiency.every((e) => e > 0.1 && e <= 1))
    return { code: 'converterEfficiency' }
  return undefined
}

/** Part of a source's discharge, at rest, in which a converter cannot do what is wanted: from a charge down to a lower one. */
export type OutOfReach = {
  from: number
  to: number
  /** Source's resting voltage at which it begins, or for a step-up ends, V. */
  voltage: number
  /** Whether it is the whole discharge. */
  isAlways: boolean
} & (
  | { code: 'passedOn' }
  /** @param set voltage, V */
  | { code: 'belowSet'; set: number }
  | { code: 'belowInput' }
)

/**
 * Part of a source's discharge, at rest, over which the wanted output lies outside what this kind of converter can do; undefined where there is
 * none. Under load the source sags: a step-down ends somewhat sooner, a step-up begins sooner. A step-up passes a source that is too high straight on,
 * its current unlimited.
 *
 * @param source the pack it draws from
 * @param outputLeast lowest output voltage wanted, V: that of the bike's pack as it is
 */
export function outOfReach(converter: Converter, source: Pack, outputLeast: number): OutOfReach | undefined {
  const { kind, headroom, voltage: set, inputVoltageLeast } = converter
  const { chemistry, series, cutOffVoltage } = source
  const chargeAt = (rest: number) => chargeAtOpenCircuit(chemistry, rest / series)
  const empty = chargeAt(cutOffVoltage)
  const least = Math.max(inputVoltageLeast, kind === 'step-down' ? set + headroom : 0)
  if (kind === 'step-up') {
    const voltage = outputLeast - headroom
    const to = Math.max(empty, chargeAt(voltage))
    if (to < 1) return { code: 'passedOn', from: 1, to, voltage, isAlways: to === empty }
  }
  if (least <= cutOffVoltage) return undefined
  const from = chargeAt(least)
  if (from <= empty) return undefined
  const part = { from, to: empty, voltage: least, isAlways: from >= 1 }
  return least > inputVoltageLeast ? { code: 'belowSet', set, ...part } : { code: 'belowInput', ...part }
}
