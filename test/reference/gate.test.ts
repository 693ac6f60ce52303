import { describe, expect, it } from 'vitest'
import { byQuantity, measure, quantities } from './check'
import { topics } from './measure'

const every = Object.entries(topics).flatMap(([topic, checks]) => checks.map((check) => ({ topic, ...check })))
const held = byQuantity(every)

// Measured as it tests, not on loading.
it.each([...held])('%s', (_, samples) => {
  const said = samples
    .map(({ topic, ...check }) => measure(topic, check))
    .filter(({ holds }) => !holds)
    .map(
      ({ sample, figure, expected, tolerance, unit }) =>
        `${sample}: ${figure} should be ${expected} within ${tolerance} ${unit}`,
    )
  expect(said).toEqual([])
})

describe('the gate itself', () => {
  it('has checks of every topic and of every basis', () => {
    for (const [topic, checks] of Object.entries(topics)) expect(checks.length, topic).toBeGreaterThan(2)
    for (const basis of ['published', 'computed from published', 'common practice, no source', 'from memory'])
      expect(every.filter((row) => row.basis === basis).length, basis).toBeGreaterThan(1)
  })

  it('knows each check by its own name, with a source, and a quantity by one unit and basis', () => {
    const names = every.map(({ topic, quantity, sample }) => `${topic}: ${quantity}: ${sample}`)
    const seen = new Set<string>()
    expect(names.filter((name) => seen.has(name) || !seen.add(name))).toEqual([])
    expect(every.filter(({ source }) => source.trim().length < 3)).toEqual([])
    const mixed = [...held].filter(
      ([, samples]) => new Set(samples.map(({ unit, basis }) => `${unit}, ${basis}`)).size > 1,
    )
    expect(mixed.map(([name]) => name)).toEqual([])
  })

  it('allows no more than a quarter of the figure unless it says why, and little for a distance that must vanish', () => {
    const wide = every.filter(({ tolerance, expected, loose }) => {
      const most = expected === 0 ? 0.1 : 0.25 * Math.abs(expected)
      return loose === undefined && !(tolerance > 0 && tolerance < most)
    })
    expect(wide.map(({ quantity, sample }) => `${quantity}: ${sample}`)).toEqual([])
  })

  it('turns red for a figure that is off, and for one that is no number', () => {
    const check = { ...every[0]!, ours: () => every[0]!.expected + 1.01 * every[0]!.tolerance }
    expect(measure('Distances', check).holds).toBe(false)
    expect(measure('Distances', { ...check, ours: () => NaN }).holds).toBe(false)
    expect(measure('Distances', { ...check, ours: () => every[0]!.expected }).holds).toBe(true)
  })

  it('tells mean and greatest difference of the samples: in their unit where they are alike, else as shares', () => {
    const one = (sample: string, expected: number, figure: number, tolerance: number) =>
      measure('Topic', {
        quantity: 'length',
        sample,
        source: 'made up',
        unit: 'm',
        expected,
        ours: () => figure,
        tolerance,
        basis: 'published',
      })
    const [alike] = quantities([one('a', 10, 11, 2), one('b', 20, 17, 2)])
    expect(alike).toMatchObject({ mean: 2, most: -3, unit: 'm', holds: false })
    expect(alike!.closest.sample).toBe('b')
    const [unlike] = quantities([one('a', 10, 11, 2), one('b', 200, 198, 20)])
    expect(unlike).toMatchObject({ unit: '%', holds: true })
    expect(unlike!.mean).toBeCloseTo(5.5, 12)
    expect(unlike!.most).toBeCloseTo(10, 12)
  })
})
