import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { Fault } from '../../src/cli/arguments'
import { written, type Report } from '../../src/cli/report'
import { roadFor, type RoadReport } from '../../src/cli/road'
import { forecastFor } from '../../src/cli/run'
import type { StationReport } from '../../src/cli/stations'
import { simulate } from '../../src/model/forecast/simulate'
import { writePlan } from '../../src/model/plan/write'
import { legsOf } from '../../src/model/readings/legs'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { wordsIn } from '../../src/view/words/words'
import { sampleRoute, type SampleName } from '../invariants/samples'
import { near } from '../asserts'

const root = new URL('../../', import.meta.url)
const file = (path: string) => new Uint8Array(readFileSync(new URL(path, root)))
const encoded = (text: string) => new TextEncoder().encode(text)

const stopAt = (distance: number): Plan => ({
  ...defaultPlan(),
  stops: [{ ...defaultStop('stop-1', 'Mill', distance, 'source-1'), duration: 1800 }],
})

/** Files that are named in the tests; all else is looked up in the project. */
const files: Record<string, Uint8Array> = {
  'stop.json': encoded(writePlan(stopAt(30_000))),
  'beyond.json': encoded(writePlan(stopAt(900_000))),
  'newer.json': encoded('{"format":"wattfare-plan","version":99}'),
  'marked.json': encoded(`\uFEFF${writePlan(defaultPlan())}`),
  'hours.csv': encoded('time,temp C,wind km/h,wind from\n06:00,5,20,W\n12:00,8,30,NW\n'),
  'windless.csv': encoded('time,wind km/h\n06:00,5\n'),
  'line.kml.gz': gzipSync(file('test/files/line.kml')),
}
const read = (name: string): Uint8Array => {
  const bytes = files[name]
  if (bytes !== undefined) return bytes
  try {
    return file(name)
  } catch {
    throw new Fault(`“${name}” can't be read.`)
  }
}

const passes = 'sample-routes/two-passes-62km.gpx'
const islands = 'sample-routes/two-islands-165km.gpx'
const town = 'sample-routes/into-town-18km.gpx'
const text = (...words: string[]) => forecastFor(words, read)
const json = async (...words: string[]) =>
  JSON.parse(await text(...words, '--json')) as Report & { stations: StationReport[] }

/** What is in the page's forecast of a sample. */
const forecast = async (name: SampleName, plan: Plan) => simulate(await sampleRoute(name), plan)

const words = wordsIn('metric')

