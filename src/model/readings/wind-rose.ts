import type { Leg } from './legs'
import type { Outcome } from '../forecast/outcome'
import { radiansPerDegree } from '../units'
import { roadOf } from '../ride/road'
import { headWindOf, noWeather, type WeatherAlong } from '../world/weather'

/** One of 16 directions of travel. */
export interface Sector {
  /** Middle of the sector, degrees from north. */
  degrees: number
  /** Ridden length, m. */
  length: number
  /** Mean wind against the rider at 10 m height, m/s; negative from behind, 0 where nothing is ridden. */
  headWind: number
}

/** A leg's wind. */
export interface LegWind {
  number: number
  /** Mean wind against the rider at 10 m height, m/s; negative from behind. */
  headWind: number
  /** Shares of the length with wind from within 60° of ahead, and of behind. */
  ahead: number
  behind: number
  /** Whether more than half of it is into the wind. */
  intoWind: boolean
}

const sectors = 16
const withinCosine = Math.cos(60 * radiansPerDegree)
const calm = 0.5 // m/s: below this no direction counts, a choice

/**
 * The wind rose of a ride: how far it goes in each direction, with the wind met there at the hour it is ridden.
 *
 * @returns 16 sectors, the first to the north, clockwise
 */
export function windRose(outcome: Outcome, weather: WeatherAlong): Sector[] {
  const rose = Array.from({ length: sectors }, (_, k) => ({ degrees: (360 * k) / sectors, length: 0, headWind: 0 }))
  windOver(outcome, weather, 0, outcome.columns.time.length - 1, (heading, step, headWind) => {
    const turns = heading / (2 * Math.PI)
    const sector = rose[Math.round((turns - Math.floor(turns)) * sectors) % sectors]!
    sector.length += step
    sector.headWind += headWind * step
  })
  for (const sector of rose) if (sector.length > 0) sector.headWind /= sector.length
  return rose
}

/** Wind of each leg at the hour it is ridden; says which are into it. */
export const legWinds = (outcome: Outcome, weather: WeatherAlong, legs: readonly Leg[]): LegWind[] =>
  legs.map(({ number, first, last, length }) => {
    let sum = 0
    let ahead = 0
    let behind = 0
    windOver(outcome, weather, first, last, (_, step, headWind, wind) => {
      sum += headWind * step
      if (wind < calm) return
      if (headWind > wind * withinCosine) ahead += step
      else if (headWind < -wind * withinCosine) behind += step
    })
    const share = (part: number) => (length > 0 ? part / length : 0)
    return { number, headWind: share(sum), ahead: share(ahead), behind: share(behind), intoWind: ahead > 0.5 * length }
  })

/** @param each called with heading in radians, step in m, wind against the rider and whole wind in m/s */
function windOver(
  { columns, route }: Outcome,
  weather: WeatherAlong,
  first: number,
  last: number,
  each: (heading: number, step: number, headWind: number, wind: number) => void,
): void {
  const { distance, heading } = route.stations
  const { east, north } = roadOf(route)
  const here = noWeather()
  for (let i = first; i < last; i++) {
    const step = distance[i + 1]! - distance[i]!
    if (step === 0) continue
    weather.at(columns.time[i + 1]!, distance[i]!, here)
    each(heading[i]!, step, headWindOf(here, east[i]!, north[i]!), Math.hypot(here.windEast, here.windNorth))
  }
}
