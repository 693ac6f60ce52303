import type { ProposedGap } from '../../model/route/clean'
import type { ProposedPart } from '../../model/route/recognise'
import type { Gap } from '../../model/route/route'
import { onRide, type Travelled } from '../../model/route/travelled'
import type { Typed } from '../fields/typed'
import { readNumber } from '../fields/typed'
import { fromShown, unitOf, type Units } from '../format'
import { foldedWordsIn } from '../words/folded'
import { gapWordsIn } from '../words/gaps'

/** A gap of the file or a marked part, as the sheet lists them. */
type Listed = {
  /** On the whole track, m. */
  from: number
  /** Number of the route's crossing; undefined where it is none. */
  crossing: number | undefined
} & ({ gap: ProposedGap; part?: undefined } | { part: Travelled; gap?: undefined })

/** Gaps, ridden or not, and marked parts in order of the track; gaps within a marked part are part of it. */
export function listed(gaps: readonly ProposedGap[], travelled: readonly Travelled[]): Listed[] {
  const between = travelled.filter(({ place }) => place === 'between')
  const crossing = (from: number) => {
    const index = between.findIndex((one) => one.from === from)
    return index < 0 ? undefined : index
  }
  const parts = travelled.filter(({ marked }) => marked)
  return [
    ...gaps
      .map((gap) => ({ from: gap.from, crossing: crossing(gap.from), gap }))
      .filter(({ gap }) => !parts.some(({ from, to }) => gap.from < to && gap.to > from)),
    ...parts.map((part) => ({ from: part.from, crossing: crossing(part.from), part })),
  ].sort((a, b) => a.from - b.from)
}

/** What an entry of the list is, where it lies and how long it is. */
export function entrySentence({ gap, part, crossing }: Listed, crossings: readonly Gap[], units: Units): string {
  if (gap !== undefined) return gapWordsIn(units).gap(gap)
  const words = foldedWordsIn(units).crossings
  const length = part.to - part.from
  if (part.place !== 'between') return words.leftOut[part.place](length)
  const time = crossing === undefined ? undefined : crossings[crossing]?.recordedTime
  return words.marked(part.distance, length, time)
}

export function proposalSentence(part: ProposedPart, travelled: readonly Travelled[], units: Units): string {
  return foldedWordsIn(units).crossings.looksLike(part, onRide(travelled, part.from), onRide(travelled, part.to))
}

/**
 * A place typed in the units shown, as ridden distance, m; or one sentence.
 *
 * @param what begins or ends there
 * @param length of the ride, m; what rounds to it is it
 */
export function readPlace(text: string, what: 'begins' | 'ends', length: number, units: Units): Typed {
  const words = foldedWordsIn(units).crossings.mark
  const unit = unitOf('distance', units)
  const typed = readNumber(text.replace(/^\s*(km|miles?)\b/i, ''), unit.symbol)
  if (typed === undefined) return { ok: false, sentence: words.notPlace[what] }
  const metres = fromShown(typed, unit)
  if (metres < 0) return { ok: false, sentence: words.before }
  if (metres > length + fromShown(0.05, unit)) return { ok: false, sentence: words.beyond(length) }
  return { ok: true, value: Math.min(metres, length) }
}
