import { describe, expect, it } from 'vitest'
import { closer, type Tried } from '../../src/model/decide/closer'
import { StopSearch, type StopAt, type StopPlace } from '../../src/model/decide/stop-search'
import { defaultCarried, defaultPlan } from '../../src/model/plan/defaults'
import { courseRoute } from '../routes'

const length = 9000
/** A climb from km 3 to km 5.5, else flat. */
const road = courseRoute({
  length,
  elevation: (d) => 300 + 150 * Math.min(1, Math.max(0, (d - 3000) / 2500)),
})
const plan = defaultPlan()
plan.rider.power = 70
plan.battery.packs = [{ ...plan.battery.packs[0]!, capacityAh: 2.2, charge: 0.45, chargeCurrent: 20 }]
const carried = defaultCarried('source-2', 'Carried')
plan.sources = [carried]

const spot = (distance: number): StopPlace => ({ name: '', distance, source: carried.id, stop: undefined })
const stopAt = (distance: number): StopAt => ({ place: spot(distance), duration: 600 })
const passes = 3
const grid = 100

/** How soon the day ends with one stop there, over a table in which a stretch ends there. */
function finishWith(distance: number): number {
  return new StopSearch(road, plan, [spot(distance)]).finish([stopAt(distance)], passes)
}

describe('a stop that could be anywhere', () => {
  const far = 8600
  const search = new StopSearch(road, plan, [spot(far)])
  const tried: Tried = { stops: [stopAt(far)], finish: search.finish([stopAt(far)], passes) }
  const everywhere = Array.from({ length: length / grid - 1 }, (_, k) => finishWith(grid * (k + 1)))
  const best = Math.min(...everywhere)

  it('moves to within seconds of the best of all hundreds of metres, tried one by one', () => {
    const moved = closer(search, road, plan, tried, () => true, 3000)
    const { distance } = moved.stops[0]!.place
    expect(tried.finish - best).toBeGreaterThan(240)
    expect(finishWith(distance)).toBeLessThan(best + 2)
    expect(Math.abs(moved.finish - finishWith(distance))).toBeLessThan(10)
  })

  it('moves between the ends of stretches too, which are farther apart on a longer way', () => {
    const long = courseRoute({
      length: 4 * length,
      elevation: (d) => 300 + 600 * Math.min(1, Math.max(0, (d - 12_000) / 10_000)),
    })
    const day = { ...plan, battery: { ...plan.battery, packs: [{ ...plan.battery.packs[0]!, capacityAh: 9 }] } }
    const finishAt = (distance: number) =>
      new StopSearch(long, day, [spot(distance)]).finish([stopAt(distance)], passes)
    const wide = new StopSearch(long, day, [])
    const ends = wide.spots(grid)
    const k = ends.findIndex((end) => end > 33_000)
    const [before, at, behind] = ends.slice(k - 1, k + 2)
    expect(at! - before!).toBeGreaterThanOrEqual(2 * grid)
    // So short a first step reaches no other end.
    const from: Tried = { stops: [stopAt(at!)], finish: wide.finish([stopAt(at!)], passes) }
    const { stops, finish } = closer(wide, long, day, from, () => true, grid / 2)
    const { distance } = stops[0]!.place
    const between: number[] = []
    for (let there = before! + grid; there < behind!; there += grid) between.push(finishAt(there))
    expect(finishAt(distance)).toBeLessThan(Math.min(...between) + 2)
    expect(finishAt(at!) - finishAt(distance)).toBeGreaterThan(5)
    expect(from.finish - finish).toBeGreaterThan(5)
  })

  it('stays where something has to be there, and where nothing lasts', () => {
    expect(closer(search, road, plan, tried, () => false, 3000)).toBe(tried)
    const never: Tried = { ...tried, finish: Infinity }
    expect(closer(search, road, plan, never, () => true, 3000)).toBe(never)
  })
})
