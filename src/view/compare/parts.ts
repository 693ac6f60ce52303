/**
 * Amounts as whole multiples of a unit that sum to their rounded sum: each is rounded down, and those that lost most get one more (largest remainder).
 *
 * @param unit in that of the amounts
 */
export function apportioned(amounts: readonly number[], unit: number): number[] {
  const down = amounts.map((amount) => Math.floor(amount / unit))
  const sum = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0)
  const missing = Math.round(sum(amounts) / unit) - sum(down)
  const lost = amounts.map((amount, i) => ({ i, rest: amount / unit - down[i]! })).sort((a, b) => b.rest - a.rest)
  for (const { i } of lost.slice(0, missing)) down[i]!++
  return down.map((count) => count * unit)
}
