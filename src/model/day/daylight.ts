import { getPosition, getTimes, type SunTimes } from 'suncalc'
import { departure, type Outcome } from '../outcome/outcome'
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

/** What part of a ride goes through which light. */
export interface DaylightSummary {
  /** Ridden length in each light, m; and time in motion, s. */
  length: Record<Light, number>
  time: Record<Light, number>
  /** Share of the length in twilight or dark. */
  share: number
  /** Ridden distance, m, and time since the start, s, at which it is first and last twilight or dark; undefined where it never is. */
  first: { distance: number; time: number } | undefined
  last: { distance: number; time: number } | undefined
  /** Energy of the lamps if they burn in twilight and dark only, J. */
  lampEnergy: number
}

/**
 * Light over a whole ride, step by step between stations.
 *
 * @param light of the same route and start
 * @param lampPower W
 */
export function daylightOf(outcome: Outcome, light: LightAlong, lampPower: number): DaylightSummary {
  const { distance } = outcome.route.stations
  const { ridingTime, time } = outcome.columns
  const byLength: Record<Light, number> = { day: 0, twilight: 0, dark: 0 }
  const byTime: Record<Light, number> = { day: 0, twilight: 0, dark: 0 }
  const leaves = new Map(outcome.halts.map(({ station }) => [station, departure(outcome, station)]))
  let first: DaylightSummary['first']
  let last: DaylightSummary['last']
  for (let i = 0; i + 1 < distance.length; i++) {
    const step = distance[i + 1]! - distance[i]!
    if (step === 0) continue
    const leave = leaves.get(i) ?? time[i]!
    const here = light.lightAt(i, 0.5 * (leave + time[i + 1]!))
    byLength[here] += step
    byTime[here] += ridingTime[i + 1]! - ridingTime[i]!
    if (here === 'day') continue
    first ??= { distance: distance[i]!, time: leave }
    last = { distance: distance[i + 1]!, time: time[i + 1]! }
  }
  return {
    length: byLength,
    time: byTime,
    share: (byLength.twilight + byLength.dark) / outcome.length,
    first,
    last,
    lampEnergy: lampPower * (byTime.twilight + byTime.dark),
  }
}

/**
 * Whether to carry lights, as a sentence.
 *
 * @param spare time after the planned finish up to sunset there, s; negative after it, undefined where the sun does not set
 */
export function lightsNote({ share }: DaylightSummary, spare: number | undefined): string {
  if (share > 0) return 'Part of the ride is in twilight or dark: carry lights front and rear, charged.'
  if (spare !== undefined && spare < 3600)
    return 'By plan it is daylight all the way, but a late hour ends in the dark: carry lights.'
  return 'By plan it is daylight all the way; small lights still help in tunnels, rain and fog, and the law may ask for them.'
}
