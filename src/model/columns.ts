/**
 * Index of the last entry of an ascending column that is not greater than a value.
 *
 * @param column ascending numbers
 * @param value what to look up, in the column's unit
 * @returns an index from 0 to length - 1; 0 where the value lies before the first entry
 */
export function indexAtOrBelow(column: Float64Array, value: number): number {
  let low = 0
  let high = column.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (column[middle]! <= value) low = middle
    else high = middle - 1
  }
  return low
}

/**
 * Value of a column at a place given by another, ascending column, linear between entries and held at both ends.
 *
 * @param at ascending places
 * @param column values, one per place
 * @param place where to read, in the unit of `at`
 */
export function interpolate(at: Float64Array, column: ArrayLike<number>, place: number): number {
  const i = indexAtOrBelow(at, place)
  const from = at[i]!
  const to = at[i + 1]
  if (to === undefined || place <= from || to === from) return column[i]!
  const share = (place - from) / (to - from)
  return column[i]! * (1 - share) + column[i + 1]! * share
}

/**
 * The value that would stand at a place if a column were sorted, which takes the time of a few passes (Hoare 1961, "Find"). The column is put in another
 * order: none before the place is greater, none behind it less.
 *
 * @param column numbers, none of them NaN
 * @param k place, 0 to length - 1
 * @param from first entry that may be moved; none before it is greater than any behind it
 * @returns the value; undefined beyond the column
 */
export function placed(column: Float64Array, k: number, from = 0): number | undefined {
  let low = from
  let high = column.length - 1
  while (low < high) {
    const pivot = column[k]!
    let i = low
    let j = high
    while (i <= j) {
      while (column[i]! < pivot) i++
      while (column[j]! > pivot) j--
      if (i <= j) {
        const value = column[i]!
        column[i++] = column[j]!
        column[j--] = value
      }
    }
    if (j < k) low = i
    if (k < i) high = j
  }
  return column[k]
}
