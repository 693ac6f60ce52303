import { describe, expect, it } from 'vitest'
import { shapley } from '../../src/model/studies/shapley'
import { near } from '../asserts'

/** What each set of players reaches, by who is in it. */
const game = (players: number, worth: (has: (player: number) => boolean) => number): number[] =>
  Array.from({ length: 1 << players }, (_, set) => worth((player) => ((set >> player) & 1) === 1))

/** By the definition: the mean over all orders of what each adds when he joins. */
function overAllOrders(worth: readonly number[]): number[] {
  const players = Math.log2(worth.length)
  const sums = new Array<number>(players).fill(0)
  let orders = 0
  const join = (set: number, left: number[], added: readonly number[]) => {
    if (left.length === 0) {
      orders++
      added.forEach((value, player) => (sums[player]! += value))
    }
    for (const player of left) {
      const now = set | (1 << player)
      const more = [...added]
      more[player] = worth[now]! - worth[set]!
      join(
        now,
        left.filter((other) => other !== player),
        more,
      )
    }
  }
  join(0, [...Array(players).keys()], [])
  return sums.map((sum) => sum / orders)
}

/** Any numbers, always the same. */
const numbers = (count: number) => Array.from({ length: count }, (_, i) => 1000 * Math.sin(12.9898 * (i + 1) ** 1.3))

describe('shares of what several reach together', () => {
  it('one left and two right gloves are worth 2/3, 1/6 and 1/6 of a pair', () => {
    // The glove game of the textbooks, from memory; by hand: of six orders the left glove completes a pair in four.
    const gloves = game(3, (has) => (has(0) && (has(1) || has(2)) ? 1 : 0))
    shapley(gloves).forEach((share, k) => near(share, [2 / 3, 1 / 6, 1 / 6][k]!, 1e-15))
  })

  it('aircraft pay for the runway that each needs', () => {
    // Littlechild and Owen (1973), "A simple expression for the Shapley value in a special case", Management Science 20:370-372: the cost of each piece is
    // shared by all who need it. Runways of 8, 11, 13 and 18 for four aircraft are paid by 2, 3, 4 and 9 (worked example of encyclopedias).
    const costs = [8, 11, 13, 18]
    const airport = game(4, (has) => Math.max(0, ...costs.filter((_, aircraft) => has(aircraft))))
    shapley(airport).forEach((share, k) => near(share, [2, 3, 4, 9][k]!, 1e-14))
    // And six of 40 to 90: 40, 52, 67, 87, 117 and 177 sixths.
    const six = game(6, (has) => Math.max(0, ...[0, 1, 2, 3, 4, 5].filter(has).map((k) => 40 + 10 * k)))
    shapley(six).forEach((share, k) => near(share, [40, 52, 67, 87, 117, 177][k]! / 6, 1e-13))
  })

  it('is the mean over all orders, and sums to the whole, for five players and eight', () => {
    const worth = numbers(32)
    const brute = overAllOrders(worth)
    const shares = shapley(worth)
    shares.forEach((share, k) => near(share, brute[k]!, 1e-10))
    for (const count of [32, 256]) {
      const any = numbers(count)
      near(
        shapley(any).reduce((sum, share) => sum + share, 0),
        any.at(-1)! - any[0]!,
        1e-9,
      )
    }
  })

  it('gives nothing to one who never adds anything, nor to nobody, and refuses what is no set of sets', () => {
    const idle = game(3, (has) => (has(0) ? 5 : 0) + (has(2) ? 2 : 0))
    expect(shapley(idle).map((share) => Math.round(1e12 * share) / 1e12)).toEqual([5, 0, 2])
    expect(shapley([7])).toEqual([])
    expect(() => shapley([1, 2, 3])).toThrow(RangeError)
  })
})
