import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { legRows, legsCsv, type LegWords } from '../../src/model/export/csv'
import { defaultMains, defaultStop } from '../../src/model/plan/defaults'
import { legsOf } from '../../src/model/readings/legs'
import { near } from '../asserts'
import { plainPlan, rideOver } from '../rides'

describe('the leg table as CSV', () => {
  const plan = plainPlan((plan) => {
    plan.start = '2027-06-19T22:30'
    plan.assist.ratio = plan.assist.climbRatio = 1
    plan.legs.length = 10_000
    plan.sources = [defaultMains('source-1', 'Socket')]
    plan.stops = [{ ...defaultStop('stop-1', 'Inn', 20_000, 'source-1'), duration: 3600 }]
  })
  const outcome = rideOver({ length: 30_000, elevation: (d) => (d < 10_000 ? d / 40 : 250) }, plan)
  const legs = legsOf(outcome)
  const words: LegWords = { place: ({ code }) => `=${code}`, legNotes: (notes) => `notes ${notes.length}` }
  const rows = legRows(outcome, legs, words)

  it('holds what its headings say, in their units', () => {
    expect(rows.map(({ leg }) => leg)).toEqual([1, 2, 3])
    const [first] = rows
    // Of the ride itself, by definition of the units: 3600 J in a watt-hour, 3.6 km/h in a metre a second.
    const at = outcome.route.stations.distance.indexOf(10_000)
    const { columns, usable } = outcome
    near(first!.length_km, 10, 1e-3)
    near(first!.end_km - first!.start_km, 10, 1e-3)
    expect(first).toMatchObject({ ascent_m: 250, descent_m: 0, mean_gradient_pct: 2.5, max_gradient_pct: 2.5 })
    near(first!.riding_time_s, columns.time[at]!, 0.5)
    near(first!.mean_speed_kmh, (36 * 1000) / columns.time[at]!, 0.005)
    near(first!.rider_kJ, columns.riderWork[at]! / 1000, 0.05)
    near(first!.motor_kJ, columns.motorWork[at]! / 1000, 0.05)
    near(first!.battery_Wh, columns.drained[at]! / 3600, 0.05)
    near(first!.drain_Wh_per_km, columns.drained[at]! / 36_000, 0.005)
    near(first!.charge_end_pct, (100 * columns.left[at]!) / usable, 0.05)
    expect(first!.charge_end_pct).toBeLessThan(first!.charge_start_pct)
  })

  it('tells the local clock, a day on after midnight, and the halt between two legs', () => {
    /** To the nearest minute. */
    const clock = (time: number) =>
      new Date(Date.UTC(2027, 5, 19, 22, 30, 30) + 1000 * time).toISOString().slice(0, 16).replace('T', ' ')
    const [halt] = outcome.halts
    const first = outcome.columns.time[outcome.route.stations.distance.indexOf(10_000)]!
    expect(rows.map(({ arrive, depart }) => [arrive, depart])).toEqual([
      [clock(first), clock(first)],
      [clock(halt!.arrive), clock(halt!.arrive + 3600)],
      [clock(outcome.columns.time.at(-1)!), clock(outcome.columns.time.at(-1)!)],
    ])
    expect(rows[2]!.arrive.slice(0, 10)).toBe('2027-06-20')
  })

  it('is written by RFC 4180, a heading over each column, and no cell that a spreadsheet would run', () => {
    const text = legsCsv(outcome, legs, words)
    expect(text.endsWith('\r\n')).toBe(true)
    expect(text.split('\r\n')).toHaveLength(5)
    const { data, meta } = Papa.parse<Record<string, string>>(text.trimEnd(), { header: true })
    expect(meta.fields).toEqual(Object.keys(rows[0]!))
    expect(data).toHaveLength(3)
    expect(data[0]).toMatchObject({ from: "'=start", to: "'=at", note: 'notes 0', leg: '1' })
    for (const [key, value] of Object.entries(rows[1]!))
      if (typeof value === 'number') expect(Number(data[1]![key])).toBe(value)
  })
})
