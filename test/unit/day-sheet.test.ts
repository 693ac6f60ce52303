import { describe, expect, it } from 'vitest'
import { passagesOf } from '../../src/model/readings/passages'
import { windowsOf } from '../../src/model/world/controls'
import { crossingName } from '../../src/model/route/crossing-name'
import { calendarEvents, gpxPlaces } from '../../src/model/export/events'
import { nextSailing } from '../../src/model/world/sailings'
import { daySheet } from '../../src/model/readings/sheet'
import { instantOf } from '../../src/model/world/zone'
import { Batteries } from '../../src/model/forecast/batteries'
import { prepare } from '../../src/model/forecast/prepare'
import { simulate } from '../../src/model/forecast/simulate'
import { defaultPlan, defaultMains } from '../../src/model/plan/defaults'
import type { Plan } from '../../src/model/plan/schema'
import { wordsIn } from '../../src/view/words/words'
import { rowWordsIn } from '../../src/view/words/rows'
import { near } from '../asserts'
import { hourly, root } from '../rides'
import { courseRoute } from '../routes'

const words = rowWordsIn('metric')

const zone = 'Europe/Berlin'
const route = courseRoute({
  length: 150_000,
  elevation: (d) => 100 - 100 * Math.cos((2 * Math.PI * d) / 15_000),
  crossings: [70_000],
})

/** A day with a charge at km 40, a rest with a control at km 100 and a crossing between, and its sheet. */
function day(change: (plan: Plan) => void = () => {}) {
  const plan = defaultPlan(wordsIn('metric').names)
  plan.sources = [defaultMains('source-1', 'Charger')]
  plan.stops = [
    {
      id: 'stop-1',
      name: 'Inn',
      distance: 40_000,
      source: 'source-1',
      kind: 'rest',
      goal: 'duration',
      fillFirst: 'most',
      duration: 2700,
      chargeTo: 0.8,
    },
    {
      id: 'stop-2',
      name: 'Mill',
      distance: 100_000,
      source: null,
      kind: 'rest',
      goal: 'duration',
      fillFirst: 'most',
      duration: 1200,
      chargeTo: 0.8,
    },
  ]
  change(plan)
  const outcome = simulate(route, plan)
  const started = instantOf(plan.start, zone)
  const windows = windowsOf(
    [
      { id: 'c1', name: 'Mill gate', distance: 100_000, opens: null, closes: { by: 'speed', speed: 4 } },
      { id: 'c2', name: 'Bridge', distance: 120_000, opens: null, closes: null },
    ],
    12 * 3600,
    plan.start,
    zone,
    outcome.length,
  )
  const crossing = outcome.halts.find(({ kind }) => kind === 'crossing')!
  const sailing = nextSailing(hourly, started + crossing.arrive, zone)
  const rows = daySheet(outcome, { started, sailings: [sailing], passages: passagesOf(outcome, windows, started) })
  return { plan, outcome, started, sailing, rows }
}

describe('the day sheet', () => {
  const { outcome, started, sailing, rows } = day()

  it('has every place in order, with marks 20 to 25 km apart where there is room', () => {
    expect(
      rows.map(({ kind, name }) => `${kind} ${words.place(name)}`).filter((row) => !row.startsWith('mark')),
    ).toEqual([
      'start Start',
      'stop Inn',
      'crossing Crossing',
      'stop Mill',
      'control Bridge',
      'swap Pack spent',
      'finish Finish',
    ])
    const at = rows.map(({ distance }) => distance)
    expect(at).toEqual([...at].sort((a, b) => a - b))
    expect(rows.filter(({ kind }) => kind === 'mark').map(({ name }) => words.place(name))).toEqual(['km 20.0'])
    const plain = daySheet({ ...outcome, halts: [] }, { started, sailings: [], passages: [] })
    for (const { onward } of plain.slice(0, -1)) {
      expect(onward!.length).toBeGreaterThanOrEqual(20_000)
      expect(onward!.length).toBeLessThanOrEqual(25_000)
    }
  })

  it('carries time, charge, sailing and control of each place', () => {
    const inn = rows.find(({ name }) => words.place(name) === 'Inn')!
    near(inn.depart - inn.arrive, 2700, 1e-6)
    expect(inn.chargeOnDeparture).toBeGreaterThan(inn.charge)
    near(inn.charge, outcome.halts[0]!.leftBefore / outcome.usable, 1e-12)
    expect(rows.find(({ kind }) => kind === 'crossing')!.sailing).toBe(sailing)
    expect(rows.find(({ name }) => words.place(name) === 'Mill')!.passage).toMatchObject({ id: 'c1', met: true })
    expect(rows.at(-1)!.passage).toMatchObject({ kind: 'goal' })
    near(rows.at(-1)!.arrive - started, outcome.columns.time.at(-1)!, 1e-6)
    const sum = (of: (row: (typeof rows)[number]) => number) => rows.reduce((total, row) => total + of(row), 0)
    near(
      sum(({ onward }) => onward?.length ?? 0),
      outcome.length,
      1e-6,
    )
    near(
      sum(({ onward }) => onward?.ridingTime ?? 0),
      outcome.columns.ridingTime.at(-1)!,
      1e-6,
    )
    near(
      sum(({ onward }) => onward?.ascent ?? 0),
      route.ascent,
      1e-6,
    )
    expect(rows[0]!.onward!.assist).toBeGreaterThan(0.1)
    expect(rows[0]!.onward!.assist).toBeLessThanOrEqual(1)
  })

  it('says the least charge with which the rest can be ridden: a day begun with just that ends at the reserve', () => {
    const { least } = rows[0]!
    expect(least).toBeGreaterThan(0.1)
    expect(least).toBeLessThan(rows[0]!.charge)
    const withCharge = (charge: number) => (plan: Plan) => {
      for (const pack of plan.battery.packs) pack.charge = charge
    }
    const leftWith = (charge: number) => {
      const plan = defaultPlan(wordsIn('metric').names)
      withCharge(charge)(plan)
      const batteries = new Batteries(prepare(route, plan))
      return batteries.left() / batteries.usable
    }
    const { outcome: tight } = day(withCharge(root((charge) => leftWith(charge) - least, 0.1, 1)))
    const end = tight.columns.left.at(-1)! / tight.usable
    near(end, 0.1, 0.02, 'charge at the finish, share')
    for (const row of rows) expect(row.least).toBeGreaterThanOrEqual(0.1 - 1e-12)
  })

  it('gives the calendar and the waypoints their places', () => {
    const events = calendarEvents(route, rows, zone, words)
    const keys = ['start', 'stop stop-1', 'crossing 0', 'stop stop-2', 'control c2', 'finish']
    expect(events.map(({ key }) => key)).toEqual(keys)
    const without = day((plan) => (plan.stops = plan.stops.filter(({ id }) => id !== 'stop-1')))
    expect(
      calendarEvents(route, without.rows, zone, words).map(({ key }) => key),
      'the ids of the others stay where a stop goes',
    ).toEqual(keys.filter((key) => key !== 'stop stop-1'))
    near(events[1]!.latitude!, 45 + 40_000 / 111_000, 1e-6)
    expect(events[2]!.title).toMatch(/^Crossing, be there by \d\d:55, leaves \d\d:00$/)
    expect(events[3]!.description).toMatch(/^km 100\.0, \d\d:\d\d to \d\d:\d\d, charge \d+ %, closes \d\d:\d\d$/)
    expect(gpxPlaces(rows, zone, words).map(({ name }) => name)).toEqual(['Inn', 'Crossing', 'Mill', 'Bridge'])
  })
})

