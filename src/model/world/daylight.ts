import { getPosition, getTimes } from 'suncalc'
import { indexAtOrBelow } from '../columns'
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

/** Lights of a solar day in order, from midnight to midnight. */
const lights: readonly Light[] = ['dark', 'twilight', 'day', 'twilight', 'dark']

const anchorEvery = 10_000 // m
const mostAnchors = 60
const solarDay = 86_400
/** The library's refraction at and below the horizon, degrees: it gives apparent altitudes. */
const refraction = 0.484
const sunriseAltitude = -0.833 + refraction
const twilightAltitude = -6 + refraction
/** How close to a height it is passed, degrees: the sun does at most 0.0042° in a second. */
const closeEnough = 1e-4
const mostSteps = 40

/**
 * The sun at anchors some kilometres apart along a route, each solar day worked out when it is first asked for. Days are counted from 1970 by mean
 * solar time of the place.
 */
class SunAlong {
  /** Stations of the anchors, ascending. */
  readonly at: Float64Array
  private readonly noons = new Map<number, number>()
  private readonly edges = new Map<number, Float64Array>()

  constructor(private readonly route: Route) {
    const { distance } = route.stations
    const every = Math.max(anchorEvery, route.length / mostAnchors)
    const at: number[] = []
    for (const { first, last } of route.sections) {
      const pieces = Math.min(last - first, Math.max(1, Math.ceil((distance[last]! - distance[first]!) / every)))
      for (let k = 0; k <= pieces; k++) at.push(first + Math.round(((last - first) * k) / pieces))
    }
    this.at = Float64Array.from(at)
  }

  /**
   * When light changes at an anchor on a day, Unix time, s: midnight, first light, sunrise, sunset, last light, midnight. A height that the sun does not
   * pass in the morning or the evening is passed at midnight where it stays above, and at noon where it stays below.
   */
  edgesOf(anchor: number, day: number): Float64Array {
    const key = this.keyOf(anchor, day)
    const known = this.edges.get(key)
    if (known !== undefined) return known
    const noon = this.noonOf(anchor, day)
    const before = 0.5 * (this.noonOf(anchor, day - 1) + noon)
    const after = 0.5 * (noon + this.noonOf(anchor, day + 1))
    const passing = (night: number, altitude: number) => this.passing(anchor, night, noon, altitude)
    const edges = Float64Array.of(
      before,
      passing(before, twilightAltitude),
      passing(before, sunriseAltitude),
      passing(after, sunriseAltitude),
      passing(after, twilightAltitude),
      after,
    )
    this.edges.set(key, edges)
    return edges
  }

  private noonOf(anchor: number, day: number): number {
    const key = this.keyOf(anchor, day)
    let noon = this.noons.get(key)
    if (noon === undefined) {
      const mean = (day + 0.5 - this.turn(anchor)) * solarDay
      noon = getTimes(dateOf(mean), ...this.placeOf(anchor)).solarNoon.getTime() / 1000
      this.noons.set(key, noon)
    }
    return noon
  }

  /**
   * When the sun passes an apparent altitude, degrees, between a midnight and a noon; one of them where it does not.
   *
   * @see false position with the Illinois step: Dowell and Jarratt 1971, BIT 11:168-174
   */
  private passing(anchor: number, night: number, noon: number, altitude: number): number {
    const place = this.placeOf(anchor)
    const above = (instant: number) => getPosition(dateOf(instant), ...place).altitude - altitude
    let [down, below, up, over] = [night, above(night), noon, above(noon)]
    if (below >= 0) return night
    if (over <= 0) return noon
    let instant = night
    let side = 0
    for (let k = 0; k < mostSteps; k++) {
      instant = (down * over - up * below) / (over - below)
      const here = above(instant)
      if (Math.abs(here) < closeEnough) break
      if (here < 0) {
        down = instant
        below = here
        if (side < 0) over /= 2
        side = -1
      } else {
        up = instant
        over = here
        if (side > 0) below /= 2
        side = 1
      }
    }
    return instant
  }

  private placeOf(anchor: number): [latitude: number, longitude: number] {
    const { latitude, longitude } = this.route.stations
    const station = this.at[anchor]!
    return [latitude[station]!, longitude[station]!]
  }

  /** Part of a turn by which an anchor lies east of Greenwich. */
  private turn(anchor: number): number {
    return this.placeOf(anchor)[1] / 360
  }

  private keyOf(anchor: number, day: number): number {
    return day * this.at.length + anchor
  }
}

const suns = new WeakMap<Route, SunAlong>()

function sunAlong(route: Route): SunAlong {
  const sun = suns.get(route) ?? new SunAlong(route)
  suns.set(route, sun)
  return sun
}

/**
 * The light along a route from some instant on, for as long as anyone asks. Between anchors what the sun does is read in a straight line, within a
 * second of asking the sun itself; where it only just passes a height, within 0.03° of it. The span of the last answer is kept, so that it costs
 * little to ask at every station; it changes no answer.
 */
export class LightAlong {
  private readonly sun: SunAlong
  /** Stations of the anchors around the last question: from the first on, up to below the next. */
  private first = 0
  private next = 0
  private perStation = 0
  /** What light was there, and from when until when at either anchor, s since the start. */
  private light: Light = 'day'
  private fromFirst = 0
  private fromNext = 0
  private untilFirst = 0
  private untilNext = 0

  /**
   * @param route at least two stations
   * @param started Unix time of the start, s
   */
  constructor(
    route: Route,
    private readonly started: number,
  ) {
    this.sun = sunAlong(route)
  }

  /**
   * The light at a station at a time.
   *
   * @param station index
   * @param time since the start, s; in a record such as the ride, for a number handed over would be allocated
   */
  lightAt(station: number, { time }: { time: number }): Light {
    if (station >= this.first && station < this.next) {
      const share = (station - this.first) * this.perStation
      if (
        time >= between(this.fromFirst, this.fromNext, share) &&
        time < between(this.untilFirst, this.untilNext, share)
      )
        return this.light
    }
    return this.look(station, time)
  }

  private look(station: number, time: number): Light {
    const { sun, started } = this
    const { at } = sun
    const anchor = Math.min(indexAtOrBelow(at, station), at.length - 2)
    this.first = at[anchor]!
    this.next = anchor === at.length - 2 ? Infinity : at[anchor + 1]!
    this.perStation = 1 / (at[anchor + 1]! - this.first)
    const share = (station - this.first) * this.perStation
    let day = Math.floor((started + time) / solarDay)
    const edge = (day: number, k: number) =>
      between(sun.edgesOf(anchor, day)[k]! - started, sun.edgesOf(anchor + 1, day)[k]! - started, share)
    // A solar day begins up to half a day before or after that of Universal Time.
    while (time >= edge(day, lights.length)) day++
    while (time < edge(day, 0)) day--
    let span = 0
    while (time >= edge(day, span + 1)) span++
    const here = sun.edgesOf(anchor, day)
    const there = sun.edgesOf(anchor + 1, day)
    this.light = lights[span]!
    this.fromFirst = here[span]! - started
    this.fromNext = there[span]! - started
    this.untilFirst = here[span + 1]! - started
    this.untilNext = there[span + 1]! - started
    return this.light
  }
}

/** In a straight line, and so that of two ordered pairs the results are ordered too, to the last bit: thus the span kept changes no answer. */
const between = (from: number, to: number, share: number) => from * (1 - share) + to * share

const dateOf = (instant: number) => new Date(instant * 1000)
