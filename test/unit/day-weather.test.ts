import { describe, expect, it } from 'vitest'
import { legsOf } from '../../src/model/readings/legs'
import { coverGap } from '../../src/model/world/cover-gap'
import { headWindOf, noWeather, sideWindOf, wetFactor } from '../../src/model/world/weather'
import { WeatherAlong } from '../../src/model/world/weather-along'
import { readWeather } from '../../src/model/text/weather-table'
import { isBefore, isInto, windRose } from '../../src/model/readings/wind'
import { instantOf } from '../../src/model/world/zone'
import type { WeatherPlace } from '../../src/model/plan/day-schema'
import { defaultStop } from '../../src/model/plan/defaults'
import { typedWordsIn } from '../../src/view/words/typed'
import { wordsIn } from '../../src/view/words/words'
import { near } from '../asserts'
import { plainPlan, rideOver } from '../rides'

const zone = 'Europe/Berlin'
const started = instantOf('2027-06-19T06:00', zone)
const plain = {
  temperatureCelsius: 15,
  windSpeed: 3,
  windFromDegrees: 270,
  seaLevelPressure: 101_325,
  lapseRate: 0.0065,
}
const wetting = { rain: 0.5, dryingTime: 7200 }
const flat = () => 0

const along = (table: readonly WeatherPlace[], height: (d: number) => number = flat) =>
  WeatherAlong.of(table, plain, wetting, started, zone, height)
const read = (text: string) => {
  const result = readWeather(text, '2027-06-19', wordsIn('metric').names.weatherAt)
  if (!result.ok) throw new Error(result.fault.code)
  return result.value
}
const at = (weather: WeatherAlong, hours: number, distance = 0) => {
  const into = noWeather()
  weather.at({ time: hours * 3600, distance }, into)
  return into
}

describe('a pasted weather table', () => {
  it('is read with tabs, units by heading, points of the compass, and a decimal comma', () => {
    const places = read(
      'Hour\tTemp °C\tWind km/h\tWind from\tRain mm/h\tPressure hPa\n06:00\t12,5\t18\tSW\t0\t1012\n7\t−1\t36\t90\t1,5\t1010',
    )
    expect(places).toEqual([
      {
        name: 'km 0',
        distance: 0,
        hours: [
          {
            time: '2027-06-19T06:00',
            temperatureCelsius: 12.5,
            windSpeed: 5,
            windFromDegrees: 225,
            rainPerHour: 0,
            pressure: 101_200,
          },
          {
            time: '2027-06-19T07:00',
            temperatureCelsius: -1,
            windSpeed: 10,
            windFromDegrees: 90,
            rainPerHour: 1.5,
            pressure: 101_000,
          },
        ],
      },
    ])
  })

  it('knows places by distance, dates, times past midnight and blanks', () => {
    const places = read(
      'km,place,time,temperature\n80,Ferry quay,2027-06-19 22:00,14\n0,Start,22:00,10\n0,Start,00:30,\n80,Ferry quay,2027-06-20 01:00,11\n',
    )
    expect(places.map(({ name, distance, hours }) => [name, distance, hours.map(({ time }) => time)])).toEqual([
      ['Start', 0, ['2027-06-19T22:00', '2027-06-20T00:30']],
      ['Ferry quay', 80_000, ['2027-06-19T22:00', '2027-06-20T01:00']],
    ])
    expect(places[0]!.hours[1]!.temperatureCelsius).toBeNull()
  })

  it.each([
    ['', 'There is no table in what was pasted.'],
    ['time,temperature', 'The table needs its headings in the first row, and rows below them.'],
    ['temperature,rain\n12,0', 'The table needs a column headed “time”.'],
    ['time,mood\n12:00,good', 'The table needs a column headed “temperature”, “wind”, “rain” or “pressure”.'],
    ['time,wind m/s\n12:00,3', 'The table has wind, but no column headed “wind from” for its direction.'],
    ['time,wind,from\n12:00,3,W', 'The heading “wind” needs its unit: m/s, km/h or mph.'],
    ['time,temp\n12:00,warm', '“warm” in row 2, column “temp” is not a number.'],
    [
      'time,temp\n12:00,9\n12:99,9',
      '“12:99” in row 3, column “time”, is not a time such as 14:00 or 2027-06-19 14:00.',
    ],
    ['time,temp\n12:00,9\n2027-06-19 12:00,9', 'Row 3 tells the weather of 2027-06-19 12:00 a second time.'],
    ['time,rain\n12:00,900', '“900” in row 2, column “rain” is outside 0 to 300.'],
    ['time,wind m/s,from\n12:00,3,up', '“up” in row 2, column “from”, is no direction: write degrees or NW.'],
    ['time,temp,temp 2\n12:00,3,4', 'Two columns, “temp” and “temp 2”, are both taken for temperature.'],
    [
      'place,time,temp\nA,12:00,3\nB,12:00,4',
      'For more than one place the table needs a column headed “km” with each place’s distance.',
    ],
    ['km,time,temp\n0,12:00,3\n1,12:00,4\n2,12:00,4\n3,12:00,5', 'Row 5 begins a fourth place; 3 are the most.'],
    ['time,temp\n"12:00,3', 'A quotation mark in the table is never closed.'],
  ])('%j is refused with one sentence', (text, sentence) => {
    const result = readWeather(text, '2027-06-19', wordsIn('metric').names.weatherAt)
    expect(!result.ok && typedWordsIn('metric').fault(result.fault)).toBe(sentence)
  })
})

