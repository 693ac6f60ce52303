import { describe, expect, it } from 'vitest'
import type { WeatherHour, WeatherPlace } from '../../src/model/plan/day-schema'
import { noWeather } from '../../src/model/world/weather'
import { WeatherAlong } from '../../src/model/world/weather-along'
import { instantOf } from '../../src/model/world/zone'
import { near } from '../asserts'

const zone = 'Europe/Rome'
const started = instantOf('2027-06-19T06:00', zone)
const plain = {
  temperatureCelsius: 15,
  windSpeed: 3,
  windFromDegrees: 270,
  seaLevelPressure: 101_325,
  lapseRate: 0.006,
}
const wetting = { rain: 0.5, dryingTime: 7200 }
const heightAt = (distance: number) => 200 + distance / 100

type Row = [time: string, celsius: number | null, speed: number | null, from: number | null, rain: number | null, pressure: number | null] // prettier-ignore
const place = (distance: number, rows: Row[]): WeatherPlace => ({
  name: `at ${distance}`,
  distance,
  hours: rows.map(([time, temperatureCelsius, windSpeed, windFromDegrees, rainPerHour, pressure]): WeatherHour => ({
    time: `2027-06-19T${time}`,
    temperatureCelsius,
    windSpeed,
    windFromDegrees,
    rainPerHour,
    pressure,
  })),
})

// Neither the places nor the hours stand in order; blanks are filled from the hours about them, the wind's direction from the one before.
const table = [
  place(60_000, [
    ['09:00', 24, 6, 90, 0, 100_900],
    ['07:00', 12, 2, 0, 0, 101_500],
    ['08:00', null, null, null, 0.25, null],
  ]),
  place(0, [
    ['06:30', 8, 4, 200, 2, 101_000],
    ['07:30', 10, 4, null, 0, 101_200],
    ['11:00', 18, 1, 300, 0, 100_600],
  ]),
  place(25_000, [
    ['08:00', null, null, 45, null, null],
    ['10:00', null, null, 135, null, null],
  ]),
]

type Five = [celsius: number, east: number, north: number, pressure: number, wetness: number]
const blowing = (speed: number, from: number): [number, number] => {
  const angle = (from * Math.PI) / 180
  return [-speed * Math.sin(angle), -speed * Math.cos(angle)]
}
/** What is known at each hour of each place, worked out by hand: temperature as it would be at sea level, 6 K/km lower down. */
const known: { distance: number; at: number[]; values: Five[] }[] = [
  {
    distance: 0,
    at: [1800, 5400, 18_000],
    values: [
      [8 + 1.2, ...blowing(4, 200), 101_000, 1],
      // Two hours dry a wet road: an hour leaves half of it.
      [10 + 1.2, ...blowing(4, 200), 101_200, 0.5],
      [18 + 1.2, ...blowing(1, 300), 100_600, 0],
    ],
  },
  {
    distance: 25_000,
    at: [7200, 14_400],
    values: [
      [15 + 1.2, ...blowing(3, 45), 101_325, 0],
      [15 + 1.2, ...blowing(3, 135), 101_325, 0],
    ],
  },
  {
    distance: 60_000,
    at: [3600, 7200, 10_800],
    values: [
      [12 + 4.8, ...blowing(2, 0), 101_500, 0],
      // Half-way: 18 °C, 4 m/s, 101 200 Pa; half a millimetre in two hours wets half.
      [18 + 4.8, ...blowing(4, 0), 101_200, 0.5],
      [24 + 4.8, ...blowing(6, 90), 100_900, 0],
    ],
  },
]

const straight = (at: readonly number[], values: readonly Five[], x: number): Five => {
  const k = at.findLastIndex((one) => one <= x)
  if (k < 0) return values[0]!
  if (k === at.length - 1) return values[k]!
  const share = (x - at[k]!) / (at[k + 1]! - at[k]!)
  return values[k]!.map((value, q) => value + share * (values[k + 1]![q]! - value)) as Five
}
const expectedAt = (time: number, distance: number): Five =>
  straight(
    known.map((one) => one.distance),
    known.map(({ at, values }) => straight(at, values, time)),
    distance,
  )

describe('the weather of three places', () => {
  const check = (weather: WeatherAlong, time: number, distance: number) => {
    const now = noWeather()
    weather.at({ time, distance }, now)
    const found = [now.seaLevelCelsius, now.windEast, now.windNorth, now.pressure, now.wetness]
    expectedAt(time, distance).forEach((value, q) =>
      near(found[q]!, value, 1e-9 * Math.max(1, Math.abs(value)), `number ${q} after ${time} s at ${distance} m`),
    )
  }

  it('is straight in time and in distance, and held beyond, in the order of a ride', () => {
    const weather = WeatherAlong.of(table, plain, wetting, started, zone, heightAt)
    for (let time = 0; time < 20_000; time += 50) check(weather, time, 4 * time)
    // Standing for a while, at a place and between.
    for (const distance of [0, 25_000, 33_000, 60_000])
      for (let time = 0; time < 20_000; time += 450) check(weather, time, distance)
  })

  it('is the same in any order of asking', () => {
    const weather = WeatherAlong.of(table, plain, wetting, started, zone, heightAt)
    let state = 7
    const random = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647
    for (let k = 0; k < 2000; k++) check(weather, Math.round(20_000 * random()), Math.round(70_000 * random()))
    // Exactly at hours and places, from either side.
    for (const time of [1800, 3600, 5400, 7200, 10_800, 14_400, 18_000])
      for (const distance of [0, 25_000, 60_000])
        for (const [t, d] of [
          [-1, -1],
          [0, 0],
          [1, 1],
          [0, 0],
          [-1, 0],
          [0, -1],
        ] as const)
          // prettier-ignore
          check(weather, time + t, Math.max(0, distance + d))
  })

  it('tells apart nothing where one place is known', () => {
    const weather = WeatherAlong.of([table[0]!], plain, wetting, started, zone, heightAt)
    const now = noWeather()
    for (const distance of [0, 60_000, 90_000]) {
      weather.at({ time: 9000, distance }, now)
      near(now.seaLevelCelsius, 21 + 4.8, 1e-9)
      near(now.pressure, 101_050, 1e-6)
    }
    expect(now.wetness).toBeCloseTo(0.25, 9)
  })
})
