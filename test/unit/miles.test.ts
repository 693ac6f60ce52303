import { describe, expect, it } from 'vitest'
import Papa from 'papaparse'
import { legsCsv } from '../../src/model/export/csv'
import { gpxPlaces } from '../../src/model/export/events'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { readWeather } from '../../src/model/text/weather-table'
import { legNotes } from '../../src/model/readings/leg-notes'
import { legsOf } from '../../src/model/readings/legs'
import { daySheet } from '../../src/model/readings/sheet'
import { factsOf } from '../../src/model/readings/facts'
import { fieldText } from '../../src/view/fields/typed'
import { drain, formatIn, measure, unitOf } from '../../src/view/format'
import { classesOf } from '../../src/view/ramp'
import { foldedWordsIn } from '../../src/view/words/folded'
import { legWordsIn } from '../../src/view/words/legs'
import { rowWordsIn } from '../../src/view/words/rows'
import { wordsIn } from '../../src/view/words/words'
import { near } from '../asserts'
import { courseRoute } from '../routes'

const words = wordsIn('imperial')
const { fields } = foldedWordsIn('imperial')
const plan = defaultPlan(words.names)
plan.stops = [defaultStop('stop-1', 'Mill', 20_000, 'source-1')]
plan.battery.packs.forEach((pack) => Object.assign(pack, { charge: 0.3 }))
const outcome = simulate(courseRoute({ length: 60_000 }), plan)
const legs = legsOf(outcome)

describe('a ride in miles', () => {
  it('has units by the tables of NIST Handbook 44, appendix C', () => {
    // 1 mi = 1.609 344 km, 1 lb = 453.592 37 g, 1 fl oz = 29.573 529 562 5 ml, 1 in = 25.4 mm; 1 inHg (0 °C) = 3386.389 Pa: NIST SP 811.
    expect(drain(36, 'metric')).toBe('10.0 Wh/km')
    expect(drain(36, 'imperial')).toBe('16.1 Wh/mi')
    expect(formatIn('imperial').volume(0.75)).toBe('25 fl oz')
    expect(formatIn('metric').volume(0.75)).toBe('0.75 l')
    expect(measure(101_325, 'pressure', 'imperial')).toBe('29.92 inHg')
    expect(measure(25.4, 'rain', 'imperial')).toBe('1.00 in/h')
    expect(measure(0.453_592_37, 'smallMass', 'imperial')).toBe('16.0 oz')
    expect(measure(0.0065, 'lapse', 'imperial')).toBe('3.6 °F/1,000 ft')
    expect(fieldText(360, unitOf('haltTime', 'imperial'))).toBe('9.7')
    expect(fields.rider.smallHalts.label).toBe('Small halts, each 100 miles')
    expect(fields.needs.waterHot.label).toBe('Water at 86 °F')
  })

  it('has classes of drain that are round in its units, and as many', () => {
    const colours = (units: 'metric' | 'imperial') => classesOf('drain', units, 'light').map(({ colour }) => colour)
    expect(colours('imperial')).toEqual(colours('metric'))
    expect(colours('imperial')).not.toContain(undefined)
  })

  it('names legs, notes and places by miles', () => {
    expect(legs.map(({ to }) => words.place(to))).toEqual([
      'mile 6.2',
      'Mill',
      'mile 18.6',
      'mile 24.9',
      'mile 31.1',
      'Finish',
    ])
    const notes = legs.map((leg) => rowWordsIn('imperial').legNotes(legNotes(outcome, leg))).join()
    expect(notes).toMatch(/next pack at mile \d/)
    expect(notes).not.toMatch(/km/)
    const rows = daySheet(outcome, factsOf(outcome))
    expect(gpxPlaces(rows, outcome.zone, rowWordsIn('imperial')).map(({ description }) => description)).toEqual([
      expect.stringMatching(/^mile 12\.4, /),
    ])
    const columnUnits = Object.values(legWordsIn('imperial').columns).map(([, unit]) => unit)
    expect(columnUnits).toContain('Wh/mi')
    expect(columnUnits).not.toContain('km')
  })

  it('keeps the columns of the CSV, which scripts read', () => {
    const parsed = (units: 'metric' | 'imperial') =>
      Papa.parse<Record<string, string>>(legsCsv(outcome, legs, rowWordsIn(units)).trimEnd(), { header: true }).data
    const numbers = ({ from: _from, to: _to, note: _note, ...rest }: Record<string, string>) => rest
    expect(parsed('imperial').map(numbers)).toEqual(parsed('metric').map(numbers))
    expect(parsed('metric')[0]!.to).toBe('km 10.0')
  })

  it('reads a weather table in its units', () => {
    const read = readWeather(
      'time,temp °F,wind mph,wind from,rain in/h,pressure inHg,mi\n06:00,50,10,W,0.1,29.92,0\n06:00,50,10,W,0,29.92,10',
      '2027-06-19',
      words.names.weatherAt,
    )
    if (!read.ok) throw new Error(read.fault.code)
    const [start, ten] = read.value
    expect([start!.name, ten!.name]).toEqual(['mile 0', 'mile 10.0'])
    near(ten!.distance, 16_093.44, 1e-6)
    near(start!.hours[0]!.temperatureCelsius!, 10, 1e-12)
    near(start!.hours[0]!.windSpeed!, 4.4704, 1e-12)
    near(start!.hours[0]!.rainPerHour!, 2.54, 1e-12)
    near(start!.hours[0]!.pressure!, 101_320.8, 0.1)
    const metric = readWeather('time,rain in mm/h,pressure in hPa\n06:00,2,1013', '2027-06-19', words.names.weatherAt)
    expect(metric.ok && metric.value[0]!.hours[0]).toMatchObject({ rainPerHour: 2, pressure: 101_300 })
  })
})
