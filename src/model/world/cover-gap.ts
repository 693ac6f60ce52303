import type { WeatherPlace } from '../plan/day-schema'
import { instantOf } from './zone'

/** What a weather table leaves out of a ride; the place is named where the table has several. */
export interface CoverGap {
  code: 'beginsLate' | 'endsEarly'
  place: string | undefined
}

/**
 * Whether the table tells of the whole ride.
 *
 * @param started Unix time of the start, s
 * @param finished Unix time of the finish, s
 * @returns undefined where it does
 */
export function coverGap(
  table: readonly WeatherPlace[],
  started: number,
  finished: number,
  zone: string,
): CoverGap | undefined {
  for (const { name, hours } of table) {
    const times = hours.map(({ time }) => instantOf(time, zone))
    const place = table.length > 1 ? name : undefined
    if (Math.min(...times) > started) return { code: 'beginsLate', place }
    if (Math.max(...times) < finished) return { code: 'endsEarly', place }
  }
  return undefined
}
