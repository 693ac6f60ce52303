import type { Outcome } from '../forecast/outcome'
import { roadOf } from '../ride/road'
import { radiansPerDegree } from '../units'
import { headWindOf, noWeather } from '../world/weather'
import { departuresOf } from './departures'

/** One of 16 directions of travel. */
export interface Sector {
  /** Middle of the sector, degrees from north. */
  degrees: number
  /** Ridden length, m. */
  length: number
  /** Mean wind against the rider at 10 m height, m/s; negative from behind, 0 where nothing is ridden. */
  against: number
}

/** The wind over a stretch. */
export interface StretchWind {
  /** Mean wind against the rider at 10 m height, m/s; negative from behind. */
  against: number
  /** Shares of the length with wind from within 60° of ahead, and of behind; below 0.5 m/s it comes from nowhere. */
  ahead: number
  behind: number
}

const sectors = 16
const withinCosine = Math.cos(60 * radiansPerDegree)
const calm = 0.5 // m/s: below this no direction counts, a choice

/**
 * The wind rose of a ride: how far it goes in each direction, with the wind met there at the hour it is ridden.
 *
 * @returns 16 sectors, the first to the north, clockwise
 */
export function windRose(outcome: Outcome): Sector[] {
  const rose = Array.from({ length: sectors }, (_, k) => ({ degrees: (360 * k) / sectors, length: 0, against: 0 }))
  windOver(outcome)(0, outcome.columns.time.length - 1, (heading, step, against) => {
    const turns = heading / (2 * Math.PI)
    const sector = rose[Math.round((turns - Math.floor(turns)) * sectors) % sectors]!
    sector.length += step
    sector.against += against * step
  })
  for (const sector of rose) if (sector.length > 0) sector.against /= sector.length
  return rose
}

/**
 * The wind over stretches of a ride at the hour they are ridden: the one rule for what is head wind and what is tail wind.
 *
 * @returns asked with the first and last station of a stretch
 */
export function windBetween(outcome: Outcome): (first: number, last: number) => StretchWind {
  const over = windOver(outcome)
  const { distance } = outcome.route.stations
  return (first, last) => {
    let sum = 0
    let ahead = 0
    let behind = 0
    over(first, last, (_, step, against, wind) => {
      sum += against * step
      if (wind < calm) return
      if (against > wind * withinCosine) ahead += step
      else if (against < -wind * withinCosine) behind += step
    })
    const length = distance[last]! - distance[first]!
    const share = (part: number) => (length > 0 ? part / length : 0)
    return { against: share(sum), ahead: share(ahead), behind: share(behind) }
  }
}

/** Called with heading in radians, step in m, wind against the rider and whole wind in m/s. */
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
      weather.at(leaves(i), distance[i]!, here)
      each(heading[i]!, step, headWindOf(here, east[i]!, north[i]!), Math.hypot(here.windEast, here.windNorth))
    }
  }
}
