import { interpolate } from '../columns'
import type { Recording } from '../recording/recording'
import { stationNear } from '../route/nearest'
import type { Span80 } from './beliefs'
import { Forecaster, stretchLength, type Evidence } from './evidence'
import { cholesky, type Matrix } from './linear'
import { deviationOver } from './noise'
import { indexOf, knownOf, sharedCount, type Posterior } from './posterior'
import { healthFactor, toNinetyPercent, unknowns } from './unknowns'
import { widened } from './widened'

/** What is foretold of a way: riding time, s, and energy out of the packs, J, each with the deviation of its logarithm. */
export interface Foretold {
  riding: Span80
  ridingDeviation: number
  energy: Span80
  energyDeviation: number
}

/**
 * What is foretold of a way by what was learnt: its riding time with the span that follows from all that is not known, and from what no figure tells.
 * A wind that is not known makes a round way slower from wherever it blows, so slopes alone are not enough: along each column of the covariance's
 * Cholesky factor, where what is not known is independent and normal, mean and variance of the logarithms are those at Gauss and Hermite's three points.
 *
 * @param evidence of the ride that the way is part of; its times and readings are not looked at
 * @param ride number of that ride where it is one of those learnt from, whose wind and form are known in part
 * @param from station
 * @param to station
 * @see Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.10, n = 3
 */
export function foretell(
  posterior: Posterior,
  evidence: Evidence,
  ride: number | undefined,
  from: number,
  to: number,
): Foretold {
  const asked: Evidence = {
    ...evidence,
    from: [from],
    to: [to],
    time: [1],
    followsOn: [false],
    readings: [from, to].map((station) => ({ station, left: 0, deviation: 1 })),
  }
  const { z, covariance } = knowledgeFor(posterior, ride)
  const forecaster = new Forecaster(asked)
  const look = (at: readonly number[]) => {
    const known = knownOf(at, 0)
    const { times, left } = forecaster.run(known)
    return {
      time: times[0]!,
      energy: Math.log(Math.max(1, (left[0]! - left[1]!) * asked.usable * healthFactor(known))),
    }
  }
  const now = look(z)
  const factor = cholesky(covariance)
  const pairs = z.map((_, k) => {
    const moved = (by: number) => look(z.map((value, i) => value + by * factor[i]![k]!))
    return [moved(Math.sqrt(3)), moved(-Math.sqrt(3))] as const
  })
  const { distance } = evidence.route.stations
  const noise = posterior.noise[ride ?? 0]!
  const alone = deviationOver(noise, (distance[to]! - distance[from]!) / stretchLength)
  const normal = (key: 'time' | 'energy') => {
    let middle = now[key]
    let variance = alone * alone
    for (const [more, less] of pairs) {
      const [up, down] = [more[key] - now[key], less[key] - now[key]]
      const mean = (up + down) / 6
      middle += mean
      variance += (up * up + down * down) / 6 - mean * mean
    }
    return { middle, deviation: Math.sqrt(variance) }
  }
  const [time, energy] = [normal('time'), normal('energy')]
  return {
    riding: spanOf(time.middle, time.deviation),
    ridingDeviation: time.deviation,
    energy: spanOf(energy.middle, energy.deviation),
    energyDeviation: energy.deviation,
  }
}

const spanOf = (middle: number, deviation: number): Span80 => ({
  middle: Math.exp(middle),
  low80: Math.exp(middle - toNinetyPercent * deviation),
  high80: Math.exp(middle + toNinetyPercent * deviation),
})

/** What is known of the unknowns of one ride: those of rider and bike, and its own. */
function knowledgeFor({ z, covariance }: Posterior, ride: number | undefined): { z: number[]; covariance: Matrix } {
  const places = unknowns.map(({ key, perRide }) => {
    const place = indexOf(key, ride ?? 0)
    return perRide && ride === undefined ? -1 : place
  })
  const order = unknowns.map(({ key }) => indexOf(key, 0))
  const known = Array<number>(unknowns.length).fill(0)
  const matrix = known.map((_, i) => known.map((_, j) => Number(i === j && i >= sharedCount)))
  order.forEach((to, k) => {
    if (places[k]! < 0) return
    known[to] = z[places[k]!]!
    order.forEach((other, l) => {
      if (places[l]! >= 0) matrix[to]![other] = covariance[places[k]!]![places[l]!]!
    })
  })
  return { z: known, covariance: matrix }
}

/** What a part of a ride took, beside what was foretold of it and what goes on as before would be. */
export interface Tested {
  foretold: Span80
  plainGuess: number
  ridden: number
}

/** A rider's own test of what was learnt: the part of a ride that was not looked at. */
export interface OwnTest {
  /** Riding time, s; the plain guess has the mean speed of the first part. */
  riding: Tested
  /** Energy out of the packs, J, by readings of the charge where the part begins and at the finish; the plain guess takes as much a metre as the first part. */
  energy: Tested | undefined
}

/**
 * The part of a recorded ride behind the place up to which it was learnt from, with its span widened as that of a day is.
 *
 * @param ride number of the ride among those learnt from
 * @param until ridden distance, m
 * @param left what was read of the charge in all packs, 0 to 1, at the start, at `until` and at the finish; undefined where one was not read
 */
export function ownTest(
  posterior: Posterior,
  recording: Recording,
  ride: number,
  until: number,
  left: readonly [number, number, number] | undefined,
): OwnTest {
  const { riding } = recording
  const { route, usable } = posterior.evidence[ride]!
  const { distance } = route.stations
  const from = stationNear(route, until)
  const to = distance.length - 1
  const before = interpolate(route.points.distance, riding, distance[from]!)
  const asBefore = (route.length - distance[from]!) / distance[from]!
  const wide = { ...posterior, covariance: widened(posterior.covariance) }
  const foretold = foretell(wide, posterior.evidence[ride]!, ride, from, to)
  return {
    riding: { foretold: foretold.riding, plainGuess: before * asBefore, ridden: riding.at(-1)! - before },
    energy: left && {
      foretold: foretold.energy,
      plainGuess: (left[0] - left[1]) * usable * asBefore,
      ridden: (left[1] - left[2]) * usable,
    },
  }
}