describe('weather along the way', () => {
  it('without a table is the plan’s own, carried down to sea level', () => {
    const weather = at(
      along([], () => 1000),
      5,
      40_000,
    )
    near(weather.seaLevelCelsius, 21.5, 1e-12)
    near(weather.windEast, 3, 1e-12)
    near(weather.windNorth, 0, 1e-12)
    expect(weather).toMatchObject({ pressure: 101_325, wetness: 0 })
  })

  it('is linear in time, held at both ends, in any order of asking', () => {
    const weather = along(read('time,temp,pressure\n07:00,10,1000\n08:00,12,1010\n10:00,20,1010'))
    for (const [hours, celsius, pressure] of [
      [3, 16, 101_000],
      [0, 10, 100_000],
      [1.25, 10.5, 100_250],
      [2, 12, 101_000],
      [9, 20, 101_000],
      [1.5, 11, 100_500],
    ] as const) {
      near(at(weather, hours).seaLevelCelsius, celsius, 1e-9, `temperature after ${hours} h`)
      near(at(weather, hours).pressure, pressure, 1e-6)
    }
  })

  it('is linear along the route between places, each told at its own height', () => {
    const height = (d: number) => d / 100
    const weather = along(read('km,time,temp\n0,06:00,20\n100,06:00,10'), height)
    near(at(weather, 0, 0).seaLevelCelsius, 20, 1e-9)
    near(at(weather, 0, 100_000).seaLevelCelsius, 10 + 6.5, 1e-9)
    near(at(weather, 0, 25_000).seaLevelCelsius, 20 - 0.25 * 3.5, 1e-9)
    near(at(weather, 0, 300_000).seaLevelCelsius, 16.5, 1e-9)
  })

  it('between the second and the third place too, and at each place its own, whatever order they are pasted in', () => {
    const weather = along(read('km,time,temp\n90,06:00,30\n20,06:00,10\n60,06:00,20'))
    const places = [0, 20_000, 30_000, 60_000, 75_000, 90_000, 200_000]
    expect(places.map((place) => at(weather, 0, place).seaLevelCelsius)).toEqual([10, 10, 12.5, 20, 25, 30, 30])
  })

  it('blows before the first direction that the table knows as it will then, and as in the plan where it knows none', () => {
    const later = along(read('time,wind m/s,from\n06:00,4,\n07:00,4,90\n08:00,4,'))
    near(at(later, 0).windEast, -4, 1e-9)
    near(at(later, 0).windNorth, 0, 1e-9)
    near(at(later, 2).windEast, -4, 1e-9)
    // The plan's wind is from the west.
    const never = along(read('time,wind m/s,from\n06:00,4,\n07:00,6,'))
    near(at(never, 0.5).windEast, 5, 1e-9)
    near(at(never, 0.5).windNorth, 0, 1e-9)
    const speedless = along(read('time,temp\n06:00,4'))
    near(at(speedless, 0).windEast, 3, 1e-9)
  })

  it('holds the nearest value where blanks begin or end a column, and fills several blanks evenly', () => {
    const weather = along(read('time,temp\n06:00,\n07:00,10\n08:00,\n09:00,\n11:00,30\n12:00,'))
    expect([0, 1, 2, 3, 4, 5, 6].map((hours) => Math.round(1e6 * at(weather, hours).seaLevelCelsius) / 1e6)).toEqual([
      10, 10, 15, 20, 25, 30, 30,
    ])
  })

  it('turns the wind as a vector', () => {
    const towards = (heading: number) => [Math.sin(heading), Math.cos(heading)] as const
    const weather = along(read('time,wind m/s,from\n06:00,4,N\n08:00,4,E'))
    const middle = at(weather, 1)
    near(middle.windEast, -2, 1e-9)
    near(middle.windNorth, -2, 1e-9)
    near(headWindOf(middle, ...towards(Math.PI / 4)), Math.hypot(2, 2), 1e-9, 'into it')
    near(headWindOf(middle, ...towards(1.25 * Math.PI)), -Math.hypot(2, 2), 1e-9, 'before it')
    near(sideWindOf(middle, ...towards(0.75 * Math.PI)), -Math.hypot(2, 2), 1e-9, 'from the left')
    near(headWindOf(at(weather, 0), ...towards(0)), 4, 1e-9, 'north into a north wind')
    near(sideWindOf(at(weather, 2), ...towards(0)), 4, 1e-9, 'east wind from the right when riding north')
  })

  it('fills blanks from the hours around them, and keeps a direction until the next', () => {
    const weather = along(read('time,temp,wind m/s,from\n06:00,10,2,N\n07:00,,4,\n08:00,20,6,S'))
    near(at(weather, 1).seaLevelCelsius, 15, 1e-9)
    near(at(weather, 1).windNorth, -4, 1e-9)
  })

  it('wets the road with rain and lets it dry', () => {
    const weather = along(read('time,rain\n06:00,0\n07:00,0.25\n08:00,2\n09:00,0\n10:00,0\n11:00,0'))
    const wet = [0, 1, 2, 3, 3.5, 4, 5].map((hours) => at(weather, hours).wetness)
    expect(wet).toEqual([0, 0.5, 1, 0.5, 0.25, 0, 0])
    expect(wetFactor(0.5, 0.7)).toBe(0.85)
    expect(wetFactor(0, 1.1)).toBe(1)
  })

  it('comes otherwise than foretold: warmer, stronger and from farther to the right, by the hour, with the rain as it is', () => {
    const foretold = along(read('time,temp,wind m/s,wind from,rain mm/h\n06:00,10,4,W,1\n07:00,12,4,W,0'))
    const other = foretold.disturbed((time) => ({ celsius: time / 1800, speed: 2, turn: Math.PI / 2 }))
    const first = at(other, 0)
    // From the north, so toward the south, at 6 m/s.
    near(first.windEast, 0, 1e-12)
    near(first.windNorth, -6, 1e-12)
    near(first.seaLevelCelsius, 10, 1e-12)
    near(at(other, 1).seaLevelCelsius, 14, 1e-12)
    expect(first.wetness).toBe(at(foretold, 0).wetness)
    // No wind blows with less than none.
    const calm = at(
      foretold.disturbed(() => ({ celsius: 0, speed: -5, turn: 0 })),
      0,
    )
    near(Math.hypot(calm.windEast, calm.windNorth), 0, 1e-12)
  })

  it('says where the table does not reach', () => {
    const table = read('time,temp\n07:00,10\n12:00,12')
    expect(coverGap(table, started, started + 3600, zone)).toEqual({ code: 'beginsLate', place: undefined })
    expect(coverGap(table, started + 3600, started + 7 * 3600, zone)).toEqual({ code: 'endsEarly', place: undefined })
    expect(coverGap(table, started + 3600, started + 6 * 3600, zone)).toBeUndefined()
    expect(coverGap([], started, started + 1e6, zone)).toBeUndefined()
    const two = read('km,place,time,temp\n0,Mill,06:00,1\n0,Mill,12:00,1\n50,Ford,07:00,1\n50,Ford,12:00,1')
    expect(coverGap(two, started, started + 3600, zone)).toEqual({ code: 'beginsLate', place: 'Ford' })
    expect(coverGap(two, started + 3600, started + 6 * 3600 + 1, zone)).toEqual({ code: 'endsEarly', place: 'Mill' })
    expect(coverGap(two, started + 3600, started + 6 * 3600, zone)).toBeUndefined()
  })
})