describe('a forecast as JSON', () => {
  it('holds the figures of the page’s forecast', async () => {
    const outcome = await forecast('two-passes-62km', stopAt(30_000))
    const report = await json(passes, '--plan', 'stop.json')
    const last = outcome.columns.time.length - 1
    near(report.length_m, outcome.length, 1e-6)
    near(report.ascent_m, outcome.route.ascent, 1e-6)
    near(report.descent_m, outcome.route.descent, 1e-6)
    near(report.riding_s, outcome.columns.ridingTime[last]!, 1e-6)
    near(report.elapsed_s, outcome.columns.time[last]!, 1e-6)
    near(report.battery_Wh, outcome.columns.drained[last]! / 3600, 1e-6)
    near(report.charge_end_pct, (100 * outcome.columns.left[last]!) / outcome.usable, 1e-6)
    near(report.spare_Wh, (outcome.columns.left[last]! - outcome.reserve) / 3600, 1e-6)
    near(report.riding_s + report.standing_s + report.crossing_s, report.elapsed_s, 1e-5)
    expect(report.standing_s).toBeGreaterThan(1800)
    expect(report.walked_m).toBe(outcome.walked)
    const finish = Date.parse(`${report.start}Z`) / 1000 + report.elapsed_s
    expect(Math.abs(Date.parse(`${report.finish}Z`) / 1000 - finish)).toBeLessThanOrEqual(30)
  })

  it('has legs with the figures of the page’s table', async () => {
    const outcome = await forecast('two-passes-62km', stopAt(30_000))
    const { legs } = await json(passes, '--plan', 'stop.json')
    const wanted = legsOf(outcome)
    expect(legs).toHaveLength(wanted.length)
    legs.forEach((leg, i) => {
      const { from, to, start, end, length, ascent, descent, ridingTime, riderWork, motorWork, ...other } = wanted[i]!
      expect([leg.leg, leg.from, leg.to]).toEqual([i + 1, words.place(from), words.place(to)])
      near(1000 * leg.start_km, start, 0.51)
      near(1000 * leg.end_km, end, 0.51)
      near(1000 * leg.length_km, length, 0.51)
      near(leg.ascent_m, ascent, 0.51)
      near(leg.descent_m, descent, 0.51)
      near(leg.riding_time_s, ridingTime, 0.51)
      near(1000 * leg.rider_kJ, riderWork, 51)
      near(1000 * leg.motor_kJ, motorWork, 51)
      near(leg.mean_speed_kmh, (3.6 * length) / ridingTime, 0.0051)
      near(leg.mean_gradient_pct, (100 * (ascent - descent)) / length, 0.051)
      near(leg.max_gradient_pct, 100 * other.steepestGradient, 0.051)
      near(3600 * leg.battery_Wh, other.drained, 181)
      near(3.6 * leg.drain_Wh_per_km, other.drained / length, 0.019)
      near(leg.charge_start_pct, (100 * other.leftAtStart) / outcome.usable, 0.051)
      near(leg.charge_end_pct, (100 * other.leftAtEnd) / outcome.usable, 0.051)
      near(Date.parse(`${leg.arrive}Z`) / 1000, Date.parse('2027-06-19 06:00Z') / 1000 + other.arrive, 31)
      near(Date.parse(`${leg.depart}Z`) / 1000, Date.parse('2027-06-19 06:00Z') / 1000 + other.depart, 31)
    })
  })

  it('has the same legs as the CSV', async () => {
    const { legs } = await json(passes, '--plan', 'stop.json')
    const csv = Papa.parse<Record<string, string>>((await text(passes, '--plan', 'stop.json', '--csv')).trimEnd(), {
      header: true,
    })
    expect(csv.errors).toEqual([])
    expect(legs.length).toBeGreaterThan(6)
    expect(
      legs.map((leg) => Object.fromEntries(Object.entries(leg).map(([key, value]) => [key, String(value)]))),
    ).toEqual(csv.data)
    expect(legs.some(({ note }) => /^Mill: 30 min, \d+ Wh charged$/.test(note))).toBe(true)
  })

  it('tells of crossings, and of their time', async () => {
    const report = await json(islands)
    expect(report.crossings).toHaveLength(1)
    const [crossing] = report.crossings
    near(crossing!.length_km, 12.35, 0.05)
    near(crossing!.start_km, 96.3, 0.1)
    expect(crossing!.seconds).toBe(report.crossing_s)
    expect(crossing!.why).toBe('brokenOff')
  })

  it('words for a reader what a script gets as codes', async () => {
    const shown = await text(islands)
    expect(shown).toContain('  Note      km 96.3: a gap of 12.4 km, taken as a crossing: the file breaks off')
    expect(await text('test/files/tracks-of-two-days.gpx')).toContain('Which do you plan?')
    expect(await text('test/files/single-outlier.gpx')).toContain('  Note      jumps, count 1\n')
  })

  it('says where the reserve is reached and the motor stops, and null where neither is', async () => {
    const enough = await json(passes)
    expect([enough.reserve_km, enough.motor_off_km]).toEqual([null, null])
    const half = await json(passes, '--set', 'battery.packs.0.charge=0.3', '--set', 'battery.packs.1.charge=0')
    expect(half.spare_Wh).toBeLessThan(0)
    expect(half.reserve_km).toBeGreaterThan(0)
    expect(half.motor_off_km).toBeGreaterThan(half.reserve_km!)
    expect(half.motor_off_km).toBeLessThan(62)
  })

  it('says what was found in the file, and what does not fit the route', async () => {
    const { notes } = await json('test/files/no-elevation.gpx', '--plan', 'beyond.json')
    expect(notes).toContainEqual(expect.objectContaining({ code: 'noElevation', climb: 100, mass: 130 }))
    expect(notes).toContainEqual({ code: 'stopsBeyondRoute', count: 1 })
    expect((await json('test/files/single-outlier.gpx')).notes).toContainEqual({ code: 'jumps', count: 1 })
    const { notes: ofDays } = await json('test/files/tracks-of-two-days.gpx')
    expect(ofDays).toContainEqual(expect.objectContaining({ code: 'whichRide', question: 'days', rides: 2 }))
    expect(ofDays).toContainEqual({ code: 'linesLeft', count: 2 })
    expect((await json(passes)).notes).toEqual([])
  })

  it('says as text that it is for flat ground, where the file has no elevation', async () => {
    const said = await text('test/files/no-elevation.gpx')
    expect(said).toMatch(/Charge +on flat ground lasts: /)
    expect(said).toMatch(/Length +\S+ km, climbs unknown\n/)
    expect(await text(passes)).toMatch(/Length +\S+ km, [\d,]+ m up, [\d,]+ m down\n/)
  })

  it('is null where a number is not finite, and else has six decimals', () => {
    expect(JSON.parse(written({ drain: NaN, reach: Infinity, third: 1 / 3, whole: 5 }))).toEqual({
      drain: null,
      reach: null,
      third: 0.333333,
      whole: 5,
    })
  })
})

