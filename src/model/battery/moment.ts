import { indexAtOrBelow, interpolate } from '../columns'
import type { TransferColumns } from './transfer-run'

export type MomentOfRun = { [K in Exclude<keyof TransferColumns, 'limit'>]: number } & {
  limit: TransferColumns['limit'][number]
}

/** A transfer at a time from its start, s; held at its ends. */
export function momentAt(columns: TransferColumns, time: number): MomentOfRun {
  const { limit, ...numbers } = columns
  const read = Object.entries(numbers).map(([name, column]) => [name, interpolate(columns.time, column, time)])
  const row = Math.max(0, indexAtOrBelow(columns.time, time))
  return { ...(Object.fromEntries(read) as Omit<MomentOfRun, 'limit'>), limit: limit[row]! }
}
