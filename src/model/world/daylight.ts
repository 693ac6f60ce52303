import { getPosition, getTimes, type SunTimes } from 'suncalc'
import type { Route } from '../route/route'
import { instantOf } from './zone'

/** Sun times of one local date at one place, Unix time, s; undefined where the sun does not pass that height on the date. */
export interface SunDay {
  dawn: number | undefined
  sunrise: number | undefined
  sunset: number | undefined
  dusk: number | undefined
  /** Whether it stays up, or down, all day; undefined where it rises and sets. */
  always: 'up' | 'down' | undefined
}

/**
 * Sunrise, sunset and civil twilight of a local date. They are taken around the zone's noon of that date: an instant late in the evening
 * or a date counted in UTC would give the events of a neighbouring day.
 *
 * @param latitude degrees
 * @param longitude degrees
 * @param date local, `YYYY-MM-DD`
 * @param zone tz database name
 * @see Meeus, Astronomical Algorithms, by suncalc; rise and set at −0.833°, civil twilight at −6°
 */
export function sunOn(latitude: number, longitude: number, date: string, zone: string): SunDay {
  const times = getTimes(dateOf(instantOf(`${date}T12:00`, zone)), latitude, longitude)
  const instant = (event: Date | null) => (event === null ? undefined : event.getTime() / 1000)
  return {
    dawn: instant(times.dawn),
    sunrise: instant(times.sunrise),
    sunset: instant(times.sunset),
    dusk: instant(times.dusk),
    always: times.alwaysUp === true ? 'up' : times.alwaysDown === true ? 'down' : undefined,
  }
}

export type Light = 'day' | 'twilight' | 'dark'

const anchorEvery = 10_000 // m
const mostAnchors = 60
const solarDay = 86_400
const civilApparent = -5.5 // degrees: 6 below the horizon as the library's refraction lifts it

/**
 * The light along a route from some instant on. Sun times are taken at anchors some kilometres apart and for some days, then read between
 * them in a straight line, so that it costs little to ask at every station: within a second of asking the sun itself.
 */
export class LightAlong {
  /** Stations of the anchors, ascending. */
  private readonly at: Float64Array
  /** Of each anchor and day: first light, sunrise, sunset, last light, s since the start. */
  private readonly events: Float64Array
  private readonly noon: Float64Array
  /** The anchor of the last question, so that the next one need not search. */
  private cursor = 0

  /**
   * @param route at least two stations
   * @param started Unix time of the start, s
   * @param days how many days from that of the start are told; the last stands for all that follow
   */
  constructor(
    route: Route,
    started: number,
    private readonly days = 3,
  ) {
    const { distance, latitude, longitude } = route.stations
    const every = Math.max(anchorEvery, route.length / mostAnchors)
    const at: number[] = []
    for (const { first, last } of route.sections) {
      const pieces = Math.min(last - first, Math.max(1, Math.ceil((distance[last]! - distance[first]!) / every)))
      for (let k = 0; k <= pieces; k++) at.push(first + Math.round(((last - first) * k) / pieces))
    }
    this.at = Float64Array.from(at)
    this.noon = new Float64Array(at.length)
    this.events = new Float64Array(at.length * days * 4)
    at.forEach((station, anchor) => {
      for (let day = 0; day < days; day++) {
        const [phi, lambda] = [latitude[station]!, longitude[station]!]
        const times = getTimes(dateOf(started + day * solarDay), phi, lambda)
        const noon = times.solarNoon.getTime() / 1000 - started
        if (day === 0) this.noon[anchor] = noon
        this.events.set(spans(times, noon, started, phi, lambda), (anchor * days + day) * 4)
      }
    })
  }

  /**
   * The light at a station at a time.
   *
   * @param station index
   * @param time since the start, s
   */
  lightAt(station: number, time: number): Light {
    const { at, events, days } = this
    const last = at.length - 1
    let i = this.cursor
    while (i + 1 < last && at[i + 1]! <= station) i++
    while (i > 0 && at[i]! > station) i--
    this.cursor = i
    const share = (station - at[i]!) / (at[i + 1]! - at[i]!)
    const noon = this.noon[i]! + share * (this.noon[i + 1]! - this.noon[i]!)
    const day = Math.min(days - 1, Math.max(0, Math.round((time - noon) / solarDay)))
    const from = (i * days + day) * 4
    const to = from + days * 4
    if (time >= between(events, from + 1, to + 1, share) && time < between(events, from + 2, to + 2, share))
      return 'day'
    return time >= between(events, from, to, share) && time < between(events, from + 3, to + 3, share)
      ? 'twilight'
      : 'dark'
  }
}

const between = (column: Float64Array, from: number, to: number, share: number) =>
  column[from]! + share * (column[to]! - column[from]!)

const dateOf = (instant: number) => new Date(instant * 1000)

/** First light, sunrise, sunset and last light, s since the start. A sun that stays up shines from midnight to midnight, one that stays down from noon to noon. */
function spans(times: SunTimes, noon: number, started: number, latitude: number, longitude: number): number[] {
  const half = solarDay / 2
  const [rise, set] =
    times.sunrise !== null && times.sunset !== null
      ? [sinceStart(times.sunrise, started), sinceStart(times.sunset, started)]
      : times.alwaysUp === true
        ? [noon - half, noon + half]
        : [noon, noon]
  const [dawn, dusk] =
    times.dawn !== null && times.dusk !== null
      ? [sinceStart(times.dawn, started), sinceStart(times.dusk, started)]
      : getPosition(times.nadir, latitude, longitude).altitude > civilApparent
        ? [noon - half, noon + half]
        : [noon, noon]
  return [dawn, rise, set, dusk]
}

const sinceStart = (event: Date, started: number) => event.getTime() / 1000 - started