describe('stations of a forecast', () => {
  it('lie at each multiple and at the finish, between the stations of the page', async () => {
    const { route, columns, usable, limits } = await forecast('two-passes-62km', stopAt(30_000))
    const { stations } = await json(passes, '--plan', 'stop.json', '--every', '777')
    const at = route.stations.distance
    expect(stations.slice(0, -1).map(({ km }) => km)).toEqual(
      Array.from({ length: Math.ceil(route.length / 777) }, (_, k) => Number((0.777 * k).toFixed(6))),
    )
    near(stations.at(-1)!.km, route.length / 1000, 1e-6)
    for (const station of stations.slice(1, -1)) {
      const place = 1000 * station.km
      const i = at.findLastIndex((distance) => distance <= place)
      const share = (place - at[i]!) / (at[i + 1]! - at[i]!)
      const between = (column: ArrayLike<number>) => column[i]! + share * (column[i + 1]! - column[i]!)
      near(station.elevation_m, between(route.stations.elevation), 1e-5)
      near(station.gradient_pct, 100 * route.stations.gradient[i]!, 1e-5)
      near(station.speed_kmh, 3.6 * between(columns.speed), 1e-5)
      near(station.limit_kmh, 3.6 * Math.sqrt(between(limits)), 1e-5)
      const time = columns.ridingTime[i + 1]! - columns.ridingTime[i]!
      near(station.rider_W, (columns.riderWork[i + 1]! - columns.riderWork[i]!) / time, 1e-5)
      near(station.motor_W, (columns.motorWork[i + 1]! - columns.motorWork[i]!) / time, 1e-5)
      near(station.used_Wh, between(columns.drained) / 3600, 1e-5)
      near(station.time_s, between(columns.time), 1e-5)
      near(station.charge_pct, (100 * between(columns.left)) / usable, 1e-5)
      expect(station.speed_kmh).toBeLessThanOrEqual(station.limit_kmh + 0.05)
    }
  })

  it('end with the whole of the ride, and the finish is there once', async () => {
    const report = await json(passes, '--every', '1000000000')
    expect(report.stations.map(({ km }) => km)).toEqual([0, Number((report.length_m / 1000).toFixed(6))])
    near(report.stations[1]!.time_s, report.elapsed_s, 1e-6)
    near(report.stations[1]!.used_Wh, report.battery_Wh, 1e-6)
    near(report.stations[1]!.charge_pct, report.charge_end_pct, 1e-6)
    for (const every of ['62000000000', String(report.length_m), String(report.length_m - 1e-6)])
      expect((await json(passes, '--every', every)).stations).toHaveLength(2)
    expect((await json(passes, '--every', String(report.length_m / 2))).stations).toHaveLength(3)
  })
})

