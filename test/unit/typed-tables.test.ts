import { describe, expect, it } from 'vitest'
import type { Fault } from '../../src/model/text/fault'
import { numberAt, numberOf, readTable, type Table } from '../../src/model/text/table'
import { readTimes } from '../../src/model/text/times'
import { readWeather } from '../../src/model/text/weather-table'
import { near } from '../asserts'

const read = (text: string) => readWeather(text, '2027-06-19', (distance) => `at ${distance / 1000}`)
const places = (text: string) => {
  const result = read(text)
  if (!result.ok) throw new Error(JSON.stringify(result.fault))
  return result.value
}
const hours = (text: string) => places(text)[0]!.hours
const times = (text: string) => hours(text).map(({ time }) => time)
const fault = (text: string): Fault | undefined => {
  const result = read(text)
  return result.ok ? undefined : result.fault
}
/** The fault with which something is refused. */
const thrown = (act: () => unknown): unknown => {
  try {
    act()
  } catch (error) {
    return (error as { fault?: Fault }).fault
  }
  return 'nothing'
}

describe('a table', () => {
  it.each([
    ['tabs', 'a\tb, c;d\n1\t2', ['a', 'b, c;d'], ['1', '2'], true],
    ['semicolons', 'a;b, c\n1;2', ['a', 'b, c'], ['1', '2'], true],
    ['commas', 'a,b\n1,2', ['a', 'b'], ['1', '2'], false],
    ['a byte order mark and blank lines before it', '\uFEFF\n\na;b\n1;2', ['a', 'b'], ['1', '2'], true],
    ['blanks around cells, old line ends', ' a , b \r 1 , 2 ', ['a', 'b'], ['1', '2'], false],
    ['one column', 'a\n1', ['a'], ['1'], false],
  ])('is read with %s', (_, text, headings, row, decimalComma) => {
    expect(readTable(text)).toMatchObject({ headings, rows: [row], decimalComma })
  })

  it('holds 2000 rows and no more', () => {
    const rows = (count: number) => `a\n${'1\n'.repeat(count)}`
    expect(readTable(rows(2000)).rows).toHaveLength(2000)
    expect(thrown(() => readTable(rows(2001)))).toEqual({ code: 'tooManyRows', rows: 2001, most: 2000 })
  })

  it('gives numbers within bounds, both of them allowed, and nothing for a blank, a dash or no column', () => {
    const table = (...cells: string[]): Table => ({
      headings: ['n'],
      rows: cells.map((cell) => [cell]),
      written: cells.map((cell) => [cell]),
      decimalComma: true,
    })
    const at = (cell: string) => numberAt(table(cell), 0, 0, -2, 7)
    expect([at('7'), at('-2'), at('1,5'), at('.5')]).toEqual([7, -2, 1.5, 0.5])
    expect([
      at(''),
      at('-'),
      at('–'),
      numberAt(table('1'), 0, 1, 0, 9),
      numberAt(table('1'), 0, undefined, 0, 9),
    ]).toEqual(Array(5).fill(undefined))
    expect(thrown(() => at('7,01'))).toEqual({
      code: 'outOfBounds',
      cell: '7,01',
      row: 2,
      heading: 'n',
      min: -2,
      max: 7,
    })
    expect(thrown(() => numberAt(table('1', '-3'), 1, 0, -2, 7))).toMatchObject({ code: 'outOfBounds', row: 3 })
    expect(thrown(() => at('1,5,0'))).toEqual({ code: 'noNumber', cell: '1,5,0', row: 2, heading: 'n' })
  })

  it('knows a decimal number with any sign, and no other word', () => {
    expect(['12', '+1.5', '-2.', '−.25', '007'].map(numberOf)).toEqual([12, 1.5, -2, -0.25, 7])
    for (const word of ['', '-', '.', '1e3', '0x10', '1 2', 'a1', '1a', '--1', '1.2.3', 'Infinity'])
      expect(numberOf(word), word).toBeUndefined()
  })
})

