import { describe, expect, it } from 'vitest'
import { crossingsFor } from '../../src/model/plan/crossings'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { addControl, changeCrossing, setWeatherTable } from '../../src/model/plan/edit-day'
import { beginWeatherTable } from '../../src/model/plan/edit-weather'
import { addStretch } from '../../src/model/plan/edit-stretches'
import { keepPlaces } from '../../src/model/plan/keep-places'
import type { Plan } from '../../src/model/plan/schema'
import type { Route } from '../../src/model/route/route'
import type { Travelled } from '../../src/model/route/travelled'
import { near } from '../asserts'
import { courseRoute } from '../routes'

/** A ride of a track of 30 km from which some parts, m of the track, are travelled. */
function ridden(...parts: [from: number, to: number][]): { route: Route; travelled: Travelled[] } {
  let left = 0
  const travelled = parts.map(([from, to]): Travelled => {
    const distance = from - left
    left += to - from
    return { from, to, distance, marked: false, place: from === 0 ? 'start' : to === 30_000 ? 'end' : 'between' }
  })
  const crossings = travelled.filter(({ place }) => place === 'between').map(({ distance }) => distance)
  return { route: courseRoute({ length: 30_000 - left, crossings }), travelled }
}
const stop = (distance: number) => defaultStop(`stop-${distance}`, 'Stop', distance, null)
const timed = (duration: number) => ({
  timetable: { kind: 'duration' as const, duration },
  source: null,
  fillFirst: 'most' as const,
})
const planned = (change: Partial<Plan>): Plan => ({ ...defaultPlan(), ...change })

describe('a plan kept when other parts of its track are ridden', () => {
  it('is the same plan where nothing changes, whatever rounding there is in between', () => {
    const odd = ridden([1000.1, 1900.7], [4000.3, 7300.9], [20_000.7, 20_100.1])
    let plan = planned({
      stops: [0.1, 1234.7, 5000.3, 12_345.67, 20_000.03].map(stop),
      crossings: [timed(600), timed(700), timed(800)],
    })
    plan = addControl(plan, 9876.54, () => 'Gate')
    plan = addStretch(plan, 4444.4, 9999.9).plan
    plan = setWeatherTable(plan, beginWeatherTable(plan, 3600, 'Start').weather.table)
    const same = keepPlaces(plan, odd, odd)
    expect(same).toEqual(plan)
    expect(same.stops).toBe(plan.stops)
    // What lies before a change stays to the last bit, and what lies behind it moves by it, be it half a metre.
    const after = ridden([1000.1, 1900.7], [4000.3, 7300.9], [20_000.7, 20_100.6])
    const kept = keepPlaces(plan, odd, after)
    expect(kept.stops.slice(0, 4)).toEqual(plan.stops.slice(0, 4))
    near(kept.stops[4]!.distance, 20_000.03 - 0.5, 1e-6)
    expect(kept.crossings).toEqual(plan.crossings)
    expect(kept.stretches).toBe(plan.stretches)
    expect(kept.controls).toBe(plan.controls)
    expect(kept.weather).toBe(plan.weather)
  })

  it('keeps a crossing whose ends stay within a metre, and not one that has become another', () => {
    const before = ridden([5000, 6000], [15_000, 16_000])
    const plan = planned({ crossings: [timed(611), timed(722)] })
    const assumed = crossingsFor(before.route, planned({}))[0]
    const kept = (from: number, to: number) => keepPlaces(plan, before, ridden([from, to], [15_000, 16_000])).crossings
    expect(kept(5000.9, 6000)).toEqual(plan.crossings)
    expect(kept(5000, 6000.9)).toEqual(plan.crossings)
    expect(kept(5001.1, 6000)).toEqual([assumed, timed(722)])
    expect(kept(5000, 5998.9)).toEqual([assumed, timed(722)])
    expect(keepPlaces(plan, before, ridden([15_000, 16_000])).crossings).toEqual([timed(722)])
    expect(keepPlaces(plan, before, ridden([5000, 6000])).crossings).toEqual([timed(611)])
    expect(keepPlaces(plan, before, ridden()).crossings).toEqual([])
    // What is left out at an end of the track is no crossing.
    expect(keepPlaces(plan, before, ridden([0, 1000], [15_000, 16_000], [29_000, 30_000])).crossings).toEqual([
      timed(722),
    ])
  })

  it('drops a stretch of which no metre is left, and keeps one of a little more', () => {
    const whole = ridden()
    const { plan, id } = addStretch(planned({}), 8000, 12_000)
    const left = (from: number, to: number) =>
      keepPlaces(plan, whole, ridden([from, to])).stretches.map(({ id, start, end }) => [id, start, end])
    expect(left(7000, 13_000)).toEqual([])
    expect(left(8000.9, 13_000)).toEqual([])
    expect(left(8001.5, 13_000)).toEqual([[id, 8000, 8001.5]])
    expect(left(9000, 10_000)).toEqual([[id, 8000, 11_000]])
  })
})

describe('the time a crossing is taken to last', () => {
  const over = (length: number, recordedTime: number | undefined) => {
    const { route } = ridden([5000, 6000])
    const [crossing] = crossingsFor(
      { ...route, crossings: [{ ...route.crossings[0]!, length, recordedTime }] },
      planned({}),
    )
    expect(crossing).toMatchObject({ source: null, fillFirst: 'most', timetable: { kind: 'duration' } })
    return (crossing!.timetable as { duration: number }).duration
  }

  it('is that of the recording to the minute, and ten minutes to be there before', () => {
    expect(over(9000, 1800)).toBe(600 + 1800)
    expect(over(9000, 1829)).toBe(600 + 1800)
    expect(over(9000, 1831)).toBe(600 + 1860)
    expect(over(9000, 20)).toBe(600 + 60)
  })

  it('is 20 minutes and 6 m/s where the recording is slower than a metre a second, or has no times', () => {
    expect(over(9000, 9000)).toBe(600 + 9000)
    expect(over(9000, 9001)).toBe(1200 + 1500)
    expect(over(9000, undefined)).toBe(1200 + 1500)
    expect(over(10_000, undefined)).toBe(1200 + 1667)
  })

  it('is no more than two days', () => {
    expect(over(1e6, 48 * 3600)).toBe(48 * 3600)
    expect(over(1e6, 40 * 3600)).toBe(40 * 3600 + 600)
  })

  it('is the plan’s own where it says one; a change of one leaves the others, and none is none', () => {
    const { route } = ridden([5000, 6000], [15_000, 16_000])
    const plan = planned({ crossings: [timed(611)] })
    const all = crossingsFor(route, plan)
    expect(all[0]).toBe(plan.crossings[0])
    const changed = changeCrossing(plan, 1, { source: 'source-1' }, all)
    expect(changed.crossings).toEqual([plan.crossings[0], { ...all[1], source: 'source-1' }])
    expect(changeCrossing(plan, 1, { source: null }, all)).toBe(plan)
  })
})
