import type { WeatherHour, WeatherPlace } from '../plan/day-schema'
import { radiansPerDegree } from '../units'
import { instantOf } from './zone'

/** The weather at a place and time, for the hot loop: made once, filled in again and again. */
export interface Weather {
  /** °C, carried down to sea level by the lapse rate: the air at a height h m has this less lapse rate × h. */
  seaLevelCelsius: number
  /** The air's own motion at 10 m height toward east and north, m/s. */
  windEast: number
  windNorth: number
  /** mm/h. */
  rainPerHour: number
  /** At sea level, Pa. */
  pressure: number
  /** How wet the road is: 0 dry, 1 wet. */
  wetness: number
}

/** What holds where the table is silent: the names of the plan's `weather`, and its sky without rain. */
export interface PlainWeather {
  temperatureCelsius: number
  windSpeed: number
  windFromDegrees: number
  seaLevelPressure: number
  /** K/m. */
  lapseRate: number
}

/** How a road gets wet: rain that wets it wholly, mm/h, and time in which it dries, s. Values of `wetParameters`. */
export interface Wetting {
  rain: number
  dryingTime: number
}

export const noWeather = (): Weather => ({
  seaLevelCelsius: 0,
  windEast: 0,
  windNorth: 0,
  rainPerHour: 0,
  pressure: 0,
  wetness: 0,
})

const quantities = 6

/** One place's weather over time: `quantities` numbers for each of its hours. */
interface Series {
  /** Ridden distance, m. */
  distance: number
  /** Seconds since the start, ascending. */
  times: Float64Array
  values: Float64Array
  /** Reciprocal of the time to the next, 1/s; 0 for the last. */
  perTime: Float64Array
  /** Where the last reading was, so that the next one need not search. */
  cursor: number
}

/**
 * Weather at any time and distance of a ride: linear in time between the hours of each place, linear in distance between places, held
 * beyond the first and last of both. The wind goes as a vector, so that one that turns is weaker half-way.
 */
export class WeatherAlong {
  private readonly series: Series[]
  private readonly here = new Float64Array(quantities)
  private readonly next = new Float64Array(quantities)

  /**
   * @param table up to three places; none for one weather all day
   * @param plain what stands in for what the table does not know
   * @param wetting see there
   * @param started Unix time of the start, s
   * @param zone tz database name of the table's clock
   * @param heightAt elevation at a ridden distance in m, m; the plain temperature is that at the start
   */
  constructor(
    table: readonly WeatherPlace[],
    plain: PlainWeather,
    wetting: Wetting,
    started: number,
    zone: string,
    heightAt: (distance: number) => number,
  ) {
    const places = table.length > 0 ? [...table].sort((a, b) => a.distance - b.distance) : [plainPlace]
    this.series = places.map((place) => {
      const hours = [...place.hours].sort((a, b) => (a.time < b.time ? -1 : a.time > b.time ? 1 : 0))
      const times = Float64Array.from(hours, ({ time }) => (time === '' ? 0 : instantOf(time, zone) - started))
      const lowered = plain.lapseRate * heightAt(place.distance)
      const atStart = plain.temperatureCelsius + plain.lapseRate * heightAt(0)
      const values = valuesOf(hours, times, plain, lowered, atStart, wetting)
      const perTime = times.map((time, k) => (k + 1 < times.length ? 1 / (times[k + 1]! - time) : 0))
      return { distance: place.distance, times, values, perTime, cursor: 0 }
    })
  }

  /**
   * Fills in the weather of a moment of the ride. Allocates nothing.
   *
   * @param time since the start, s
   * @param distance ridden, m
   */
  at(time: number, distance: number, into: Weather): void {
    const { series, here, next } = this
    let i = 0
    while (i + 1 < series.length && series[i + 1]!.distance <= distance) i++
    read(series[i]!, time, here)
    const before = series[i]!.distance
    const after = series[i + 1]
    if (after !== undefined && distance > before) {
      read(after, time, next)
      const share = (distance - before) / (after.distance - before)
      for (let k = 0; k < quantities; k++) here[k]! += share * (next[k]! - here[k]!)
    }
    into.seaLevelCelsius = here[0]!
    into.windEast = here[1]!
    into.windNorth = here[2]!
    into.rainPerHour = here[3]!
    into.pressure = here[4]!
    into.wetness = here[5]!
  }
}

