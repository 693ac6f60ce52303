import { expect, it } from 'vitest'
import { latestStarts } from '../../src/model/decide/latest-start'
import { simulate } from '../../src/model/forecast/simulate'
import type { Plan } from '../../src/model/plan/schema'
import { hourly, plainPlan } from '../rides'
import { courseRoute } from '../routes'

const route = courseRoute({ length: 24_000, crossings: [12_000] })
const sailing = (change: (plan: Plan) => void = () => undefined) =>
  plainPlan((plan) => {
    plan.crossings = [{ timetable: hourly, source: null, fillFirst: 'most' }]
    change(plan)
  })

const caught = (plan: Plan) => simulate(route, plan).halts.find(({ gap }) => gap === 0)!.sailing!.depart
const minuteAfter = (start: string) => `${start.slice(0, 14)}${String(Number(start.slice(14)) + 1).padStart(2, '0')}`

it('is the last minute with which a sailing is caught, an hour apart for an hourly one', () => {
  const plan = sailing()
  const { starts } = latestStarts(route, { plan, sure: undefined })
  expect(starts.length).toBeGreaterThanOrEqual(4)
  for (const { start, departs, missed } of starts) {
    if (start.endsWith('59')) continue
    expect(caught({ ...plan, start })).toBe(departs)
    expect(caught({ ...plan, start: minuteAfter(start) })).toBe(departs! + 3600)
    // One starts a minute later, and is there an hour later.
    expect(missed).toBeCloseTo(3600 - 60, 0)
  }
  const minutes = starts.map(({ start }) => start.slice(14))
  expect(new Set(minutes).size).toBe(1)
  expect(starts.filter(({ isPlanned }) => isPlanned).map(({ departs }) => departs)).toEqual([caught(plan)])
})

it('is earlier for a chance, and then kept on so many days', () => {
  const plan = sailing()
  const [plain, careful] = [undefined, 0.9].map((sure) =>
    latestStarts(route, { plan, sure }).starts.find((one) => one.isPlanned)!,
  )
  expect(careful!.start < plain!.start).toBe(true)
  expect(careful!.chance.value).toBeGreaterThan(0.87)
  expect(plain!.chance.value).toBeLessThan(0.75)
})

it('costs nothing where a sailing is waited for, and a minute a minute where none is', () => {
  const wait = (plan: Plan) => simulate(route, plan).halts.find(({ gap }) => gap === 0)!.sailing!.margin!
  const plan = sailing()
  expect(wait(plan)).toBeGreaterThan(300)
  expect(latestStarts(route, { plan, sure: undefined }).fiveLater).toBeCloseTo(0, 6)
  const flat = courseRoute({ length: 12_000 })
  const control = {
    id: 'control-1',
    name: 'Gate',
    distance: 9000,
    opens: null,
    closes: { by: 'clock' as const, day: 0, time: '07:30' },
  }
  const gated = plainPlan((plan) => {
    plan.start = '2027-06-19T06:00'
    plan.controls = [control]
  })
  const { starts, fiveLater } = latestStarts(flat, { plan: gated, sure: undefined })
  expect(fiveLater).toBeCloseTo(300, 6)
  const station = flat.stations.distance.indexOf(9000)
  const takes = simulate(flat, gated).columns.time[station]!
  const minutes = Math.floor((90 * 60 - takes) / 60)
  expect(starts.map(({ kind, start }) => [kind, start])).toEqual([
    [
      'control',
      `2027-06-19T${String(6 + Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`,
    ],
  ])
})
