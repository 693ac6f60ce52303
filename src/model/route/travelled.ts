/**
 * A stretch of the whole cleaned track of a line, m from its first point, every gap counted with its straight length: the same
 * whatever is taken as ridden.
 */
export interface Stretch {
  from: number
  to: number
}

/** What is not ridden: a gap or a marked part, with what they join up with. */
export interface Travelled extends Stretch {
  /** Ridden distance at which it lies, m. */
  distance: number
  /** Between two ridden stretches it is a crossing of the route; at an end the ride begins after it, or is over before it. */
  place: 'start' | 'between' | 'end'
  /** A marked part is in it. */
  marked: boolean
}

/** A ridden stretch is at least this long, m: two stations. */
export const LEAST_RIDDEN = 20
/** A marked part is at least this long, m; shorter ones are typing errors. */
const SHORTEST_PART = 100

/**
 * What is not ridden, in order and apart from each other. What overlaps or lies closer together than 20 m joins up, and a marked part with
 * an end of the track.
 *
 * @param gaps in order, those that were not ridden
 * @param marked in any order; what lies beyond the track is left out
 * @param length of the whole track, m
 */
export function travelledOf(gaps: readonly Stretch[], marked: readonly Stretch[], length: number): Travelled[] {
  const kept = marked
    .map(({ from, to }) => ({ from: Math.max(from, 0), to: Math.min(to, length), marked: true }))
    .filter(({ from, to }) => to > from)
  const all = [...gaps.map(({ from, to }) => ({ from, to, marked: false })), ...kept].sort((a, b) => a.from - b.from)
  const joined: typeof all = []
  for (const next of all) {
    const last = joined.at(-1)
    if (last !== undefined && next.from - last.to < LEAST_RIDDEN) {
      last.to = Math.max(last.to, next.to)
      last.marked ||= next.marked
    } else joined.push(next)
  }
  const [first] = joined
  if (first?.marked && first.from < LEAST_RIDDEN) first.from = 0
  const last = joined.at(-1)
  if (last?.marked && length - last.to < LEAST_RIDDEN) last.to = length
  let left = 0
  return joined.map(({ from, to, marked }) => {
    const distance = from - left
    left += to - from
    return { from, to, marked, distance, place: from === 0 ? 'start' : to === length ? 'end' : 'between' }
  })
}

/**
 * Where a place of the ride lies on the whole track, m from its first point. Where something is travelled it is the end before it,
 * at the start of the ride that behind it.
 *
 * @param travelled as of the route on which the distance is ridden
 * @param ridden distance, m
 * @param end the other one for what begins there, within a millimetre
 */
export function onTrack(travelled: readonly Travelled[], ridden: number, end: 'before' | 'behind' = 'before'): number {
  const past = end === 'before' ? ridden : ridden + 0.001
  let left = 0
  for (const { from, to, distance, place } of travelled) if (place === 'start' || distance < past) left += to - from
  return ridden + left
}

/**
 * Ridden distance of a place on the whole track, m; of a place that is travelled, that where the travelling begins.
 *
 * @param travelled as of the route on which the distance is ridden
 * @param track m from the first point
 */
export function onRide(travelled: readonly Travelled[], track: number): number {
  let left = 0
  for (const { from, to, distance } of travelled) {
    if (track <= from) break
    if (track < to) return distance
    left += to - from
  }
  return track - left
}

/** Why a part can't be marked; lengths in m. */
export type MarkFault = { code: 'backward' | 'nothingRidden' } | { code: 'tooShort'; least: number }

/**
 * Marked parts with one more, given as the ride is now; or why it can't be.
 *
 * @param marked parts so far
 * @param travelled as of the route now
 * @param length ridden length of the route now, m
 * @param part ridden distances at which it begins and ends, m
 */
export function markPart(
  marked: readonly Stretch[],
  travelled: readonly Travelled[],
  length: number,
  part: Stretch,
): { ok: true; marked: Stretch[] } | { ok: false; fault: MarkFault } {
  const { from, to } = part
  if (to <= from) return { ok: false, fault: { code: 'backward' } }
  if (to - from < SHORTEST_PART) return { ok: false, fault: { code: 'tooShort', least: SHORTEST_PART } }
  if (from < LEAST_RIDDEN && length - to < LEAST_RIDDEN) return { ok: false, fault: { code: 'nothingRidden' } }
  return { ok: true, marked: [...marked, { from: onTrack(travelled, from), to: onTrack(travelled, to) }] }
}

/** Marked parts without those that lie in a stretch that was ridden after all. */
export const unmark = (marked: readonly Stretch[], { from, to }: Stretch): Stretch[] =>
  marked.filter((part) => part.to <= from || part.from >= to)
