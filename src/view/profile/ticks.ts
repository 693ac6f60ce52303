/**
 * Round numbers for an axis: 1, 2 or 5 times a power of ten apart.
 *
 * @param most how many there may be, at least 1
 * @returns ascending, all within the two bounds
 */
export function roundTicks(from: number, to: number, most: number): number[] {
  if (!(to > from)) return [from]
  const least = (to - from) / most
  const power = 10 ** Math.floor(Math.log10(least))
  const step = power * ([1, 2, 5, 10].find((factor) => factor * power >= least) ?? 10)
  const first = Math.ceil(from / step)
  const count = Math.floor(to / step) - first + 1
  return Array.from({ length: count }, (_, i) => (first + i) * step)
}
