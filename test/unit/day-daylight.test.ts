import { getPosition } from 'suncalc'
import { describe, expect, it } from 'vitest'
import { daylightOf, lightsNote } from '../../src/model/readings/light'
import { LightAlong, sunOn } from '../../src/model/world/daylight'
import { instantOf } from '../../src/model/world/zone'
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

describe('light along the route', () => {
  it('changes where the sun stands at -0.833 and -6 degrees, by the sun’s own position', () => {
    const start = '2027-06-19T00:00'
    const began = instantOf(start, zone)
    const route = courseRoute(course)
    const light = new LightAlong(route, began)
    const { latitude, longitude } = route.stations
    let seen = 0
    for (const station of [0, 1234, 5000, 9999])
      for (let time = 0; time < 2 * 86_400; time += 60) {
        const before = light.lightAt(station, time - 60)
        const now = light.lightAt(station, time)
        if (before === now) continue
        seen++
        // Apparent altitude: the library's refraction lifts the sun by about half a degree at both heights.
        const { altitude } = getPosition(new Date((began + time - 30) * 1000), latitude[station]!, longitude[station]!)
        const edge = before === 'dark' || now === 'dark' ? -5.5 : -0.3
        near(altitude, edge, 0.25, `altitude of the sun when ${before} becomes ${now}`)
      }
    expect(seen).toBe(4 * 8)
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
    expect(lightsNote(summary, undefined)).toContain('carry lights')
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
    expect(lightsNote(summary, 4 * 3600)).toContain('daylight all the way')
    expect(lightsNote(summary, 1800)).toContain('late hour')
  })

  it('knows the sun that never sets and the one that never rises', () => {
    const route = courseRoute({ length: 20_000, latitude: 70 })
    const north = 'Europe/Oslo'
    const summer = new LightAlong(route, instantOf('2027-06-21T12:00', north))
    const winter = new LightAlong(route, instantOf('2027-12-21T12:00', north))
    expect(sunOn(70, 7, '2027-06-21', north)).toMatchObject({ always: 'up', sunrise: undefined })
    expect(sunOn(70, 7, '2027-12-21', north)).toMatchObject({ always: 'down', sunrise: undefined })
    const inWinter = new Set<string>()
    for (let time = 0; time < 2 * 86_400; time += 600) {
      expect(summer.lightAt(100, time)).toBe('day')
      inWinter.add(winter.lightAt(100, time))
    }
    expect([...inWinter].sort()).toEqual(['dark', 'twilight'])
    // At 60 degrees the sun sets at midsummer, but the night stays in civil twilight's last light.
    const white = new LightAlong(courseRoute({ length: 20_000, latitude: 63 }), instantOf('2027-06-21T12:00', north))
    const whole = new Set(Array.from({ length: 200 }, (_, k) => white.lightAt(0, k * 600)))
    expect([...whole].sort()).toEqual(['day', 'twilight'])
  })
})
