import { coarser } from '../forecast/coarser'
import { OtherDays } from '../forecast/another-day'
import { Ride } from '../forecast/ride'
import { Tally } from '../forecast/tally'
import { riderParameters } from '../plan/parameters'
import type { Plan } from '../plan/schema'
import type { Route } from '../route/route'
import { dayOf, uncertainIn } from './figures'
import { normalQuantile } from './normal'
import { SobolPoints } from './sobol'

/** What a rider may get better at, and by how much: power, W; mass, kg; share of the fade. */
export const training = { power: 10, mass: 5, fade: 0.25 } as const
export type Training = keyof typeof training

const days = 64
const seed = 1

/** What it is worth: least, middle and most of 8 in 10 days, more than now where above 0. */
export interface Spread {
  low: number
  middle: number
  high: number
}
export interface TrainingWorth {
  of: Training
  /** Riding time saved, s. */
  time: Spread
  /** Energy saved from the packs, J; on days on which they are not spent either way. */
  energy: Spread | undefined
}

const better: Record<Training, (plan: Plan) => Plan> = {
  power: (plan) => ({ ...plan, rider: { ...plan.rider, power: plan.rider.power + training.power } }),
  mass: (plan) => ({
    ...plan,
    rider: { ...plan.rider, mass: Math.max(riderParameters.mass.min, plan.rider.mass - training.mass) },
  }),
  fade: (plan) => ({ ...plan, rider: { ...plan.rider, fade: (1 - training.fade) * plan.rider.fade } }),
}

/**
 * What training is worth on this day: each possible day is ridden as it is and once with each thing better, so that what is not known of rider, bike and
 * weather is in the spread of the difference and not beside it.
 *
 * @param input whose day it is
 */
export function trainingWorth(route: Route, { plan }: { plan: Plan }): TrainingWorth[] {
  const road = coarser(route, plan.bike)
  const uncertain = uncertainIn(road, plan)
  const others = new OtherDays(road, plan)
  const none = new Float64Array(0)
  const tally = new Tally([], none, none, none)
  const dimensions = uncertain.deviates.reduce((sum, count) => sum + count, 0)
  const points = new SobolPoints(dimensions, seed)
  const deviates = new Float64Array(dimensions)
  const names = Object.keys(better) as Training[]
  const saved = names.map(() => ({ time: [] as number[], energy: [] as number[] }))
  for (let index = 0; index < days; index++) {
    points.at(index, deviates)
    const day = dayOf(road, plan, uncertain, deviates.map(normalQuantile), plan.forecastAhead)
    const taken = (of: Plan) => {
      const prepared = others.on(of, day)
      const ride = new Ride(prepared)
      tally.run(prepared, ride, ride.state())
      const { ridingTime, drained, runsEmpty } = tally
      return { ridingTime, drained, runsEmpty }
    }
    const now = taken(day.plan)
    names.forEach((name, k) => {
      const then = taken(better[name](day.plan))
      saved[k]!.time.push(now.ridingTime - then.ridingTime)
      if (!now.runsEmpty && !then.runsEmpty) saved[k]!.energy.push(now.drained - then.drained)
    })
  }
  return names.map((of, k) => {
    const { time, energy } = saved[k]!
    return { of, time: spreadOf(time), energy: energy.length < days / 2 ? undefined : spreadOf(energy) }
  })
}

function spreadOf(values: readonly number[]): Spread {
  const sorted = values.toSorted((a, b) => a - b)
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))]!
  return { low: at(0.1), middle: at(0.5), high: at(0.9) }
}
