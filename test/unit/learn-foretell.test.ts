import { describe, expect, it } from 'vitest'
import { makeRandom, normal } from '../../sample-routes/random'
import { tallyOf } from '../../src/model/forecast/tally'
import { evidenceRemembered, readingDeviationOf } from '../../src/model/learn/evidence'
import { foretell } from '../../src/model/learn/foretell'
import { noiseOf } from '../../src/model/learn/noise'
import type { Posterior } from '../../src/model/learn/posterior'
import { planKnowing, unknowns, type Known } from '../../src/model/learn/unknowns'
import { setFields } from '../../src/model/plan/edit'
import { near, within } from '../asserts'
import { statedPlan } from '../learning/study'
import { courseRoute } from '../routes'

/** Ten kilometres north and the same road back. */
const thereAndBack = courseRoute({ length: 20_000, heading: (d) => (d < 10_000 ? 0 : Math.PI) })
const calm = setFields(statedPlan(), 'weather', { windSpeed: 0 })

/** All of rider and bike known, nothing of another day. */
const certain: Posterior = {
  evidence: [],
  z: unknowns.map(() => 0),
  covariance: unknowns.map((_, i) => unknowns.map((_, j) => (i === j ? 1e-8 : 0))),
  noise: [{ deviation: 1e-9, correlation: 0, widening: 1 }],
  residuals: [[]],
  leftAtFinish: [[]],
  passes: 0,
  settled: true,
}

describe('what is foretold of another day', () => {
  it('is slower by a wind that may blow from anywhere, as 2,000 days drawn by chance are', () => {
    const asked = evidenceRemembered(thereAndBack, calm, 1, { readings: [] })
    const { riding, ridingDeviation } = foretell(certain, asked, undefined, 0, 2000)
    const random = makeRandom(1, 'days')
    const nothing = Object.fromEntries(unknowns.map(({ key }) => [key, 0])) as unknown as Known
    const time = (known: Known) => Math.log(tallyOf(thereAndBack, planKnowing(asked.plan, known)).ridingTime)
    const days = Array.from({ length: 2000 }, () =>
      time({ ...nothing, form: normal(random), windEast: normal(random), windNorth: normal(random) }),
    )
    const mean = days.reduce((sum, one) => sum + one, 0) / days.length
    const deviation = Math.sqrt(days.reduce((sum, one) => sum + (one - mean) ** 2, 0) / days.length)
    const bend = mean - time(nothing)
    expect(bend).toBeGreaterThan(0.005)
    near(Math.log(riding.middle) - time(nothing), bend, 0.15 * bend)
    within(ridingDeviation, deviation, 0.15)
  })
})

describe('the noise of a ride', () => {
  it('is as large as before however many figures were fitted, which take their share of it', () => {
    const [count, fitted] = [400, 40]
    const random = makeRandom(2, 'noise')
    const all = Array.from({ length: count }, () => 0.06 * normal(random))
    const evidence = {
      followsOn: all.map(() => false),
      deviation: 0.06,
      time: all,
    } as unknown as Posterior['evidence'][0]
    const left = all.map((value) => value * Math.sqrt((count - fitted) / count))
    within(noiseOf(evidence, left, fitted).deviation, noiseOf(evidence, all, 0).deviation, 0.003)
    expect(noiseOf(evidence, left, 0).deviation).toBeLessThan(0.97 * noiseOf(evidence, all, 0).deviation)
  })
})

describe('a reading of the charge', () => {
  it('is of the pack in use: of all in four packs a quarter as much is uncertain, and a little for those that are full', () => {
    near(readingDeviationOf(1), 0.015, 1e-12)
    // √(1.5² + 3 · 0.5²) / 4 %
    near(readingDeviationOf(4), Math.sqrt(3) / 400, 1e-12)
  })
})
