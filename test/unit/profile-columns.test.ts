import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { addStop, changeStop } from '../../src/model/plan/edit'
import { defaultPlan } from '../../src/model/plan/defaults'
import { kilometresPerHour } from '../../src/model/units'
import { columnClasses, columnsOf } from '../../src/view/profile/columns'
import { chargeLine, elevationLine, speedLine } from '../../src/view/profile/lines'
import { restClass } from '../../src/view/ramp'
import { wordsIn } from '../../src/view/words/words'
import { near, within } from '../asserts'
import { courseRoute } from '../routes'

const { names } = wordsIn('metric')

describe('columns of the profile', () => {
  it('shares out every step once where stations are denser than pixels', () => {
    const route = courseRoute({ length: 10_000, crossings: [4_000] })
    const { count, from, before } = columnsOf(route, 100)
    expect(count).toBe(100)
    expect(from[0]).toBe(0)
    expect(before[99]).toBe(route.stations.distance.length - 1)
    for (let c = 1; c < count; c++) expect(from[c]).toBe(before[c - 1])
  })

  it('gives each column the step it lies in where pixels are denser than stations', () => {
    const route = courseRoute({ length: 100, spacing: 50 })
    const { from, before } = columnsOf(route, 10)
    expect([...from]).toEqual([0, 0, 0, 0, 0, 1, 1, 1, 1, 1])
    from.forEach((step, c) => expect(before[c]).toBe(step + 1))
  })

  it('never has more columns than a frame can draw, nor fewer than one', () => {
    const route = courseRoute({ length: 1000 })
    expect(columnsOf(route, 4000).count).toBe(1200)
    expect(columnsOf(route, 0).count).toBe(1)
  })

  it('keeps a peak and a trough narrower than a column at their full height', () => {
    const peaked = (d: number) => (Math.abs(d - 5_150) < 15 ? 300 : Math.abs(d - 7_250) < 15 ? -40 : 100)
    const { elevation } = columnsOf(courseRoute({ length: 10_000, elevation: peaked }), 50)
    expect(elevation[25]).toBe(300)
    expect(elevation[36]).toBe(-40)
    expect(elevation.filter((height) => height === 100)).toHaveLength(48)
  })

  it('follows a slope at the columns’ middles', () => {
    const { elevation } = columnsOf(courseRoute({ length: 10_000, elevation: (d) => d / 20 }), 100)
    elevation.forEach((height, c) => near(height, (c + 0.5) * 5, 1e-3, `elevation of column ${c}`))
  })

  it('takes the class most steps of a column have, rest included', () => {
    const columns = columnsOf(courseRoute({ length: 80 }), 2)
    expect([...columnClasses(columns, Uint8Array.of(3, 1, 1, 0, restClass, 2, restClass, restClass, 0))]).toEqual([
      1,
      restClass,
    ])
    expect([...columnClasses(columns, Uint8Array.of(0, 0, 6, 6, 6, 6, 5, 5, 0))][0]).toBe(0)
  })
})

describe('lines of the profile', () => {
  const length = 40_000
  const route = courseRoute({ length, elevation: (d) => 100 + 60 * Math.sin(d / 2500), crossings: [25_000] })
  const pinned = addStop(defaultPlan(names), 20_004, names.stop)
  const plan = changeStop(pinned.plan, pinned.id ?? '', { goal: 'duration', duration: 1800 })
  const outcome = simulate(route, plan)
  const columns = columnsOf(route, 400)

  it('draws elevation from end to end', () => {
    const line = elevationLine(columns)
    expect(line).toHaveLength(402)
    expect(line[0]!.x).toBe(0)
    expect(line.at(-1)!.x).toBe(length)
    line.slice(1, -1).forEach(({ x, y }) => near(y, 100 + 60 * Math.sin(x / 2500), 0.5, `elevation at ${x}`))
  })

  it('draws the charge of the outcome, with the stop’s charge upright', () => {
    const line = chargeLine(columns, outcome)
    const stop = outcome.halts.find(({ kind }) => kind === 'stop')!
    expect(stop.leftAfter).toBeGreaterThan(stop.leftBefore)
    const there = line.filter(({ x }) => x === stop.distance)
    expect(there.slice(0, 2)).toEqual([
      { x: 20_000, y: stop.leftBefore / outcome.usable },
      { x: 20_000, y: stop.leftAfter / outcome.usable },
    ])
    near(line[0]!.y, outcome.leftAtStart / outcome.usable, 1e-12, 'at the start')
    near(line.at(-1)!.y, outcome.columns.left.at(-1)! / outcome.usable, 1e-12, 'at the finish')
    line.forEach(({ x, y }, i) => {
      if (i === 0) return
      expect(x).toBeGreaterThanOrEqual(line[i - 1]!.x)
      if (x > line[i - 1]!.x) expect(y).toBeLessThanOrEqual(line[i - 1]!.y)
    })
  })

  it('ends with what is charged at a stop at the finish', () => {
    const { plan } = addStop(defaultPlan(names), length, names.stop)
    const there = simulate(route, plan)
    const line = chargeLine(columns, there)
    const halt = there.halts.at(-1)!
    expect(halt.leftAfter).toBeGreaterThan(halt.leftBefore)
    near(line.at(-1)!.y, halt.leftAfter / there.usable, 1e-12, 'when leaving')
    near(line.at(-2)!.y, halt.leftAfter / there.usable, 1e-12, 'after the charge')
    near(line.at(-3)!.y, halt.leftBefore / there.usable, 1e-12, 'on arrival')
  })

  it('draws speed in motion: halts and crossings take no part, and its mean is that of the ride', () => {
    const line = speedLine(columns, outcome)
    expect(line).toHaveLength(401)
    const time = line.slice(0, -1).reduce((sum, { y }) => sum + length / 400 / y, 0)
    within(time, outcome.columns.ridingTime.at(-1)!, 0.03, 'riding time by the line')
    line.forEach(({ y }) => {
      expect(y).toBeGreaterThan(4 * kilometresPerHour)
      expect(y).toBeLessThanOrEqual(plan.bike.topSpeed)
    })
  })
})
