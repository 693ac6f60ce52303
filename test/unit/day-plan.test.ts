import { describe, expect, it } from 'vitest'
import { factsOf, timesOf } from '../../src/model/readings/facts'
import { passagesFor } from '../../src/model/readings/passages'
import { meanCelsius, refillsOf } from '../../src/model/readings/needs'
import { daySheet } from '../../src/model/readings/sheet'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import type { Timetable } from '../../src/model/plan/day-schema'
import {
  addControl,
  addKitItem,
  changeControl,
  changeKitItem,
  removeControl,
  removeKitItem,
  setGoal,
  setKit,
  setZone,
  timetableAs,
} from '../../src/model/plan/edit-day'
import {
  addWeatherHour,
  addWeatherPlace,
  beginWeatherTable,
  changeWeatherPlace,
  removeWeatherPlace,
  setWeatherHour,
} from '../../src/model/plan/edit-weather'
import { offeredStops, stopAtOffered } from '../../src/model/plan/offered-stops'
import { most, type Plan } from '../../src/model/plan/schema'
import { given } from '../../src/model/place-name'
import { readEvery } from '../../src/view/sheet/every'
import { foldedWordsIn } from '../../src/view/words/folded'
import { wordsIn } from '../../src/view/words/words'
import { near } from '../asserts'
import { hourly } from '../rides'
import { courseRoute } from '../routes'

const { names } = wordsIn('metric')

const route = courseRoute({ length: 120_000, elevation: (d) => 0.01 * Math.min(d, 240_000 - d), crossings: [70_000] })
function planned(change: (plan: Plan) => void = () => {}): Plan {
  const plan = defaultPlan()
  plan.zone = 'Europe/Berlin'
  plan.stops = [{ ...defaultStop('stop-1', 'Mill', 40_000, null), duration: 1800, kind: 'food' }]
  plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
  change(plan)
  return plan
}

describe('the facts of a day', () => {
  const outcome = simulate(route, planned())

  it('the named times add up to the whole', () => {
    const { riding, smallHalts, stopped, crossing, elapsed } = timesOf(outcome)
    near(riding + smallHalts + stopped + crossing, elapsed, 1e-6)
    near(elapsed, outcome.columns.time.at(-1)!, 1e-9)
    near(smallHalts, 6 * 60 * 1.2, 1, 'six minutes each 100 km')
    expect(stopped).toBeGreaterThanOrEqual(1800 - 1e-6)
    expect(crossing).toBeGreaterThanOrEqual(2400)
  })

  it('tells the sailing of a timetable, and none where only a time is known', () => {
    expect(factsOf(outcome).sailings[0]!.margin).toBeGreaterThanOrEqual(0)
    const plain = simulate(
      route,
      planned((plan) => void (plan.crossings = [])),
    )
    expect(factsOf(plain).sailings).toEqual([undefined])
  })

  it('a control is passed on arrival, before the stop that stands there', () => {
    const [passage] = passagesFor(
      simulate(
        route,
        planned((plan) => {
          // A few metres on from the stop, at the same station.
          plan.controls = [{ id: 'c', name: 'Gate', distance: 40_003, opens: null, closes: null }]
        }),
      ),
    )
    const stop = outcome.halts.find(({ stop }) => stop === 'stop-1')!
    near(passage!.arrive - outcome.started, stop.arrive, 1e-6)
  })

  it('a control that is waited for has one row, with its name and its wait', () => {
    const waiting = simulate(
      route,
      planned((plan) => {
        plan.controls = [
          { id: 'c', name: 'Gate', distance: 20_000, opens: { by: 'clock', day: 0, time: '09:00' }, closes: null },
        ]
      }),
    )
    const rows = daySheet(waiting, factsOf(waiting)).filter(({ kind }) => kind === 'control')
    expect(rows.map(({ name }) => name)).toEqual([given('Gate')])
    near(rows[0]!.depart, rows[0]!.passage!.opens!, 1e-6)
  })

  it('finds refills by kind, and the air where the rider is', () => {
    expect(refillsOf(outcome, ['food']).map(({ name }) => name)).toEqual(['Mill'])
    expect(refillsOf(outcome, ['water'])).toEqual([])
    const finish = outcome.columns.time.at(-1)!
    // 15 °C at the start at sea level, 6.5 K less on each of the 1000 m that the road climbs: half-way 600 m up.
    const half = outcome.columns.time[Math.round(outcome.columns.time.length / 2)]!
    near(meanCelsius(outcome, half - 1, half), 15 - 6.5 * 0.6, 0.05)
    expect(meanCelsius(outcome, 0, finish)).toBeLessThan(15)
  })
})