describe('values set', () => {
  it('give the same as the plan edited', async () => {
    const plan = stopAt(30_000)
    plan.rider.power = 108
    plan.bike.rolling = 0.009
    plan.stops[0]!.name = 'At the weir'
    const outcome = await forecast('two-passes-62km', plan)
    const sets = ['rider.power=108', 'bike.rolling=0.009', 'stops.0.name=At the weir'].flatMap((set) => ['--set', set])
    const report = await json(passes, '--plan', 'stop.json', ...sets)
    near(report.elapsed_s, outcome.columns.time.at(-1)!, 1e-6)
    expect(report.legs.some(({ to }) => to === 'At the weir')).toBe(true)
  })

  it('take a table of weather as it is pasted, its clock times from the start as set, in whatever order', async () => {
    const table = ['--set', 'weather.table=@hours.csv']
    const start = ['--set', 'start=2027-01-05T06:00']
    const [one, other] = [await json(passes, ...table, ...start), await json(passes, ...start, ...table)]
    expect(one).toEqual(other)
    expect(one.start).toBe('2027-01-05T06:00')
    const calm = await json(passes, ...start)
    expect(one.elapsed_s).not.toBe(calm.elapsed_s)
  })

  it('take JSON, also whole lists and a further entry of one', async () => {
    const crossing = '{"timetable":{"kind":"duration","duration":7200},"source":null,"fillFirst":"most"}'
    expect((await json(islands, '--set', `crossings.0=${crossing}`)).crossing_s).toBe(7200)
    expect((await json(islands, '--set', `crossings=[${crossing}]`)).crossing_s).toBe(7200)
    expect((await json(passes, '--set', 'zone=Europe/Berlin')).zone).toBe('Europe/Berlin')
    expect((await json(passes, '--set', 'zone="Asia/Tokyo"')).zone).toBe('Asia/Tokyo')
  })
})

describe('files', () => {
  it('are read as on the page: gzip, KML, a plan with a byte order mark', async () => {
    expect((await json('line.kml.gz')).route).toBe('North road')
    expect(await json(passes, '--plan', 'marked.json')).toEqual(await json(passes))
  })
})

describe('the text for people', () => {
  it('says the answer, and has the stations where they are asked for', async () => {
    const said = await text(islands, '--every', '100000')
    expect(said).toContain('Two islands in a day')
    expect(said).toMatch(/48 % at the finish/)
    expect(said.match(/^ +(0|100|165)\.\d{3} /gm)).toHaveLength(3)
  })
})

describe('help', () => {
  it('names all options, whatever else is asked', async () => {
    for (const words of [['--help'], ['-h', passes, '--json']])
      for (const option of ['--plan', '--set', '--every', '--json', '--csv'])
        expect(await text(...words)).toContain(option)
  })
})

