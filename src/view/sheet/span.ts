import type { Typed } from '../fields/typed'
import type { FoldedWords } from '../words/folded'

/** A span of hours and minutes as people write it: `11:30`, `11 h 30 min`, `11 h`, `11.5`; empty for none. Seconds, or one sentence. */
export function readSpan(text: string, words: FoldedWords['controls']): Typed<number | null> {
  const plain = text.trim().toLowerCase()
  if (plain === '') return { ok: true, value: null }
  const clock = /^(\d{1,3})\s*(?::|h)\s*(?:([0-5]?\d)\s*(?:min|m)?)?$/.exec(plain)
  const decimal = /^(\d{1,3}(?:[.,]\d+)?)$/.exec(plain)
  const hours =
    clock !== null
      ? Number(clock[1]) + Number(clock[2] ?? 0) / 60
      : decimal !== null
        ? Number(decimal[1]!.replace(',', '.'))
        : undefined
  if (hours === undefined) return { ok: false, sentence: words.notSpan }
  if (hours < 1 / 60 || hours > 720) return { ok: false, sentence: words.spanOutside }
  return { ok: true, value: 60 * Math.round(hours * 60) }
}
