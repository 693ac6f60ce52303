import type { Link } from './chain'
import type { DayParts } from './day-parts'
import type { AssistTable } from './frontier'
import type { AssistedRide } from './held'

/** Whether what is saved in a part is waited for at its end, at a sailing or a control. */
function isWaitedFor({ parts }: DayParts, { passage }: Link, s: number, ridden: AssistedRide): boolean {
  const left = ridden.leftOnArrival[parts[s + 1]!]!
  const { time } = ridden.arrive[parts[s + 1]!]!
  return passage !== undefined && passage(left, time - 1).time === passage(left, time).time
}

/**
 * What one more joule in each part saves at the finish, with the charge that it takes on a ride, s/J. What is saved before a sailing that is waited for is
 * waited for there: then the joule is kept for the part behind it.
 */
export function pricesOf(day: DayParts, links: readonly Link[], ridden: AssistedRide): number[] {
  const { parts } = day
  const prices: number[] = []
  let kept: number | undefined
  for (let s = links.length - 1; s >= 0; s--) {
    const left = ridden.leftOnArrival[parts[s + 1]!]!
    if (isWaitedFor(day, links[s]!, s, ridden)) kept = prices[0]
    prices.unshift(kept ?? links[s]!.frontier.price(ridden.leftOnLeaving[parts[s]!]! - left))
  }
  return prices
}

/** For less on a stretch more assist is of no use, s: a choice. */
const ofUse = 0.1

/**
 * What one more joule saves where it is spent, s/J, stretch by stretch: the price of the part, but nothing where no higher ratio is quicker, as at a speed
 * limit or where the rider coasts, and nothing where what is saved is waited for.
 *
 * @param prices of the parts, s/J
 * @returns places, m, those of one price joined
 */
export function pricesAlong(
  day: DayParts,
  { ratios, time }: AssistTable,
  links: readonly Link[],
  prices: readonly number[],
  ridden: AssistedRide,
): { start: number; end: number; price: number }[] {
  const { distance } = day.route.stations
  const along: { start: number; end: number; price: number }[] = []
  prices.forEach((ofPart, s) => {
    const waits = isWaitedFor(day, links[s]!, s, ridden)
    for (let k = day.parts[s]!; k < day.parts[s + 1]!; k++) {
      const [from, to] = [day.ends[k]!, day.ends[k + 1]!]
      const timeAt = (l: number) => time[ratios.length * k + l]!
      const now = Math.max(
        0,
        ratios.findLastIndex((ratio) => ratio <= ridden.ratios[from]!),
      )
      const isOfUse = ratios.some((_, l) => l > now && timeAt(l) < timeAt(now) - ofUse)
      const price = waits || !isOfUse ? 0 : ofPart
      const [start, end] = [distance[from]!, distance[to]!]
      const before = along.at(-1)
      if (before?.price === price) before.end = end
      else if (end > start) along.push({ start, end, price })
    }
  })
  return along
}