describe('timetableAs', () => {
  const list = { kind: 'list', times: ['07:00', '09:30'] } as const
  const every = { kind: 'every', interval: 5400, from: '06:30', until: '20:00' } as const

  it('has the sailings that are given and no other, and keeps what both kinds have', () => {
    const time: Timetable = { kind: 'duration', duration: 5400 }
    expect(timetableAs({ ...list, times: [...list.times] }, time, 12_350)).toEqual({
      ...list,
      days: [1, 2, 3, 4, 5, 6, 7],
      boardBefore: 600,
      length: 2100,
    })
    expect(timetableAs(every, { ...hourly, kind: 'list', times: ['07:00'] } as Timetable, 0)).toMatchObject({
      ...every,
      boardBefore: 300,
      length: 2400,
    })
    expect(timetableAs({ ...list, times: [...list.times] }, hourly, 0)).toEqual({
      ...list,
      days: hourly.kind === 'every' ? hourly.days : [],
      boardBefore: 300,
      length: 2400,
    })
  })

  it('keeps the time when it goes back, and guesses the passage by its length, five minutes at least', () => {
    expect(timetableAs({ kind: 'duration' }, hourly, 0)).toEqual({ kind: 'duration', duration: 2700 })
    const time: Timetable = { kind: 'duration', duration: 5400 }
    expect(timetableAs({ kind: 'duration' }, time, 0)).toBe(time)
    expect(timetableAs(every, time, 0)).toMatchObject({ length: 300 })
    expect(timetableAs(every, time, 6 * 3600)).toMatchObject({ length: 3600 })
  })
})

describe('sailings that come again and again', () => {
  const { timetable } = foldedWordsIn('metric').crossings
  it.each([
    ['every 60 min, 07:15 to 21:15', 3600, '07:15', '21:15'],
    ['90min 6:00-20.30', 5400, '06:00', '20:30'],
    ['1.5 h from 22:00 until 02:00', 5400, '22:00', '02:00'],
    [timetable.everyWritten(1200, '05:05', '23:55'), 1200, '05:05', '23:55'],
  ])('%s', (text, interval, from, until) => {
    expect(readEvery(text, timetable)).toEqual({ ok: true, value: { kind: 'every', interval, from, until } })
  })
  it.each([
    '',
    'hourly',
    '60 07:15 to 21:15',
    '60 min, 07:15',
    '60 min, 07:15 to 25:00',
    '0 min, 07:15 to 21:15',
    '30 h 07:15 to 21:15',
  ])('“%s” is one sentence', (text) => {
    expect(readEvery(text, timetable)).toMatchObject({ ok: false, sentence: expect.stringMatching(/\.$/) })
  })
})

