import type { KitItem, provisions } from './day-schema'

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

/** How many of each the day asks for at one time, or the list holds. */
export type Provisions = Record<(typeof provisions)[number], number>

/** What of the day's food and water comes along. */
export function provisionsIn(items: readonly KitItem[]): Provisions {
  const held = { bars: 0, gels: 0, bottles: 0 }
  for (const { covers, count } of items.filter(comesAlong)) if (covers !== undefined) held[covers] += count
  return held
}

/** The list with as many of each as the day asks for: of several things that cover the same, the first that comes along makes up for the others. */
export const withProvisions = (items: readonly KitItem[], need: Provisions): KitItem[] =>
  items.map((item) => {
    const { covers } = item
    if (covers === undefined || items.find((one) => one.covers === covers && comesAlong(one)) !== item) return item
    const others = provisionsIn(items)[covers] - item.count
    return { ...item, count: Math.max(0, need[covers] - others) }
  })

/** The list with one item replaced by another in its row, under the same id. */
export const replaceItem = (items: readonly KitItem[], id: string, by: Omit<KitItem, 'id'>): KitItem[] =>
  items.map((item) => (item.id === id ? { ...by, id } : item))
