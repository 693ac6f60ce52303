import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { daylightOf, lightsAdvice } from '../../src/model/readings/light'
import { LightAlong, sunOn } from '../../src/model/world/daylight'
import { instantOf } from '../../src/model/world/zone'
import type { Route } from '../../src/model/route/route'
import { near } from '../asserts'
import { plainPlan, rideOver } from '../rides'
import { courseRoute } from '../routes'

const zone = 'Europe/Rome'
const course = { length: 100_000, latitude: 45 }
const lamps = 5

/** The ride of 100 km with a halt in it, set off at some time of a day. */
const ridden = (start: string, stay = 0) => {
  const plan = plainPlan((plan) => {
    plan.start = start
    if (stay > 0)
      plan.stops.push({
        id: 'stop-1',
        name: 'Inn',
        distance: 50_000,
        source: null,
        kind: 'rest',
        goal: 'duration',
        fillFirst: 'most',
        duration: stay,
        chargeTo: 0.8,
      })
  })
  const outcome = rideOver(course, plan)
  const light = new LightAlong(outcome.route, instantOf(start, zone))
  return { outcome, light, summary: daylightOf(outcome, light, lamps) }
}

/**
 * Height of the sun's middle above the horizon without refraction, degrees.
 *
 * @param instant Unix time, s
 * @see low-precision formulas of the Astronomical Almanac, to 0.01° from 1950 to 2050: Michalsky 1988, Solar Energy 40:227-235 (from memory)
 */
function sunHeight(instant: number, latitude: number, longitude: number): number {
  const [sin, cos] = [(x: number) => Math.sin((x * Math.PI) / 180), (x: number) => Math.cos((x * Math.PI) / 180)]
  const n = instant / 86_400 + 2_440_587.5 - 2_451_545
  const anomaly = 357.528 + 0.9856003 * n
  const ecliptic = 280.46 + 0.9856474 * n + 1.915 * sin(anomaly) + 0.02 * sin(2 * anomaly)
  const obliquity = 23.439 - 0.0000004 * n
  const ascension = (Math.atan2(cos(obliquity) * sin(ecliptic), cos(ecliptic)) * 180) / Math.PI
  const sinDeclination = sin(obliquity) * sin(ecliptic)
  const hour = 15 * (18.697374558 + 24.06570982441908 * n) + longitude - ascension
  const cosDeclination = Math.sqrt(1 - sinDeclination ** 2)
  const height = sin(latitude) * sinDeclination + cos(latitude) * cosDeclination * cos(hour)
  return (Math.asin(height) * 180) / Math.PI
}

/** A route moved to begin at a longitude, degrees, and turned to run north-east; past 180° it counts on. */
const eastward = (route: Route, longitude: number): Route => ({
  ...route,
  stations: { ...route.stations, longitude: route.stations.distance.map((d) => longitude + d / 100_000) },
})