describe('controls and things of the kit', () => {
  it('are added with an id and name of their own, changed, and taken out', () => {
    const one = addControl(planned(), 5000, (n) => `Gate ${n}`)
    const two = addControl(one, 9000, (n) => `Gate ${n}`)
    const added = two.controls.slice(-2)
    expect(added[1]).toEqual({ ...added[1], distance: 9000, opens: null, closes: null })
    expect(new Set(two.controls.map(({ id }) => id)).size).toBe(two.controls.length)
    expect(added.map(({ id, name }) => name === `Gate ${id.split('-').at(-1)}`)).toEqual([true, true])
    const changed = changeControl(two, added[1]!.id, { distance: 9500 })
    expect(changed.controls.at(-1)!.distance).toBe(9500)
    expect(changed.controls.at(-2)).toBe(added[0])
    expect(removeControl(changed, added[0]!.id).controls).toEqual(
      changed.controls.filter(({ id }) => id !== added[0]!.id),
    )
    expect(removeControl(changed, 'none')).toBe(changed)
    let full = planned()
    for (let k = 0; k < 105; k++) full = addControl(full, k, String)
    expect(full.controls).toHaveLength(100)

    const kit = addKitItem(addKitItem(planned(), 'Pump'), 'Lock')
    const [pump, lock] = kit.kit.slice(-2)
    expect(pump).toMatchObject({ name: 'Pump', mass: 0.1, count: 1, place: 'bike', mark: 'comes', use: null })
    const heavy = changeKitItem(kit, lock!.id, { mass: 2 })
    expect(heavy.kit.slice(-2)).toEqual([pump, { ...lock, mass: 2 }])
    expect(removeKitItem(heavy, pump!.id).kit.at(-1)).toBe(heavy.kit.at(-1))
    for (let k = 0; k < 305; k++) full = addKitItem(full, 'x')
    expect(full.kit).toHaveLength(300)
    expect(setKit(full, []).kit).toEqual([])
    expect(setGoal(setZone(full, 'Europe/Oslo'), { goal: 3600 })).toMatchObject({ zone: 'Europe/Oslo', goal: 3600 })
    expect(setGoal(full, { ridingGoal: 1800 })).toEqual({ ...full, ridingGoal: 1800 })
  })
})

describe('stops that the file offers', () => {
  const waypoint = (name: string, distance: number | undefined) => ({ name, latitude: 0, longitude: 0, distance })
  const length = 120_000

  it('are its waypoints on the way, in order, first those with food, water or sockets', () => {
    const before = planned()
    const offered = offeredStops(
      before,
      [
        waypoint('Start', 20),
        waypoint('Castle', 95_000),
        waypoint('Spring', 90_000),
        waypoint('Mill too', 40_060),
        waypoint('Far off', undefined),
        waypoint(' ', 10_000),
        waypoint('Bakery at the Bridge', 70_000),
        waypoint('Bakery, again', 70_090),
        waypoint('Ladestation', 100_000),
        waypoint('Finish', 119_950),
      ],
      length,
    )
    expect(offered.map(({ name, distance, service }) => [name, distance, service])).toEqual([
      ['Bakery at the Bridge', 70_000, 'food'],
      ['Spring', 90_000, 'water'],
      ['Ladestation', 100_000, 'sockets'],
      ['', 10_000, undefined],
      ['Castle', 95_000, undefined],
    ])
    const after = stopAtOffered(before, offered.slice(1, 4), names.stop)
    expect(
      after.stops
        .slice(1)
        .map(({ name, distance, kind, source, duration }) => [name, distance, kind, source, duration]),
    ).toEqual([
      ['Spring', 90_000, 'water', null, 900],
      ['Ladestation', 100_000, 'rest', null, 900],
      ['Stop 4', 10_000, 'rest', null, 900],
    ])
    expect(new Set(after.stops.map(({ id }) => id)).size).toBe(4)
    expect(offeredStops(after, [waypoint('Well', 90_050)], length)).toEqual([])
    // A hundred metres are beside it.
    const beside = offeredStops(after, [waypoint('Well', 90_100), waypoint('x'.repeat(90), 119_900)], length)
    expect(
      stopAtOffered(after, beside, names.stop)
        .stops.slice(-2)
        .map(({ name }) => name),
    ).toEqual(['Well', 'x'.repeat(80)])
  })

  it.each([
    ['Farm shop', 'food'],
    ['Shopton Hill', undefined],
    ['Café du Pont', 'food'],
    ['Springfield Farm', undefined],
    ['Barrow', undefined],
    ['Dwelling', undefined],
    ['Water tap', 'water'],
    ['Trinkwasserbrunnen', 'water'],
    ['Charging post', 'sockets'],
  ])('reads what %s seems to have', (name, service) => {
    expect(offeredStops(planned(), [waypoint(name, 60_000)], length)[0]!.service).toBe(service)
  })

  it('fill a plan to its most and no further', () => {
    const many = Array.from({ length: 300 }, (_, k) => waypoint(`W${k}`, 300 * (k + 1)))
    const offered = offeredStops(planned(), many, length)
    expect(stopAtOffered(planned(), offered, names.stop).stops).toHaveLength(most.stops)
  })
})

