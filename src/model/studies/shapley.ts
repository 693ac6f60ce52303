/**
 * How players part what they reach together: each has the mean of what he adds over all orders in which they may join, worked out exactly from what
 * each set of them reaches (Shapley 1953, "A value for n-person games", Contributions to the Theory of Games II).
 *
 * @param worth what each set of players reaches, in any unit; player i is in the set whose index has bit i, so 2 to the power of their number entries
 * @returns a share for each player, in the same unit; together what all of them reach beyond what nobody does
 * @throws RangeError where the number of sets is no power of two
 */
export function shapley(worth: ArrayLike<number>): number[] {
  const players = Math.log2(worth.length)
  if (!Number.isInteger(players)) throw new RangeError('There is a set for each choice of players.')
  const weights = Array.from({ length: players }, (_, size) => 1 / (players * binomial(players - 1, size)))
  return Array.from({ length: players }, (_, player) => {
    const bit = 1 << player
    let share = 0
    for (let set = 0; set < worth.length; set++)
      if ((set & bit) === 0) share += weights[bits(set)]! * (worth[set | bit]! - worth[set]!)
    return share
  })
}

/** How many sets of a size there are: a player joins one of them with the same chance as any other of that size. */
function binomial(of: number, size: number): number {
  let count = 1
  for (let k = 1; k <= size; k++) count = (count * (of - size + k)) / k
  return count
}

function bits(set: number): number {
  let count = 0
  for (let left = set; left > 0; left &= left - 1) count++
  return count
}
