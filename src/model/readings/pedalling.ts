import type { Outcome } from '../forecast/outcome'
import { walking } from '../ride/motion'
import { ascentBetween } from '../route/ascent'
import { terrainRuns } from './terrain'

/** How the pedals are turned: turns, 1/s; mean torque at the cranks over a turn, N·m; and the mean force along the pedal's way that makes it, N. */
export interface Pedalling {
  cadence: number
  torque: number
  force: number
}

/** What is stated of cranks, gears and wheel. */
export interface Gearing {
  /** Turns that the rider likes, 1/s. */
  cadence: number
  /** Teeth in front over teeth at the rear, of the lowest gear. */
  lowestGear: number
  /** m. */
  crankLength: number
  wheelRadius: number
}

/**
 * How the pedals are turned at a power and a speed: at the cadence that the rider likes, or as slowly as the lowest gear makes at that speed. Torque is
 * power over angular speed; both legs together and the mean over a turn, of which the greatest is about twice as much (judgement).
 *
 * @param power of the rider, W
 * @param speed m/s, above 0
 * @see P = T ω, and ω of the cranks = v / (wheel radius × gear)
 */
export function pedallingAt(power: number, speed: number, gearing: Gearing): Pedalling {
  const inLowest = speed / (2 * Math.PI * gearing.wheelRadius * gearing.lowestGear)
  const cadence = Math.min(gearing.cadence, inLowest)
  const torque = power / (2 * Math.PI * cadence)
  return { cadence, torque, force: torque / gearing.crankLength }
}

/** A climb as the pedals feel it. */
export interface PedalledClimb {
  /** Ridden distance of its foot and top, m. */
  start: number
  end: number
  ascent: number
  /** In the mean, and over its hardest stretch, which ends at `hardestAt`, m. */
  mean: Pedalling
  hardest: Pedalling
  hardestAt: number
}

/** Length over which the hardest of a climb is told: some twenty turns of the cranks, m. A choice. */
const hardestOver = 100

export const gearingOf = ({ plan }: Pick<Outcome, 'plan'>): Gearing => ({
  ...plan.pedalling,
  wheelRadius: plan.bike.wheelRadius,
})

/** The climbs of the route, as `terrainRuns` finds them, with how the pedals are turned on them; those that are walked whole are left out. */
export function pedalledClimbs(outcome: Outcome): PedalledClimb[] {
  const { route } = outcome
  const { distance } = route.stations
  const gearing = gearingOf(outcome)
  return route.sections
    .flatMap(({ first, last }) => terrainRuns(route, first, last))
    .filter(({ terrain }) => terrain === 'climb')
    .flatMap(({ first, last }) => {
      const mean = pedalledBetween(outcome, gearing, first, last)
      if (mean === undefined) return []
      let hardest = mean
      let at = last
      for (let from = first, to = first; to <= last; to++) {
        while (distance[to]! - distance[from + 1]! >= hardestOver) from++
        if (distance[to]! - distance[from]! < hardestOver) continue
        const here = pedalledBetween(outcome, gearing, from, to)
        if (here !== undefined && here.torque > hardest.torque) [hardest, at] = [here, to]
      }
      const { ascent } = ascentBetween(route.stations, first, last)
      return [{ start: distance[first]!, end: distance[last]!, ascent, mean, hardest, hardestAt: distance[at]! }]
    })
}

/** Between two stations, without what is walked; undefined where nothing is pedalled. */
function pedalledBetween(outcome: Outcome, gearing: Gearing, first: number, last: number): Pedalling | undefined {
  const { columns, route } = outcome
  let work = 0
  let time = 0
  let length = 0
  for (let i = first; i < last; i++) {
    if ((columns.state[i]! & walking) !== 0) continue
    work += columns.riderWork[i + 1]! - columns.riderWork[i]!
    time += columns.ridingTime[i + 1]! - columns.ridingTime[i]!
    length += route.stations.distance[i + 1]! - route.stations.distance[i]!
  }
  return work > 0 ? pedallingAt(work / time, length / time, gearing) : undefined
}

/** Greatest torque over 100 m of any climb, N·m; 0 where there is none. */
export const hardestTorque = (outcome: Outcome): number =>
  pedalledClimbs(outcome).reduce((most, { hardest }) => Math.max(most, hardest.torque), 0)