describe('the table of weather', () => {
  const plan = beginWeatherTable(planned(), 9.2 * 3600, names.weatherStart)
  const hours = (plan: Plan, place = 0) => plan.weather.table[place]!.hours.map(({ time }) => time.slice(11))

  it('begins with the plan’s one weather from the hour of the start to beyond the finish', () => {
    expect(hours(plan)[0]).toBe('06:00')
    expect(hours(plan).at(-1)).toBe('17:00')
    expect(plan.weather.table[0]!.hours[3]).toMatchObject({ temperatureCelsius: 15, rainPerHour: 0, pressure: null })
  })

  it('holds three places, each with its own hours', () => {
    const three = addWeatherPlace(addWeatherPlace(plan, 60_000, names.weatherPlace), 120_000, names.weatherPlace)
    expect(three.weather.table.map(({ distance }) => distance)).toEqual([0, 60_000, 120_000])
    expect(addWeatherPlace(three, 1, names.weatherPlace)).toBe(three)
    const shorter = setWeatherHour(three, 1, 0, undefined)
    expect(hours(shorter, 1)[0]).toBe('07:00')
    expect(hours(shorter, 0)[0]).toBe('06:00')
    expect(removeWeatherPlace(three, 1).weather.table).toHaveLength(2)
    expect(changeWeatherPlace(plan, 0, { name: 'Start' })).toBe(plan)
    expect(three.weather.table[2]!.hours).toBe(plan.weather.table[0]!.hours)
    expect(addWeatherPlace(planned(), 5, names.weatherPlace).weather.table).toEqual([])
    const moved = changeWeatherPlace(three, 1, { distance: 61_000 })
    expect(moved.weather.table.map(({ distance }) => distance)).toEqual([0, 61_000, 120_000])
  })

  it('keeps rows in order, and no two of one time', () => {
    const first = plan.weather.table[0]!.hours[0]!
    const moved = setWeatherHour(plan, 0, 0, { ...first, time: '2027-06-19T06:30' })
    expect(hours(moved).slice(0, 2)).toEqual(['06:30', '07:00'])
    const late = setWeatherHour(plan, 0, 0, { ...first, time: '2027-06-19T23:00' })
    expect(hours(late).at(-1)).toBe('23:00')
    expect(setWeatherHour(plan, 0, 0, { ...first, time: '2027-06-19T07:00' })).toBe(plan)
    expect(setWeatherHour(plan, 7, 0, first)).toBe(plan)
    expect(addWeatherHour(plan, 7)).toBe(plan)
    let one = plan
    while (one.weather.table[0]!.hours.length > 1) one = setWeatherHour(one, 0, 0, undefined)
    expect(setWeatherHour(one, 0, 0, undefined)).toBe(one)
    for (let k = 0; k < 405; k++) one = addWeatherHour(one, 0)
    expect(one.weather.table[0]!.hours).toHaveLength(400)
    // From the hour of the start on for a ride of any length, two days and an hour at most.
    const rows = (hours: number) => beginWeatherTable(planned(), hours * 3600, 'x').weather.table[0]!.hours.length
    expect([0.5, 1, 46.5, 47, 60].map(rows)).toEqual([3, 3, 49, 49, 49])
    expect(addWeatherHour(late, 0).weather.table[0]!.hours.at(-1)!.time).toBe('2027-06-20T00:00')
  })
})
