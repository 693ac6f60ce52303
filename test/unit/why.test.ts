import { describe, expect, it } from 'vitest'
import { simulate } from '../../src/model/forecast/simulate'
import { totalMass } from '../../src/model/forecast/mass'
import { defaultPlan, defaultStop } from '../../src/model/plan/defaults'
import { timesOf } from '../../src/model/readings/facts'
import { headings } from '../../src/view/docs/places'
import { formatIn } from '../../src/view/format'
import { reasonOf } from '../../src/view/reasons/reason'
import type { Figure } from '../../src/view/reasons/why.svelte'
import { whyWordsIn } from '../../src/view/words/why'
import { courseRoute, pieces } from '../routes'

const plan = {
  ...defaultPlan(),
  goal: 8 * 3600,
  ridingGoal: 7 * 3600,
  stops: [defaultStop('s', 'Mill', 8000, 'source-1')],
}
const outcome = simulate(courseRoute({ ...pieces([5000, 0], [6000, 0.04], [9000, -0.01]), crossings: [12_000] }), plan)
const format = formatIn('metric')
const figures = Object.keys(whyWordsIn('metric').figures) as Figure[]

describe('why a figure is what it is', () => {
  it.each(figures)('%s tells formula, values, source and where it is worked out', (figure) => {
    for (const units of ['metric', 'imperial'] as const) {
      const { title, formula, values, result, source, heading } = reasonOf(figure, outcome, units)
      for (const text of [title, formula, source, result, ...values.flat()]) {
        expect(text).not.toBe('')
        expect(text).not.toMatch(/NaN|undefined|Infinity|\[object/)
      }
      expect(values.length).toBeGreaterThan(0)
      expect(new Set(values.map(([name]) => name)).size).toBe(values.length)
      expect(headings[heading]).toContain('.html')
    }
  })

  it('adds up: the day of its parts, the mass of its parts', () => {
    const times = timesOf(outcome)
    const { values, result } = reasonOf('elapsed', outcome, 'metric')
    expect(values.map(([, value]) => value)).toEqual(
      [times.riding, times.smallHalts, times.stopped, times.crossing].map((time) => format.duration(time)),
    )
    expect(result).toBe(format.duration(times.elapsed))
    const mass = reasonOf('mass', outcome, 'metric')
    const sum = mass.values.reduce((sum, [, value]) => sum + parseFloat(value), 0)
    expect(Math.abs(sum - totalMass(plan))).toBeLessThan(0.31)
    expect(reasonOf('stopped', outcome, 'metric').values).toEqual([['Mill, km 8.0', format.duration(45 * 60)]])
  })
})