describe('the wind rose', () => {
  const plan = plainPlan((plan) => {
    plan.legs.length = 25_000
  })
  const outcome = rideOver({ length: 50_000, heading: (d) => (d < 25_000 ? 0 : Math.PI / 2) }, plan)

  const under = (table: string) => ({ ...outcome, weather: along(read(table)) })

  it('tells the length ridden by direction, with the wind of the hour', () => {
    const rose = windRose(under('time,wind m/s,from\n06:00,4,N'))
    near(rose[0]!.length, 25_000, 1e-6)
    near(rose[4]!.length, 25_000, 1e-6)
    near(rose[0]!.wind.against, 4, 1e-9)
    near(rose[4]!.wind.against, 0, 1e-9)
    expect([0, 4].map((k) => [isInto(rose[k]!.wind), isBefore(rose[k]!.wind)])).toEqual([
      [true, false],
      [false, false],
    ])
    expect(isBefore(windRose(under('time,wind m/s,from\n06:00,4,S'))[0]!.wind)).toBe(true)
    expect(rose.filter(({ length }) => length > 0)).toHaveLength(2)
  })

  it('says which legs are into it, also where it turns on the way', () => {
    const half = outcome.columns.time[Math.floor(outcome.columns.time.length / 2)]! / 3600
    const clock = (hours: number) => new Date((6 * 3600 + hours * 3600) * 1000).toISOString().slice(11, 16)
    const turning = `time,wind m/s,from\n06:00,4,S\n${clock(half - 0.02)},4,S\n${clock(half)},4,E\n`
    const [first, second] = legsOf(under(turning)).map(({ wind }) => wind)
    expect(first!.ahead).toBe(0)
    expect(first!.behind).toBeGreaterThan(0.98)
    expect(second!.ahead).toBeGreaterThan(0.98)
    near(second!.against, 4, 0.1)
  })

  it('is neither ahead nor behind from the side, and has no direction where it is calm', () => {
    const [, side] = legsOf(under('time,wind m/s,from\n06:00,4,N'))
    expect(side!.wind).toMatchObject({ ahead: 0, behind: 0 })
    near(side!.wind.against, 0, 1e-9)
    for (const [speed, ahead] of [
      ['0.0', 0],
      ['0.4', 0],
      ['0.6', 1],
    ] as const)
      expect(legsOf(under(`time,wind m/s,from\n06:00,${speed},N`))[0]!.wind).toMatchObject({ ahead, behind: 0 })
  })

  it('is that of the hour at which a leg is ridden, as the forecast rides it: after a halt at its foot, not before', () => {
    const halted = plainPlan((plan) => {
      plan.stops.push({ ...defaultStop('stop-1', 'Inn', 0, null), duration: 4 * 3600 })
      plan.legs.length = 25_000
    })
    const north = rideOver({ length: 50_000 }, halted)
    const weather = along(read('time,wind m/s,from\n06:00,4,S\n09:30,4,S\n10:00,4,N'))
    const [leg] = legsOf({ ...north, weather })
    expect(leg!.wind).toMatchObject({ ahead: 1, behind: 0 })
    near(leg!.wind.against, 4, 1e-9)
  })
})
