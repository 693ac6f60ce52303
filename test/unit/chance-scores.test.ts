import { describe, expect, it } from 'vitest'
import { normalQuantile } from '../../src/model/chance/normal'
import { near, within } from '../asserts'
import { crpsOf, crpsOfNormal, normalBelow, placeAmong, wilson } from '../chance/scores'
import { figures, judgedDays } from '../chance/truth'

describe('scores of forecasts', () => {
  it('know the normal law: CRPS of its closed form, Gneiting and Raftery 2007, eq. 5', () => {
    const count = 20_000
    const values = Float64Array.from({ length: count }, (_, k) => 100 + 15 * normalQuantile((k + 0.5) / count))
    for (const came of [100, 112, 60]) within(crpsOf(values, came), crpsOfNormal(100, 15, came), 0.001)
    // (√2 − 1)/√π of the deviation where the middle comes: the same equation at z = 0.
    within(crpsOfNormal(100, 15, 100), (15 * (Math.SQRT2 - 1)) / Math.sqrt(Math.PI), 1e-6)
    near(normalBelow(1.2815515655), 0.9, 2e-7)
    expect(crpsOf([7], 4)).toBe(3)
  })

  it('are least, in the mean, for the law that days come by', () => {
    const days = Array.from({ length: 999 }, (_, k) => normalQuantile((k + 0.5) / 999))
    const mean = (middle: number, deviation: number) =>
      days.reduce((sum, came) => sum + crpsOfNormal(middle, deviation, came), 0) / days.length
    for (const [middle, deviation] of [
      [0, 0.6],
      [0, 1.6],
      [0.3, 1],
    ] as const)
      expect(mean(middle, deviation)).toBeGreaterThan(mean(0, 1))
  })

  it('tell where what came lies, and how far a share of few is known: Newcombe 1998, Stat. Med. 17:857-872, table I, 81 of 263', () => {
    expect(placeAmong([1, 2, 3, 4], 2.5)).toBe(0.5)
    const [low, high] = wilson(81, 263)
    near(low, 0.2553, 5e-5)
    near(high, 0.3662, 5e-5)
  })
})

/*
 * A small part of `npx tsx test/chance/coverage.ts`, by fewer days: of 160 the bounds are three standard errors.
 */
it('of days drawn and ridden apart from the model, eight of ten lie in the bands of 80 %', { timeout: 300_000 }, () => {
  const judged = [1, 2, 3, 4, 5, 6, 7, 8].flatMap((seed) => judgedDays(seed, 20, 256))
  for (const figure of figures) {
    const places = judged.map(({ place }) => place[figure]!)
    const held = places.filter((place) => place > 0.1 && place < 0.9).length / places.length
    expect(held, figure).toBeGreaterThan(0.705)
    expect(held, figure).toBeLessThan(0.895)
    near(places.reduce((sum, place) => sum + place, 0) / places.length, 0.5, 0.07, figure)
  }
})