describe('light along the route', () => {
  it('is day, twilight or dark by the height of the sun at -0.833 and -6 degrees, for two weeks, from the tropics to near the pole', () => {
    const seen: Record<string, Set<string>> = {}
    const heights = { day: [-0.833, 90], twilight: [-6, -0.833], dark: [-90, -6] } as const
    for (const latitude of [-35, 5, 45, 63, 66, 70, 80, 87])
      for (const [date, longitude] of [
        ['2027-03-17', -120],
        ['2027-06-19', 179.5],
        ['2027-10-05', 59],
        ['2027-12-15', -0.5],
      ] as const) {
        const route = eastward(courseRoute({ ...course, spacing: 50, latitude }), longitude)
        const began = instantOf(`${date}T20:00`, zone)
        const light = new LightAlong(route, began)
        const kinds = (seen[`${latitude} ${date}`] = new Set<string>())
        let worst = 0
        for (let time = -7200; time < 15 * 86_400; time += 587) {
          const station = Math.abs(time) % route.stations.distance.length
          const here = light.lightAt(station, { time })
          const height = sunHeight(began + time, route.stations.latitude[station]!, route.stations.longitude[station]!)
          const [least, most] = heights[here]
          worst = Math.max(worst, least - height, height - most)
          kinds.add(here)
        }
        expect(worst, `height of the sun beyond its light at ${latitude}° from ${date}`).toBeLessThan(0.05)
      }
    const lightsOf = (place: string) => [...seen[place]!].sort().join(' ')
    expect(lightsOf('45 2027-06-19')).toBe('dark day twilight')
    expect(lightsOf('63 2027-06-19'), 'white nights').toBe('day twilight')
    expect(lightsOf('70 2027-06-19'), 'midnight sun').toBe('day')
    expect(lightsOf('70 2027-12-15'), 'twilight about noon').toBe('dark twilight')
    expect(lightsOf('80 2027-12-15'), 'polar night').toBe('dark')
    expect(lightsOf('87 2027-10-05'), 'the sun gone, twilight going').toBe('dark twilight')
    expect(lightsOf('87 2027-03-17'), 'twilight going, the sun there').toBe('day twilight')
  })

  it('changes within a second of what the sun itself says, between anchors and on the last of many days too', () => {
    const began = instantOf('2027-08-30T06:00', zone)
    const route = courseRoute(course)
    const { latitude } = route.stations
    const light = new LightAlong(route, began)
    for (const station of [0, 1234, 5500, 9999])
      for (const day of [0, 1, 3, 13]) {
        const date = new Date((began + day * 86_400) * 1000).toISOString().slice(0, 10)
        const sun = sunOn(latitude[station]!, 7, date, zone)
        for (const [event, before, after] of [
          ['dawn', 'dark', 'twilight'],
          ['sunrise', 'twilight', 'day'],
          ['sunset', 'day', 'twilight'],
          ['dusk', 'twilight', 'dark'],
        ] as const) {
          expect(light.lightAt(station, { time: sun[event]! - began - 1 }), `before ${event}, day ${day}`).toBe(before)
          expect(light.lightAt(station, { time: sun[event]! - began + 1 }), `after ${event}, day ${day}`).toBe(after)
        }
      }
  })

  it('is the same whatever was asked before', () => {
    const north = () => courseRoute({ ...course, spacing: 100, latitude: 66, crossings: [40_000] })
    const started = instantOf('2027-05-20T12:00', zone)
    const asked = new LightAlong(north(), started)
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1001 }), fc.integer({ min: 0, max: 14 * 86_400 }), (station, time) => {
        expect(asked.lightAt(station, { time })).toBe(new LightAlong(north(), started).lightAt(station, { time }))
      }),
    )
  })

  it('tells the whole ride apart by length and time in motion', () => {
    const { outcome, summary } = ridden('2027-06-19T03:00')
    const sum = (of: Record<string, number>) => Object.values(of).reduce((a, b) => a + b, 0)
    near(sum(summary.length), outcome.length, 1e-3)
    near(sum(summary.time), outcome.columns.ridingTime.at(-1)!, 1e-6)
    // Where the rider is by then: the sun's times are those of the place, and he has come north.
    const began = instantOf('2027-06-19T03:00', zone)
    const sunAt = (distance: number) => sunOn(45 + distance / 111_000, 7, '2027-06-19', zone)
    const dawn = sunAt(summary.length.dark).dawn! - began
    const sunrise = sunAt(summary.last!.distance).sunrise! - began
    near(summary.time.dark, dawn, 5, 'time in the dark')
    near(summary.time.twilight, sunrise - dawn, 5, 'time in twilight')
    expect(summary.first).toMatchObject({ distance: 0, time: 0 })
    near(summary.last!.time, sunrise, 5)
    near(summary.lampEnergy, lamps * (summary.time.dark + summary.time.twilight), 1e-9)
    expect(lightsAdvice(summary, undefined)).toBe('dark')
  })

  it('does not count a halt as ridden: a night’s rest leaves the dark behind', () => {
    const late = ridden('2027-06-19T19:30')
    expect(late.summary.length.dark).toBeGreaterThan(20_000)
    const { summary } = ridden('2027-06-19T19:30', 9 * 3600)
    near(summary.time.day + summary.time.twilight + summary.time.dark, late.outcome.columns.ridingTime.at(-1)!, 60)
    expect(summary.time.dark).toBeLessThan(late.summary.time.dark)
  })

  it('needs no lights at midday, and says so with care when sunset is near', () => {
    const { summary } = ridden('2027-06-19T09:00')
    expect(summary.share).toBe(0)
    expect(summary.first).toBeUndefined()
    expect(lightsAdvice(summary, 4 * 3600)).toBe('day')
    expect(lightsAdvice(summary, 1800)).toBe('late')
  })

  it('says of a day whether the sun stays up or down', () => {
    expect(sunOn(70, 7, '2027-06-21', 'Europe/Oslo')).toMatchObject({ always: 'up', sunrise: undefined })
    expect(sunOn(70, 7, '2027-12-21', 'Europe/Oslo')).toMatchObject({ always: 'down', sunrise: undefined })
  })
})
