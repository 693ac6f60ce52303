import { surroundings } from '../plan/parameters'
import type { Plan } from '../plan/schema'
import { rollingFactor } from '../plan/stretches'
import { airDensity, pressureAt, windShare } from '../ride/air'
import { roadOf } from '../ride/road'
import { stationNear } from '../route/nearest'
import type { Route } from '../route/route'
import { headWindOf, noWeather, setOut, sideWindOf } from '../world/weather'
import type { WeatherAlong } from '../world/weather-along'
import { remembered } from './remembered'

/**
 * What route and plan say of each step, one row a station for the step from it to the next, all of a row side by side: the ride reads them in this
 * order, and one stream through memory is quicker than ten.
 */
export const row = {
  /** Along the slope, m; 0 for a crossing. */
  length: 0,
  /** Factor on the rolling coefficient: surface, and cosine of the slope. */
  rolling: 1,
  /** Sine of the slope. */
  rise: 2,
  /** See `climbShare`. */
  climb: 3,
  /** Motor power for each watt of the rider. */
  assist: 4,
  /** Where one weather holds all day: density of the air, kg/m³, and wind against the rider and from the right at his height, m/s. */
  density: 5,
  head: 6,
  side: 7,
  /** Else: pressure over that at sea level, what part of the wind at 10 m meets the rider as wind from east and north, and elevation half-way, m. */
  pressure: 5,
  east: 6,
  north: 7,
  middle: 8,
} as const
export const rowLength = 9

const densityEvery = 20 // m of height

/**
 * The steps of a ride; worked out anew only where what they are made of changes.
 *
 * @returns rows as in `row`
 */
export function stepsOf(route: Route, plan: Plan, weather: WeatherAlong): Float64Array {
  const { stretches, bike, assist } = plan
  const keys = [stretches, bike.surfaceFactor, assist.ratio, assist.climbRatio, weather]
  return remembered(route, 'steps', keys, () => {
    const road = roadOf(route)
    const count = road.length.length
    const along = alongRoute(route, plan)
    const steps = new Float64Array(rowLength * count)
    for (let i = 0, at = 0; i < count; i++, at += rowLength) {
      steps[at + row.length] = road.length[i]!
      steps[at + row.rolling] = along.surface[i]! * road.level[i]!
      steps[at + row.rise] = road.rise[i]!
      steps[at + row.climb] = road.climb[i]!
    }
    writeAssist(steps, route, plan)
    writeAir(steps, route, plan, weather, along.wind)
    return steps
  })
}

/**
 * Writes the air of each step: its density and the wind, or where the weather is by the hour what they are reckoned from.
 *
 * @param steps rows as in `row`; changed in place
 * @param wind share of the wind that reaches each step, from `windAlong`
 */
export function writeAir(
  steps: Float64Array,
  route: Route,
  plan: Plan,
  weather: WeatherAlong,
  wind: Float64Array,
): void {
  const road = roadOf(route)
  const steady = plan.weather.table.length === 0 ? steadyAir(route, plan) : undefined
  const now = noWeather()
  weather.at(setOut, now)
  const share = windShare(surroundings[plan.weather.surroundings])
  for (let i = 0, at = 0; i < wind.length; i++, at += rowLength) {
    const reaches = share * wind[i]!
    const east = road.east[i]!
    const north = road.north[i]!
    const middle = road.middle[i]!
    steps[at + row.density] = steady === undefined ? pressureAt(middle, 1) : steady(middle)
    steps[at + row.middle] = middle
    steps[at + row.head] = reaches * (steady === undefined ? east : headWindOf(now, east, north))
    steps[at + row.side] = reaches * (steady === undefined ? north : sideWindOf(now, east, north))
  }
}

/** Share of the open wind that the stretches leave, one entry a station. */
export function windAlong(route: Route, { stretches }: Plan): Float64Array {
  const wind = new Float64Array(route.stations.distance.length).fill(1)
  for (const { start, end, shelter } of stretches)
    if (shelter !== null) wind.fill(shelter, stationNear(route, start), stationNear(route, end))
  return wind
}

/** What the stretches say, and the plan where they say nothing; one entry a station, for the step from it to the next. */
function alongRoute(route: Route, plan: Plan) {
  const { stretches, bike } = plan
  const surface = new Float64Array(route.stations.distance.length).fill(bike.surfaceFactor)
  for (const stretch of stretches)
    surface.fill(rollingFactor(bike, stretch), stationNear(route, stretch.start), stationNear(route, stretch.end))
  return { surface, wind: windAlong(route, plan) }
}

/** Writes the assist of each step. @param steps rows as in `row`; changed in place */
export function writeAssist(steps: Float64Array, route: Route, { assist, stretches }: Plan): void {
  const { climb } = roadOf(route)
  const more = assist.climbRatio - assist.ratio
  for (let i = 0, at = row.assist; i < climb.length; i++, at += rowLength) steps[at] = assist.ratio + more * climb[i]!
  for (const { start, end, assistRatio } of stretches)
    if (assistRatio !== null) {
      const to = stationNear(route, end)
      for (let i = stationNear(route, start); i < to; i++) steps[rowLength * i + row.assist] = assistRatio
    }
}

/** Density of the air, kg/m³, at a height, m, of the route: linear between heights 20 m apart. */
function steadyAir(route: Route, { weather }: Plan): (height: number) => number {
  const { lowest, highest } = roadOf(route)
  const start = route.stations.elevation[0]!
  const table = Float64Array.from({ length: Math.ceil((highest - lowest) / densityEvery) + 2 }, (_, i) => {
    const height = lowest + i * densityEvery
    const celsius = weather.temperatureCelsius - weather.lapseRate * (height - start)
    return airDensity(pressureAt(height, weather.seaLevelPressure), celsius, weather.humidity)
  })
  return (height) => {
    const place = (height - lowest) / densityEvery
    const i = Math.floor(place)
    return table[i]! + (place - i) * (table[i + 1]! - table[i]!)
  }
}