describe('what is refused', () => {
  it.each([
    [[], /No route file/],
    [[passes, islands], /One route file at a time/],
    [['nowhere.gpx'], /“nowhere.gpx” can't be read/],
    [['README.md'], /not a GPX or KML file/],
    [[passes, '--jason'], /no option --jason/],
    [[passes, '-j'], /no option -j/],
    [[passes, '--json', '--csv'], /Only one of --json and --csv/],
    [[passes, '--json=yes'], /--json takes no value/],
    [[passes, '--plan'], /--plan needs a value/],
    [[passes, '--plan', 'stop.json', '--plan', 'stop.json'], /--plan is given twice/],
    [[passes, '--plan', passes], /not JSON/],
    [[passes, '--plan', 'newer.json'], /version 99/],
    [[passes, '--every', '-5'], /above 0, not “-5”/],
    [[passes, '--every', 'x'], /above 0, not “x”/],
    [[passes, '--every', ' '], /above 0/],
    [[passes, '--every', '1e999'], /above 0/],
    [[passes, '--every', '0.001'], /1000000 are the most/],
    [[passes, '--every', '10', '--csv'], /--csv is the table of legs/],
    [[passes, '--set', 'rider.power'], /path=value/],
    [[passes, '--set', '=5'], /path=value/],
    [[passes, '--set', 'rider.powr=5'], /“rider” has no “powr”/],
    [[passes, '--set', 'rider.__proto__.power=5'], /“rider” has no “__proto__”/],
    [[passes, '--set', 'rider.power.much=5'], /nothing is inside “rider.power”/],
    [[passes, '--set', 'stops.0.duration=1800'], /“stops” has no “0”; it is empty/],
    [[passes, '--set', 'battery.packs.2.charge=1'], /it has numbers from 0 to 1/],
    [[passes, '--set', 'rider.power=strong'], /“rider.power” is not right/],
    [[passes, '--set', 'rider.power=5000'], /“rider.power” is not right/],
    [[passes, '--set', 'rider.power=1e999'], /too large a number/],
    [[passes, '--set', 'version=99'], /version 99/],
    [[passes, '--set', 'zone=Mars/One'], /“Mars\/One” is no time zone/],
    [[passes, '--set', 'weather.table=@gone.csv'], /“gone.csv” can't be read/],
    [[passes, '--set', 'weather.table=@windless.csv'], /no column headed “wind from”/],
  ])('%j', async (words, sentence) => {
    const fault: unknown = await text(...words).catch((error: unknown) => error)
    expect(fault).toBeInstanceOf(Fault)
    expect((fault as Fault).message).toMatch(sentence)
  })
})

describe('the rest of a day from a reading', () => {
  const road = (...words: string[]) => roadFor(words, read)
  const few = ['--days', '64']
  const rest = async (...words: string[]) => JSON.parse(await road(...words, ...few, '--json')) as RoadReport

  it('is that of the forecast where the reading is what it has there', async () => {
    const planned = await json(islands, '--every', '92000')
    const { km, time_s, charge_pct } = planned.stations.find(({ km }) => km === 92)!
    const clock = new Date(Date.parse(`${planned.start}Z`) + 60_000 * Math.round(time_s / 60))
      .toISOString()
      .slice(11, 16)
    const report = await rest(islands, '--at', String(km), '--charge', String(charge_pct), '--clock', clock)
    expect(report).toMatchObject({ at_km: 92, reserve_km: null, motor_off_km: null })
    near(Date.parse(`${report.finish}Z`), Date.parse(`${planned.finish}Z`), 60_000)
    near(report.spare_Wh, planned.spare_Wh, 0.01)
    near(report.charge_end_pct, planned.charge_end_pct, 0.01)
    expect(Math.abs(report.behind_s)).toBeLessThanOrEqual(30)
    near(report.beyond_plan_pct, 0, 0.01)
    near(report.rest_s, planned.elapsed_s - time_s, 60)
  })

  it('says when the charge does not last any more', async () => {
    const report = await rest(islands, '--at', '92', '--charge', '12', '--clock', '12:40')
    expect(report.motor_off_km).toBeGreaterThan(92)
    expect(report.behind_s).toBeGreaterThan(7200)
    expect(report.beyond_plan_pct).toBeLessThan(-50)
    const said = await road(islands, '--at', '92', '--charge', '12', '--clock', '12:40', ...few)
    expect(said).toContain(`does not last: the motor stops at km ${report.motor_off_km!.toFixed(1)}`)
    expect(said).toMatch(/the plan 2 h 17 min later, with 58 % less charge/)
  })

  const [mill, inn] = [
    ['--at', '4', '--charge', '86', '--clock', '06:12'],
    ['--at', '9', '--charge', '62', '--clock', '06:24'],
  ] as const

  it('is surer of less by a second reading that is low too, and of each way to ride on says the same as those of a plan file', async () => {
    const chanceOf = ({ ways }: RoadReport) => ways.find(({ assist }) => assist === 1)!.reserve_pct
    const plain = [
      ...['start=2027-06-19T06:00', 'assist.ratio=3', 'battery.reserve=0.3'],
      ...['battery.packs.0.capacityAh=3', 'battery.packs.1.capacityAh=3'],
    ].flatMap((setting) => ['--set', setting])
    const one = await rest(town, ...mill, ...plain)
    const both = await rest(town, ...mill, ...inn, ...plain)
    expect(one.readings).toHaveLength(1)
    expect(both.readings.map(({ km, at }) => [km, at])).toEqual([
      [4, '2027-06-19T06:12'],
      [9, '2027-06-19T06:24'],
    ])
    expect(both.at_km).toBe(9)
    expect(chanceOf(both)).toBeLessThan(chanceOf(one))
    const left = both.ways.map(({ left_pct }) => left_pct.middle)
    expect(left).toEqual(left.toSorted((a, b) => b - a))
    const stated = both.readings.map(({ km, at, charge_pct }) => ({
      distance: 1000 * km,
      at,
      charge: charge_pct / 100,
    }))
    const ofPlan = await rest(town, ...plain, '--set', `readings=${JSON.stringify(stated)}`)
    expect(ofPlan).toEqual(both)
    const weak = await rest(town, ...mill, ...plain, '--power', '60')
    expect(weak.ways.at(-1)).toMatchObject({ assist: 1, power_W: 60 })
    expect(weak.ways.at(-1)!.finish.middle > one.ways[3]!.finish.middle).toBe(true)
  })

  it.each<[string[], RegExp]>([
    [[], /^--at is missing, and the plan has no readings/],
    [['--charge', '38', '--clock', '12:40'], /^--at is missing/],
    [['--at', '60', '--at', '92', '--charge', '38', '--clock', '12:40'], /^--charge is missing for reading 2/],
    [[...inn, '--at', '4', '--charge', '80', '--clock', '06:50'], /later than the one before/],
    [[...mill, '--power', '5'], /watts from 20 to 500/],
    [[...mill, '--days', '65'], /a multiple of 8/],
    [['--at', '92', '--clock', '12:40'], /^--charge is missing/],
    [['--at', '92', '--charge', '38'], /^--clock is missing/],
    [['--at', '166', '--charge', '38', '--clock', '12:40'], /a place from km 0 to km 165.5, not “166”/],
    [['--at', '92', '--charge', '101', '--clock', '12:40'], /a percentage from 0 to 100/],
    [['--at', '92', '--charge', '38', '--clock', '24:00'], /a time such as 12:40, not “24:00”/],
    [['--at', '5', '--charge', '38', '--clock', '05:40'], /At 05:40 the day has not begun/],
    [['--at', '5', '--charge', '38', '--clock', '06:40', '--csv'], /no option --csv/],
  ])('%j', async (words, sentence) => {
    const fault: unknown = await road(islands, ...words).catch((error: unknown) => error)
    expect(fault).toBeInstanceOf(Fault)
    expect((fault as Fault).message).toMatch(sentence)
  })
})

describe('the program', () => {
  const run = (words: string) =>
    spawnSync('bash', ['-c', `set -o pipefail; npm run -s forecast -- ${words}`], {
      cwd: fileURLToPath(new URL('sample-routes/', root)),
      encoding: 'utf8',
    })

  it('prints what was asked for, of a file named from where it was called', async () => {
    const { stdout, stderr, status } = run('into-town-18km.gpx --csv')
    expect({ stderr, status }).toEqual({ stderr: '', status: 0 })
    expect(stdout).toBe(await text('sample-routes/into-town-18km.gpx', '--csv'))
  })

  it('says a fault in one line, prints nothing and ends with 2', () => {
    expect(run('..')).toMatchObject({
      stdout: '',
      stderr: "“..” can't be read: it is a folder.\n",
      status: 2,
    })
  })

  it('ends quietly where nobody reads on', () => {
    const { stdout, stderr, status } = run('two-passes-62km.gpx --json --every 10 | head -n 1')
    expect({ stdout, stderr, status }).toEqual({ stdout: '{\n', stderr: '', status: 0 })
  })
})
