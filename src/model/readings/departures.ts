import type { Outcome } from '../forecast/outcome'

/** When each station is left, s since the start: to ask at all of them. */
export function departuresOf({ columns, halts }: Outcome): (station: number) => number {
  const leaves = new Map(halts.map(({ station, depart }) => [station, depart]))
  return (station) => leaves.get(station) ?? columns.time[station]!
}
