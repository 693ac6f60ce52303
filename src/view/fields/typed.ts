import { areaOfGauge } from '../../model/battery/cable'
import type { Parameter } from '../../model/plan/parameters'
import type { Reading } from '../../model/text/reading'
import { fromShown, toShown, type DisplayUnit } from '../format'
import { plainWords } from '../words/words'

/** What was typed, or one sentence on what is wrong with it. */
export type Typed<T = number> = { ok: true; value: T } | { ok: false; sentence: string }

/** The same with the fault worded. */
export const worded = <T, F>(reading: Reading<T, F>, words: (fault: F) => string): Typed<T> =>
  reading.ok ? reading : { ok: false, sentence: words(reading.fault) }

type Bounds = Pick<Parameter, 'min' | 'max' | 'quantity'>

const rounded = (shown: number, digits: number) => Number(shown.toFixed(digits))

/** A value as a field shows it: to one digit more than the unit's own, so that what was typed stays, and no zeros behind. */
export const fieldText = (value: number, unit: DisplayUnit): string =>
  String(rounded(toShown(value, unit), unit.digits + 1))

const withUnit = (text: string, { symbol }: DisplayUnit) => (symbol === '' ? text : `${text} ${symbol}`)

/** A number as people write it: `12.5`, `12,5`, `1,012.5`, `1.012,5`, `−3`, with the unit behind it or not; of a conductor `AWG 14` too. */
export function readNumber(text: string, symbol: string): number | undefined {
  const [, before, behind] = (symbol === 'mm²' && /^\s*(?:awg\s*(\d+)|(\d+)\s*awg)\s*$/i.exec(text)) || []
  if (before !== undefined || behind !== undefined) return areaOfGauge(Number(before ?? behind))
  let plain = text.replace(/\s/g, '').replace('−', '-')
  const unit = symbol.replace(/\s/g, '')
  if (unit !== '' && plain.toLowerCase().endsWith(unit.toLowerCase())) plain = plain.slice(0, -unit.length)
  if (/^[+-]?\d{1,3}(,\d{3})+\.\d*$/.test(plain)) plain = plain.replaceAll(',', '')
  else if (/^[+-]?\d{1,3}(\.\d{3})+,\d*$/.test(plain)) plain = plain.replaceAll('.', '')
  plain = plain.replace(',', '.')
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined
}

/** `until then 8 A counts.`: what counts until something better is typed. @param value null where the field is empty */
export const untilThen = (value: number | null, unit: DisplayUnit): string =>
  plainWords().field.until(value === null ? undefined : withUnit(fieldText(value, unit), unit))

/** How a field is held against others that its value must agree with. */
export interface Agreeing {
  /** Why a value, null of an empty field, can't count beside the others, as the beginning of a sentence; undefined where it can. */
  fault: (value: number | null) => string | undefined
  /** What was typed and waits until others agree with it; undefined where nothing does. */
  waiting: number | null | undefined
  /** Has what was typed wait; undefined once it counts, or is given up. */
  wait: (value: number | null | undefined) => void
}

/**
 * What was typed into a field, in SI, or one sentence on why it does not count. Bounds hold to the digits that the field shows: what
 * rounds to a bound is the bound.
 *
 * @param value what counts until something better is typed; null where the field is empty
 */
export function readTyped(text: string, bounds: Bounds, unit: DisplayUnit, value: number | null): Typed {
  const words = plainWords().field
  const stays = untilThen(value, unit)
  const typed = readNumber(text, unit.symbol)
  if (typed === undefined) return { ok: false, sentence: `${words.notNumber} ${stays}` }
  if (bounds.quantity === 'count' && !Number.isInteger(typed))
    return { ok: false, sentence: `${words.notWhole} ${stays}` }
  const digits = unit.digits + 1
  const low = rounded(toShown(bounds.min, unit), digits)
  const high = rounded(toShown(bounds.max, unit), digits)
  const shown = rounded(typed, digits)
  if (shown < low || shown > high)
    return { ok: false, sentence: `${words.outside(String(low), withUnit(String(high), unit))} ${stays}` }
  return { ok: true, value: held(fromShown(typed, unit), bounds) }
}

const held = (value: number, { min, max }: Bounds) => Math.min(Math.max(value, min), max)

/** The value some steps of the display unit on, from step to step, held within bounds. */
export function stepped(value: number, steps: number, bounds: Bounds, unit: DisplayUnit): number {
  const at = toShown(value, unit) / unit.step
  const from = steps > 0 ? Math.floor(at + 1e-6) : Math.ceil(at - 1e-6)
  return held(fromShown((from + steps) * unit.step, unit), bounds)
}
