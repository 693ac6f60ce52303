import type { WeatherHour, WeatherPlace } from '../plan/day-schema'
import { radiansPerDegree } from '../units'
import type { Moment, Weather } from './weather'
import { instantOf } from './zone'

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

/** How the weather differs from what is foretold: temperature, °C, speed of the wind, m/s, and where it comes from, radians clockwise. */
export interface Disturbance {
  celsius: number
  speed: number
  turn: number
}

/** Numbers for an hour, in the order of `Weather`. */
const quantities = 5

/** One place's weather over time: `quantities` numbers for each of its hours. */
interface Series {
  /** Ridden distance, m. */
  distance: number
  /** Seconds since the start, ascending. */
  times: Float64Array
  values: Float64Array
}

/**
 * Weather at any time and distance of a ride: linear in time between the hours of each place, linear in distance between places, held
 * beyond the first and last of both. The wind goes as a vector, so that one that turns is weaker half-way.
 *
 * Between two hours and two places that is the product of two straight lines; they are kept from one question to the next, for the next mostly lies
 * between the same.
 */
export class WeatherAlong {
  /** Between which times, s, and distances, m, `lines` hold, the ends not. */
  private fromTime = 0
  private untilTime = 0
  private fromDistance = 0
  private untilDistance = 0
  /** Where they begin: a time, s, and a distance, m. */
  private time = 0
  private distance = 0
  /** For each quantity its value there, and by how much it grows a second, a metre, and a second and metre. */
  private readonly lines = new Float64Array(4 * quantities)

  private constructor(private readonly series: Series[]) {}

  /**
   * @param table up to three places; none for one weather all day
   * @param plain what stands in for what the table does not know
   * @param wetting see there
   * @param started Unix time of the start, s
   * @param zone tz database name of the table's clock
   * @param heightAt elevation at a ridden distance in m, m; the plain temperature is that at the start
   */
  static of(
    table: readonly WeatherPlace[],
    plain: PlainWeather,
    wetting: Wetting,
    started: number,
    zone: string,
    heightAt: (distance: number) => number,
  ): WeatherAlong {
    const places = table.length > 0 ? [...table].sort((a, b) => a.distance - b.distance) : [plainPlace]
    const series = places.map((place) => {
      const hours = [...place.hours].sort((a, b) => (a.time < b.time ? -1 : a.time > b.time ? 1 : 0))
      const times = Float64Array.from(hours, ({ time }) => (time === '' ? 0 : instantOf(time, zone) - started))
      const lowered = plain.lapseRate * heightAt(place.distance)
      const atStart = plain.temperatureCelsius + plain.lapseRate * heightAt(0)
      const values = valuesOf(hours, times, plain, lowered, atStart, wetting)
      return { distance: place.distance, times, values }
    })
    return new WeatherAlong(series)
  }

  /**
   * The same weather as it may come instead: other in the air's temperature and in the wind, the rain as it is.
   *
   * @param by how it differs at a time, s since the start
   */
  disturbed(by: (time: number) => Disturbance): WeatherAlong {
    const series = this.series.map(({ distance, times, values }) => {
      const changed = values.slice()
      times.forEach((time, hour) => {
        const { celsius, speed, turn } = by(time)
        const k = quantities * hour
        const east = values[k + 1]!
        const north = values[k + 2]!
        const blows = Math.hypot(east, north)
        const factor = blows > 0 ? Math.max(0, blows + speed) / blows : 0
        changed[k] = values[k]! + celsius
        changed[k + 1] = factor * (east * Math.cos(turn) + north * Math.sin(turn))
        changed[k + 2] = factor * (north * Math.cos(turn) - east * Math.sin(turn))
      })
      return { distance, times, values: changed }
    })
    return new WeatherAlong(series)
  }

  /** Fills in the weather of a moment. Allocates nothing. */
  at(moment: Moment, into: Weather): void {
    const { time, distance } = moment
    if (!(
      time >= this.fromTime &&
      time < this.untilTime &&
      distance >= this.fromDistance &&
      distance < this.untilDistance
    ))
      this.look(moment)
    const { lines } = this
    const t = time - this.time
    const d = distance - this.distance
    into.seaLevelCelsius = lines[0]! + lines[1]! * t + (lines[2]! + lines[3]! * t) * d
    into.windEast = lines[4]! + lines[5]! * t + (lines[6]! + lines[7]! * t) * d
    into.windNorth = lines[8]! + lines[9]! * t + (lines[10]! + lines[11]! * t) * d
    into.pressure = lines[12]! + lines[13]! * t + (lines[14]! + lines[15]! * t) * d
    into.wetness = lines[16]! + lines[17]! * t + (lines[18]! + lines[19]! * t) * d
  }

  /** Finds the lines that hold at a moment. */
  private look({ time, distance }: Moment): void {
    const { series, lines } = this
    const next = series.findIndex((place) => place.distance > distance)
    const after = series.at(next)!
    const before = next > 0 ? series[next - 1]! : after
    const early = spanAt(before, time)
    const late = spanAt(after, time)
    this.fromTime = Math.max(early.from, late.from)
    this.untilTime = Math.min(early.until, late.until)
    this.fromDistance = next === 0 ? -Infinity : before.distance
    this.untilDistance = next < 0 ? Infinity : after.distance
    this.time = Number.isFinite(this.fromTime) ? this.fromTime : 0
    this.distance = before.distance
    const way = after.distance - before.distance
    lines.fill(0)
    for (let q = 0; q < quantities; q++) {
      const k = 4 * q
      setLine(lines, k, before, early, q, this.time)
      if (way === 0) continue
      setLine(lines, k + 2, after, late, q, this.time)
      lines[k + 2] = (lines[k + 2]! - lines[k]!) / way
      lines[k + 3] = (lines[k + 3]! - lines[k + 1]!) / way
    }
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

/** Between which hours of a place, s since the start, and its index of the former, a time lies; before the first and after the last nothing changes. */
interface Span {
  from: number
  until: number
  hour: number
}

function spanAt({ times }: Series, time: number): Span {
  const next = times.findIndex((other) => other > time)
  const hour = next < 0 ? times.length - 1 : Math.max(0, next - 1)
  return { from: next === 0 ? -Infinity : times[hour]!, until: next < 0 ? Infinity : times[next]!, hour }
}

/** Writes a quantity at a time, s, of the span, and how much it grows a second there, one after the other. */
function setLine(
  lines: Float64Array,
  at: number,
  { times, values }: Series,
  { from, until, hour }: Span,
  quantity: number,
  time: number,
): void {
  const value = values[hour * quantities + quantity]!
  const slope = Number.isFinite(until - from)
    ? (values[(hour + 1) * quantities + quantity]! - value) / (until - from)
    : 0
  lines[at] = value + slope * (time - times[hour]!)
  lines[at + 1] = slope
}