describe('a list of sailings', () => {
  const read = (text: string) => {
    const result = readTimes(text)
    return result.ok ? result.value : result.fault
  }
  it('is read however it is written, in order, each once', () => {
    expect(read(' 12.30, 7:00;\n0915  7h00 ,, 23H59 07:00 ')).toEqual(['07:00', '09:15', '12:30', '23:59'])
  })
  it.each(['24:00', '12:60', '7', '173', '12:5', '12:345', 'x07:00', '07:00x', '12345'])('%s is no time', (word) => {
    expect(read(`06:00 ${word}`)).toEqual({ code: 'noTimeOfDay', word })
  })
  it('holds 200 and no more, and at least one', () => {
    const minutes = (count: number) =>
      Array.from({ length: count }, (_, k) => new Date(k * 60_000).toISOString().slice(11, 16)).join(' ')
    expect(read(minutes(200))).toHaveLength(200)
    expect(read(minutes(201))).toEqual({ code: 'tooManySailings', sailings: 201, most: 200 })
    expect(read(' ; ')).toEqual({ code: 'noSailing' })
  })
})

describe('columns of a weather table', () => {
  it.each([
    ['Air temp', 'temperatureCelsius', '20', 20],
    ['°C', 'temperatureCelsius', '-5', -5],
    ['° C', 'temperatureCelsius', '60', 60],
    ['Celsius', 'temperatureCelsius', '0', 0],
    ['Fahrenheit', 'temperatureCelsius', '68', 20],
    ['Temp °F', 'temperatureCelsius', '14', -10],
    ['Temp F', 'temperatureCelsius', '-40', -40],
    ['Rain', 'rainPerHour', '300', 300],
    ['Precipitation in', 'rainPerHour', '2', 50.8],
    ['Rain in/h', 'rainPerHour', '1', 25.4],
    ['Rain (in)', 'rainPerHour', '1', 25.4],
    ['Rain inches per hour', 'rainPerHour', '11', 279.4],
    ['Pressure', 'pressure', '1013.25', 101_325],
    ['hPa', 'pressure', '870', 87_000],
    ['mbar', 'pressure', '1090', 109_000],
    ['Pressure inHg', 'pressure', '29.92', 101_320.75],
    ['Press. in.Hg', 'pressure', '32', 108_364.4],
    ['Press in Hg', 'pressure', '26', 88_046],
    ['Pressure (mercury)', 'pressure', '30', 101_591.6],
  ] as const)('“%s” is %s: %s is %d', (heading, key, cell, value) => {
    // An inch is 25.4 mm and an inch of mercury 3386.389 Pa: NIST SP 811 (2008), B.8; °F = 1.8 °C + 32, B.7.
    near(hours(`clock;${heading}\n12:00;${cell}`)[0]![key]!, value, 0.5 * 10 ** -(key === 'pressure' ? 0 : 9))
  })

  it.each([
    ['wind km/h', 36, 10],
    ['wind km / h', 36, 10],
    ['wind kmh', 36, 10],
    ['wind kph', 36, 10],
    ['wind m/s', 70, 70],
    ['wind m / s', 1, 1],
    ['wind mps', 3, 3],
    // 1 mph is 0.44704 m/s exactly: NIST SP 811 (2008), B.8.
    ['wind mph', 10, 4.4704],
  ])('“%s” is the wind: %d is %d m/s', (heading, cell, value) => {
    const [hour] = hours(`hour;${heading};bearing\n12:00;${cell};NNW`)
    near(hour!.windSpeed!, value, 1e-9)
    expect(hour!.windFromDegrees).toBe(337.5)
  })

  it('know the sixteen points of the compass, and degrees', () => {
    // Points clockwise from north, 22.5° apart: Bowditch, The American Practical Navigator (from memory).
    const points = 'N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW'.split(' ')
    for (const [k, point] of points.entries())
      for (const written of [point, point.toLowerCase(), String(22.5 * k)])
        expect(hours(`time;wind mps;dir\n12:00;3;${written}`)[0]!.windFromDegrees, written).toBe(22.5 * k)
    expect(hours('time;wind mps;direction\n12:00;3;360')[0]!.windFromDegrees).toBe(360)
    expect(hours('time;wind mps;direction\n12:00;3;')[0]!.windFromDegrees).toBeNull()
    expect(fault('time;wind mps;direction\n12:00;3;361')).toMatchObject({ code: 'outOfBounds', min: 0, max: 360 })
    expect(fault('time;wind mps;direction\n12:00;3;9 N')).toMatchObject({ code: 'noNumber', cell: '9 N' })
    expect(fault('time;wind mps;direction\n12:00;3;NNN')).toEqual({
      code: 'noDirection',
      cell: 'NNN',
      row: 2,
      heading: 'direction',
    })
  })

  it('leave gusts and headings that say nothing aside, and stay blank where no column is', () => {
    expect(hours('time;gust m/s;mood;rain\n12:00;99;good;1')).toEqual([
      {
        time: '2027-06-19T12:00',
        temperatureCelsius: null,
        windSpeed: null,
        windFromDegrees: null,
        rainPerHour: 1,
        pressure: null,
      },
    ])
    expect(places('time;wind mps;from;km;town\n7:00;1;N;2;Ford')[0]).toMatchObject({ name: 'Ford', distance: 2000 })
  })

  it.each([
    ['distance', 3, 3000],
    ['km', 3, 3000],
    ['mi', 2, 3218.688],
    ['miles', 2, 3218.688],
    ['distance mile', 2, 3218.688],
  ])('“%s” is where a place lies: %d is %d m', (heading, cell, metres) => {
    // An international mile is 1609.344 m: NIST SP 811 (2008), B.8.
    const [place] = places(`time;temp;${heading}\n7:00;1;${cell}`)
    near(place!.distance, metres, 1e-9)
    expect(place!.name).toBe(`at ${metres / 1000}`)
  })

  it.each(['place', 'town', 'weather station', 'where', 'location'])('“%s” is what a place is called', (heading) => {
    expect(places(`time;temp;${heading}\n7:00;1;${'x'.repeat(90)}`)[0]!.name).toBe('x'.repeat(80))
  })

  it('are refused where they say the same twice, or say no direction or unit', () => {
    expect(fault('time;temp;°C\n7:00;1;1')).toEqual({
      code: 'twoColumns',
      headings: ['temp', '°C'],
      column: 'temperature',
    })
    expect(fault('time;wind;from\n7:00;1;1')).toEqual({ code: 'noWindUnit', heading: 'wind' })
    expect(fault('time;Wind m/s\n7:00;1')).toEqual({ code: 'noDirectionColumn' })
  })

  it('hold within what weather can be', () => {
    expect(fault('time;temp\n7:00;61')).toEqual({ code: 'beyondTemperature', row: 2, most: 60 })
    expect(fault('time;temp\n7:00;-61')).toEqual({ code: 'beyondTemperature', row: 2, most: 60 })
    expect(hours('time;temp\n7:00;-60')[0]!.temperatureCelsius).toBe(-60)
    expect(hours('time;fahrenheit\n7:00;140')[0]!.temperatureCelsius).toBe(60)
    expect(fault('time;wind km/h;from\n7:00;253;N')).toMatchObject({ code: 'outOfBounds', min: 0 })
    expect(fault('time;pressure\n7:00;869')).toMatchObject({ code: 'outOfBounds', min: 870, max: 1090 })
    expect(fault('time;rain in\n7:00;12')).toMatchObject({ code: 'outOfBounds', min: 0, max: 11 })
  })
})

