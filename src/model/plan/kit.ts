import type { KitItem } from './day-schema'

/** Whether an item is on the road: all but what stays home. */
export const comesAlong = ({ mark }: KitItem): boolean => mark !== 'stays'

/** Mass of all of an item, kg, whether it comes along or not. */
export const massOf = ({ mass, count }: KitItem): number => mass * count

/** Mass of what comes along, kg: by place, and all. */
export function kitTotals(items: readonly KitItem[]): Record<KitItem['place'] | 'all', number> {
  const totals = { bike: 0, rider: 0, spare: 0, all: 0 }
  for (const item of items.filter(comesAlong)) {
    totals[item.place] += massOf(item)
    totals.all += massOf(item)
  }
  return totals
}

/**
 * Mean mass of an item over a ride that goes evenly, kg.
 *
 * @param time of the whole ride, s
 * @param distance of the whole ride, m
 */
export function meanMass(item: KitItem, time: number, distance: number): number {
  const all = massOf(item)
  if (item.use === null) return all
  const used = item.use.rate * (item.use.by === 'time' ? time : distance)
  return used <= all ? all - used / 2 : (all * all) / (2 * used)
}

/** The list with one item replaced by another in its row, under the same id. */
export const replaceItem = (items: readonly KitItem[], id: string, by: Omit<KitItem, 'id'>): KitItem[] =>
  items.map((item) => (item.id === id ? { ...by, id } : item))