describe('what a crossing is called', () => {
  const two = courseRoute({ length: 90_000, crossings: [30_000, 60_000] })
  const quay = two.sections[two.crossings[0]!.after]!.last
  const [north, east] = [two.stations.latitude[quay]!, two.stations.longitude[quay]!]
  const waypoint = (name: string, metres: number) => ({
    name,
    latitude: north - metres / 111_000,
    longitude: east + 360,
    distance: undefined,
  })

  it('has the name of the nearest waypoint within 500 m of where it begins', () => {
    const named = { ...two, waypoints: [waypoint('Far', 520), waypoint('Quay', 300), waypoint('', 0)] }
    expect([0, 1].map((index) => crossingName(named, index))).toEqual([
      { code: 'crossingFrom', name: 'Quay' },
      { code: 'crossing', number: 2 },
    ])
    expect(crossingName({ ...two, waypoints: [waypoint('Far', 520)] }, 0)).toEqual({ code: 'crossing', number: 1 })
  })

  it('has no number where it is the only one', () => {
    expect(crossingName(route, 0)).toEqual({ code: 'onlyCrossing' })
  })
})

describe('a swap', () => {
  const withSwap = (change: (plan: Plan) => void = () => {}) =>
    day((plan) => {
      plan.sources = [{ id: 'source-1', name: 'Swap the pack', kind: 'swap' }]
      change(plan)
    })

  it('tells the packs of a planned swap and of a spent pack, and the sheet names what is put in', () => {
    const { outcome, rows } = withSwap(({ battery }) => (battery.packs[1]!.charge = 0.5))
    const swaps = outcome.halts.map(({ swap }) => swap)
    expect(swaps).toEqual(
      outcome.halts.map(({ kind, stop }) =>
        stop === 'stop-1' ? { off: 0, on: 1 } : kind === 'swap' ? { off: 1, on: 0 } : undefined,
      ),
    )
    expect(outcome.halts.some(({ kind }) => kind === 'swap')).toBe(true)
    expect(rows.find(({ name }) => words.place(name) === 'Inn')!.packIn).toBe('Pack 2')
    expect(rows.find(({ kind }) => kind === 'swap')!.packIn).toBe('Pack 1')
    expect(rows.find(({ name }) => words.place(name) === 'Mill')!.packIn).toBeUndefined()
  })

  it('tells one pack twice where no other is left, and nothing where the stop charges', () => {
    const { outcome, rows } = withSwap(({ battery }) => battery.packs.pop())
    const inn = ({ halts }: typeof outcome) => halts.find(({ stop }) => stop === 'stop-1')!
    expect(inn(outcome).swap).toEqual({ off: 0, on: 0 })
    expect(rows.find(({ name }) => words.place(name) === 'Inn')!.packIn).toBeUndefined()
    const { outcome: charged } = day()
    expect(inn(charged).swap).toBeUndefined()
  })

  it('tells the swap of a crossing', () => {
    const { outcome } = withSwap((plan) => {
      plan.stops[0]!.source = null
      plan.crossings = [{ timetable: { kind: 'duration', duration: 3600 }, source: 'source-1', fillFirst: 'most' }]
    })
    const crossing = outcome.halts.find(({ kind }) => kind === 'crossing')!
    expect(crossing.swap).toEqual({ off: 0, on: 1 })
  })
})
