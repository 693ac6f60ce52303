import { expect } from 'vitest'

/** |actual - expected| is at most tolerance, in the unit of both. */
export function near(actual: number, expected: number, tolerance: number, what = 'value'): void {
  expect(Number.isFinite(actual), `${what} is finite, was ${actual}`).toBe(true)
  expect(
    Math.abs(actual - expected),
    `${what}: ${actual} should be ${expected} within ${tolerance}`,
  ).toBeLessThanOrEqual(tolerance)
}

/** The relative difference is at most `share` (0.01 is one percent). */
export function within(actual: number, expected: number, share: number, what = 'value'): void {
  near(actual, expected, Math.abs(expected) * share, what)
}
