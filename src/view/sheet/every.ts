import type { Timetable } from '../../model/plan/day-schema'
import { passageParameters } from '../../model/plan/day-parameters'
import { readTimes } from '../../model/text/times'
import { secondsPerHour, secondsPerMinute } from '../../model/units'
import type { Typed } from '../fields/typed'
import type { FoldedWords } from '../words/folded'

/** Sailings that come again and again, as people write them: `every 60 min, 07:15 to 21:15`, `1.5 h 6:00-20:00`; or one sentence. */
export function readEvery(
  text: string,
  words: FoldedWords['crossings']['timetable'],
): Typed<Pick<Extract<Timetable, { kind: 'every' }>, 'kind' | 'interval' | 'from' | 'until'>> {
  const [, number, unit, ...clocks] =
    /^\D*?(\d+(?:[.,]\d+)?)\s*(min|h)\b\D*?(\d{1,2}[:.]\d{2})\D+?(\d{1,2}[:.]\d{2})\D*$/i.exec(text) ?? []
  // One by one, for a list of times is put in order.
  const [from, until] = clocks.map((clock) => readTimes(clock))
  if (!from?.ok || !until?.ok) return { ok: false, sentence: words.notEvery }
  const interval = Number(number!.replace(',', '.')) * (unit!.toLowerCase() === 'h' ? secondsPerHour : secondsPerMinute)
  const { min, max } = passageParameters.interval
  if (interval < min || interval > max) return { ok: false, sentence: words.everyOutside(min, max) }
  return { ok: true, value: { kind: 'every', interval, from: from.value[0]!, until: until.value[0]! } }
}
