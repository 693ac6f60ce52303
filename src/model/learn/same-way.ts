import { interpolate } from '../columns'
import type { Recording } from '../recording/recording'
import { laidOver } from './that-day'

/** One ride that two devices recorded differed by so much in length, which goes into its time by place: less than that is noise. */
const noise = 0.03

/** Two rides of one way: their numbers, riding times over what both rode, s, and whether they differ by more than two recordings of one ride do. */
export interface SameWay {
  rides: readonly [number, number]
  riding: readonly [number, number]
  differs: boolean
}

/** Which recordings went the same way, in the same direction, and whether their riding times differ by more than noise. @param recordings undefined where there is none */
export function sameWays(recordings: readonly (Recording | undefined)[]): SameWay[] {
  return recordings.flatMap((one, k) =>
    recordings.slice(k + 1).flatMap((other, l) => {
      if (one === undefined || other === undefined) return []
      const laid = laidOver(one.route, other)
      if (laid === undefined) return []
      const { distance, riding: clock } = laid.clock
      const at = (place: number) => interpolate(one.route.points.distance, one.riding, place)
      const riding = [at(distance.at(-1)!) - at(distance[0]!), clock.at(-1)! - clock[0]!] as const
      const share = Math.abs(riding[1] / riding[0] - 1)
      return [{ rides: [k, k + 1 + l] as const, riding, differs: share > noise }]
    }),
  )
}