describe('times of a weather table', () => {
  it.each([
    ['7', '07:00'],
    ['7h', '07:00'],
    ['07 h', '07:00'],
    ['7:30', '07:30'],
    ['7.30', '07:30'],
    ['7h30', '07:30'],
    ['07:30:15', '07:30'],
    ['0:05', '00:05'],
    ['23:59', '23:59'],
  ])('%s is %s', (cell, time) => expect(times(`time,temp\n${cell},1`)).toEqual([`2027-06-19T${time}`]))

  it('stand with their date in one cell or in two, or count on from the start', () => {
    expect(times('time,temp\n2027-07-01 7:00,1')).toEqual(['2027-07-01T07:00'])
    expect(times('time,temp\n2027-07-01T07:00,1')).toEqual(['2027-07-01T07:00'])
    expect(times('date,time,temp\n2027-07-01,7:00,1\n,9:00,1')).toEqual(['2027-07-01T07:00', '2027-07-01T09:00'])
    expect(times('time,temp\n22:00,1\n23:00,1\n1:00,1\n0:30,1')).toEqual([
      '2027-06-19T22:00',
      '2027-06-19T23:00',
      '2027-06-20T01:00',
      '2027-06-21T00:30',
    ])
  })

  it('24:00 is the midnight that ends a day', () => {
    expect(times('time,temp\n2027-06-30 24:00,1')).toEqual(['2027-07-01T00:00'])
    expect(times('time,temp\n23:00,1\n24:00,1\n1:00,1')).toEqual([
      '2027-06-19T23:00',
      '2027-06-20T00:00',
      '2027-06-20T01:00',
    ])
    expect(fault('time,temp\n24:30,1')).toMatchObject({ code: 'noTime', cell: '24:30' })
  })

  it.each(['25:00', '7:60', 'noon', '7:5', '2027-7-1 7:00', '7:00 pm', '', '27-06-19 7:00'])('%j is none', (cell) => {
    expect(fault(`time;temp\n7:00;1\n${cell};1`)).toEqual({ code: 'noTime', cell, row: 3, heading: 'time' })
  })

  it('are in order whatever order they stand in, and none twice', () => {
    expect(times('time,temp\n2027-06-19 9:00,1\n2027-06-19 7:00,1\n2027-06-19 8:00,1')).toEqual([
      '2027-06-19T07:00',
      '2027-06-19T08:00',
      '2027-06-19T09:00',
    ])
    expect(fault('time,temp\n9:00,1\n2027-06-19 9:00,1')).toEqual({
      code: 'hourTwice',
      row: 3,
      time: '2027-06-19T09:00',
    })
    for (const date of ['2027-13-01', '2027-02-31', '2027-02-29', '2027-04-31'])
      expect(fault(`time,temp\n${date} 7:00,1`), date).toEqual({ code: 'noDate', row: 2, date })
    expect(fault('time,temp\n2028-02-29 7:00,1')).toBeUndefined()
  })

  it('are at most 400 a place', () => {
    const table = (count: number) =>
      `time,temp\n${Array.from({ length: count }, (_, k) => `${new Date(Date.UTC(2027, 5, 1, k)).toISOString().slice(0, 16)},1`).join('\n')}`
    expect(hours(table(400))).toHaveLength(400)
    expect(fault(table(401))).toEqual({ code: 'tooManyHours', hours: 401, place: 'at 0', most: 400 })
  })
})

describe('places of a weather table', () => {
  it('are one by their distance, whatever they are called, and stand in its order', () => {
    const found = places('km,place,time,temp\n9,Ford,7:00,1\n0,Mill,7:00,2\n9,Other,8:00,3')
    expect(found.map(({ name, distance, hours }) => [name, distance, hours.length])).toEqual([
      ['Mill', 0, 1],
      ['Ford', 9000, 2],
    ])
  })

  it('need their distance where they are several, and are three at most', () => {
    expect(places('place,time,temp\nFord,7:00,1\nFord,8:00,1\n,9:00,1')).toHaveLength(1)
    expect(fault('place,time,temp\nFord,7:00,1\nMill,8:00,1')).toEqual({ code: 'noDistanceColumn' })
    expect(fault('km,time,temp\n0,7:00,1\n,8:00,1')).toEqual({ code: 'noDistance', row: 3 })
    expect(fault('km,time,temp\n0,7:00,1\n1,8:00,1\n2,8:00,1\n3,8:00,1')).toEqual({
      code: 'tooManyPlaces',
      row: 5,
      most: 3,
    })
    expect(fault('km,time,temp\n50001,7:00,1')).toMatchObject({ code: 'outOfBounds', min: 0, max: 50_000 })
  })
})
