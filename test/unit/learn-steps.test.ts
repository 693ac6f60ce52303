import { describe, expect, it } from 'vitest'
import { packAt, usableEnergy } from '../../src/model/battery/pack'
import { simulate } from '../../src/model/forecast/simulate'
import { levelRoad } from '../../src/model/learn/level-road'
import { indexOf, type Posterior } from '../../src/model/learn/posterior'
import { meanRatio, stepsAfter, stepTested } from '../../src/model/learn/steps'
import { unknowns } from '../../src/model/learn/unknowns'
import { defaultPlan } from '../../src/model/plan/defaults'
import { setFields } from '../../src/model/plan/edit'
import { setStepCount } from '../../src/model/plan/steps'
import { kilometresPerHour } from '../../src/model/units'
import { near, within } from '../asserts'

const plan = defaultPlan()

/** What a rider reads who rides a level road there and back at a ratio, with the wind along it. */
function tested(ratio: number, length: number, power = 55, wind = 1) {
  const { route, begin, turn, end } = levelRoad(length)
  const ridden = setFields(setFields(plan, 'assist', { ratio, climbRatio: ratio }), 'rider', { power, smallHalts: 0 })
  const blown = setFields(ridden, 'weather', { windSpeed: wind, windFromDegrees: 0 })
  const { columns } = simulate(route, blown)
  const one = usableEnergy(packAt(plan.battery.packs[0]!, plan.battery.temperatureCelsius))
  const left = (station: number) => columns.left[station]! / one
  const at = (from: number, to: number) => length / (columns.time[to]! - columns.time[from]!)
  return { length, there: at(begin, turn), back: at(turn, end), used: left(begin) - left(end) }
}

describe('a test of a step on a level road', () => {
  const guess = 0.63

  it.each([0.4, 0.8, 1.3])('finds a ratio of %d within what it says, far surer than a guess', (truth) => {
    const test = tested(truth, 3000)
    const found = stepTested(plan, { ratio: guess, test })
    if (!found.ok) throw new Error(found.fault)
    const { ratio, span } = found.value
    expect(Math.abs(Math.log(ratio / truth))).toBeLessThan(1.5 * Math.log(span))
    expect(span).toBeLessThan(1.6)
  })

  it('is the surer the longer it is', () => {
    const spans = [1000, 3000, 9000].map((length) => {
      const found = stepTested(plan, { ratio: guess, test: tested(0.8, length) })
      return found.ok ? found.value.span : NaN
    })
    expect(spans[1]).toBeLessThan(spans[0]! - 0.05)
    expect(spans[2]).toBeLessThan(spans[1]! - 0.05)
  })

  it('tells nothing where the motor has ended its help, or nothing was used', () => {
    const test = tested(0.8, 2000)
    expect(stepTested(plan, { ratio: guess, test: { ...test, back: 25 * kilometresPerHour } })).toEqual({
      ok: false,
      fault: 'tooFast',
    })
    expect(stepTested(plan, { ratio: guess, test: { ...test, used: 0 } })).toEqual({ ok: false, fault: 'nothingUsed' })
  })
})

describe('shares of a ride at each step', () => {
  const { steps } = setStepCount(plan, 5)
  const learnt = (z: number, left: number): Posterior => ({
    evidence: [],
    z: unknowns.map(({ key }) => (key === 'assist' ? z : 0)),
    covariance: unknowns.map((_, i) => unknowns.map((_, j) => (i === j ? (i === indexOf('assist') ? left : 1) : 0))),
    ...{ noise: [], residuals: [], leftAtFinish: [], passes: 0, settled: true },
  })

  it('make the ratio that the ride is looked at with', () => {
    near(meanRatio(steps, [0, 0.5, 0.5])!, (0.63 + 1) / 2, 1e-12)
    near(meanRatio(steps, [null, 20, 60, 20])!, 0.2 * 0.63 + 0.6 + 0.2 * 1.58, 1e-12)
    expect(meanRatio(steps, [null, 0])).toBeUndefined()
  })

  it('give the one step of a whole ride all that was learnt of assist, and the others nothing', () => {
    const [deviation, z, left] = [Math.log(2) / 1.2816, 0.7, 0.09]
    const after = stepsAfter(steps, [null, 1], learnt(z, left))!
    within(after[1]!.ratio, 0.63 * Math.exp(deviation * z), 1e-9)
    within(Math.log(after[1]!.span), Math.log(2) * Math.sqrt(left), 1e-9)
    for (const k of [0, 2, 3, 4]) expect(after[k]).toEqual({ ratio: steps[k]!.ratio, span: 2 })
  })

  it('move most the step of which least is known, and nothing where the ride told nothing', () => {
    const known = steps.map((step, k) => (k === 1 ? { ...step, span: 1.05 } : step))
    const after = stepsAfter(known, [null, 0.5, 0.5], learnt(0.7, 0.09))!
    expect(Math.abs(Math.log(after[1]!.ratio / 0.63))).toBeLessThan(0.05 * Math.log(after[2]!.ratio))
    expect(after[2]!.span).toBeLessThan(1.7)
    expect(stepsAfter(known, [null, 0.5, 0.5], learnt(0, 1))).toBeUndefined()
  })
})
