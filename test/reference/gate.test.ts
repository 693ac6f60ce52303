import { describe, expect, it } from 'vitest'
import { measure } from './check'
import { topics } from './measure'

const every = Object.entries(topics).flatMap(([topic, checks]) => checks.map((check) => ({ topic, ...check })))

describe.each(Object.entries(topics))('%s', (topic, checks) => {
  it.each(checks.map((check) => [check.quantity, check] as const))('%s', (_, check) => {
    const { holds, figure, expected, tolerance, unit } = measure(topic, check)
    expect(holds, `${figure} should be ${expected} within ${tolerance} ${unit}`).toBe(true)
  })
})

describe('the gate itself', () => {
  it('has checks of every topic and of every basis', () => {
    for (const [topic, checks] of Object.entries(topics)) expect(checks.length, topic).toBeGreaterThan(2)
    for (const basis of ['published', 'computed from published', 'common practice, no source', 'from memory'])
      expect(every.filter((row) => row.basis === basis).length, basis).toBeGreaterThan(1)
  })

  it('knows each check by its own name, with a source', () => {
    const names = every.map(({ topic, quantity }) => `${topic}: ${quantity}`)
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([])
    expect(every.filter(({ source }) => source.trim().length < 3)).toEqual([])
  })

  it('allows no more than a quarter of the figure unless it says why, and little for a distance that must vanish', () => {
    const wide = every.filter(({ tolerance, expected, loose }) => {
      const most = expected === 0 ? 0.1 : 0.25 * Math.abs(expected)
      return loose === undefined && !(tolerance > 0 && tolerance < most)
    })
    expect(wide.map(({ quantity }) => quantity)).toEqual([])
  })

  it('turns red for a figure that is off, and for one that is no number', () => {
    const check = { ...every[0]!, ours: () => every[0]!.expected + 1.01 * every[0]!.tolerance }
    expect(measure('Distances', check).holds).toBe(false)
    expect(measure('Distances', { ...check, ours: () => NaN }).holds).toBe(false)
    expect(measure('Distances', { ...check, ours: () => every[0]!.expected }).holds).toBe(true)
  })
})
