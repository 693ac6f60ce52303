import type { Outcome } from '../forecast/outcome'
import { roadOf } from '../ride/road'
import { radiansPerDegree } from '../units'
import { headWindOf, noWeather } from '../world/weather'
import { departuresOf } from './departures'

/** The wind over a stretch. */
export interface StretchWind {
  /** Mean wind against the rider at 10 m height, m/s; negative from behind. */
  against: number
  /** Shares of the length with wind from within 60° of ahead, and of behind; below 0.5 m/s it comes from nowhere. */
  ahead: number
  behind: number
}

/** Whether more than half of a stretch goes into the wind, or before it. */
export const isInto = ({ ahead }: StretchWind): boolean => ahead > 0.5
export const isBefore = ({ behind }: StretchWind): boolean => behind > 0.5

/** One of 16 directions of travel. */
export interface Sector {
  /** Middle of the sector, degrees from north. */
  degrees: number
  /** Ridden length, m. */
  length: number
  wind: StretchWind
}

const sectors = 16
const withinCosine = Math.cos(60 * radiansPerDegree)
const calm = 0.5 // m/s: below this no direction counts, a choice

/** The one rule for what is head wind and what is tail wind, summed up over steps. */
class WindSum {
  length = 0
  private against = 0
  private ahead = 0
  private behind = 0

  /** @param step length, m @param against wind against the rider, m/s @param wind all of it, m/s */
  add(step: number, against: number, wind: number): void {
    this.length += step
    this.against += against * step
    if (wind < calm) return
    if (against > wind * withinCosine) this.ahead += step
    else if (against < -wind * withinCosine) this.behind += step
  }

  mean(): StretchWind {
    const { length, against, ahead, behind } = this
    const share = (part: number) => (length > 0 ? part / length : 0)
    return { against: share(against), ahead: share(ahead), behind: share(behind) }
  }
}

/**
 * The wind rose of a ride: how far it goes in each direction, with the wind met there at the hour it is ridden.
 *
 * @returns 16 sectors, the first to the north, clockwise
 */
export function windRose(outcome: Outcome): Sector[] {
  const sums = Array.from({ length: sectors }, () => new WindSum())
  windOver(outcome)(0, outcome.columns.time.length - 1, (heading, step, against, wind) => {
    sums[Math.round((heading / (2 * Math.PI)) * sectors) % sectors]!.add(step, against, wind)
  })
  return sums.map((sum, k) => ({ degrees: (360 * k) / sectors, length: sum.length, wind: sum.mean() }))
}

/**
 * The wind over stretches of a ride at the hour they are ridden.
 *
 * @returns asked with the first and last station of a stretch
 */
export function windBetween(outcome: Outcome): (first: number, last: number) => StretchWind {
  const over = windOver(outcome)
  return (first, last) => {
    const sum = new WindSum()
    over(first, last, (_, step, against, wind) => sum.add(step, against, wind))
    return sum.mean()
  }
}

/** Called with heading in radians, 0 to 2π, step in m, wind against the rider and whole wind in m/s. */
type EachStep = (heading: number, step: number, against: number, wind: number) => void

/** Goes over ridden steps with the wind by which the forecast rides them: that on leaving the station. */
function windOver(outcome: Outcome): (first: number, last: number, each: EachStep) => void {
  const { route, weather } = outcome
  const { distance, heading } = route.stations
  const { east, north } = roadOf(route)
  const leaves = departuresOf(outcome)
  const here = noWeather()
  return (first, last, each) => {
    for (let i = first; i < last; i++) {
      const step = distance[i + 1]! - distance[i]!
      if (step === 0) continue
      weather.at({ time: leaves(i), distance: distance[i]! }, here)
      each(heading[i]!, step, headWindOf(here, east[i]!, north[i]!), Math.hypot(here.windEast, here.windNorth))
    }
  }
}