const plainPlace: WeatherPlace = {
  name: '',
  distance: 0,
  hours: [
    {
      time: '',
      temperatureCelsius: null,
      windSpeed: null,
      windFromDegrees: null,
      rainPerHour: null,
      pressure: null,
    },
  ],
}

function valuesOf(
  hours: readonly WeatherHour[],
  times: Float64Array,
  plain: PlainWeather,
  lowered: number,
  atStart: number,
  wetting: Wetting,
): Float64Array {
  const known = (of: (hour: WeatherHour) => number | null) => filled(times, hours.map(of))
  const celsius = known(({ temperatureCelsius }) => temperatureCelsius)
  const speed = known(({ windSpeed }) => windSpeed)
  let blowsFrom =
    hours.find(({ windFromDegrees }) => windFromDegrees !== null)?.windFromDegrees ?? plain.windFromDegrees
  const rain = known(({ rainPerHour }) => rainPerHour)
  const pressure = known(({ pressure }) => pressure)
  const values = new Float64Array(hours.length * quantities)
  let wet = 0
  hours.forEach(({ windFromDegrees }, k) => {
    blowsFrom = windFromDegrees ?? blowsFrom // a blank is the direction before it
    const from = blowsFrom * radiansPerDegree
    const wind = speed?.[k] ?? plain.windSpeed
    const falls = rain?.[k] ?? 0
    const dried = k === 0 ? 0 : (times[k]! - times[k - 1]!) / wetting.dryingTime
    wet = Math.max(Math.min(1, falls / wetting.rain), wet - dried, 0)
    values.set(
      [
        celsius === undefined ? atStart : celsius[k]! + lowered,
        -wind * Math.sin(from),
        -wind * Math.cos(from),
        falls,
        pressure?.[k] ?? plain.seaLevelPressure,
        wet,
      ],
      k * quantities,
    )
  })
  return values
}

/** Values with the blanks filled from the hours around them, in a straight line; undefined where all are blank. */
function filled(times: Float64Array, values: (number | null)[]): number[] | undefined {
  const given = values.flatMap((value, k) => (value === null ? [] : [k]))
  if (given.length === 0) return undefined
  return values.map((value, k) => {
    if (value !== null) return value
    const after = given.find((other) => other > k)
    const before = given.findLast((other) => other < k)
    if (before === undefined) return values[after!]!
    if (after === undefined) return values[before]!
    const share = (times[k]! - times[before]!) / (times[after]! - times[before]!)
    return values[before]! * (1 - share) + values[after]! * share
  })
}

function read(series: Series, time: number, into: Float64Array): void {
  const { times, values, perTime } = series
  const last = times.length - 1
  let k = series.cursor
  while (k < last && times[k + 1]! <= time) k++
  while (k > 0 && times[k]! > time) k--
  series.cursor = k
  const from = k * quantities
  const to = k < last ? from + quantities : from
  const share = time > times[k]! ? (time - times[k]!) * perTime[k]! : 0
  for (let q = 0; q < quantities; q++) into[q] = values[from + q]! + share * (values[to + q]! - values[from + q]!)
}

/**
 * Wind against a rider, m/s: what `StepConditions` calls headWind, before the share of it that reaches the rider's height.
 *
 * @param east sine of the rider's heading from north
 * @param north its cosine
 */
export const headWindOf = ({ windEast, windNorth }: Weather, east: number, north: number): number =>
  -(windEast * east + windNorth * north)

/**
 * Wind from the rider's right, m/s.
 *
 * @param east sine of the rider's heading from north
 * @param north its cosine
 */
export const sideWindOf = ({ windEast, windNorth }: Weather, east: number, north: number): number =>
  windNorth * east - windEast * north

/**
 * A dry factor made one of a part-wet road.
 *
 * @param wetness 0 to 1
 * @param wetFactor what a wholly wet road multiplies by
 */
export const wetFactor = (wetness: number, wetFactor: number): number => 1 + (wetFactor - 1) * wetness

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
