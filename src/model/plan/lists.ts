/** Same object if nothing changes, so that an empty edit is no step of the history. */
export function merged<T extends object>(object: T, change: Partial<T>): T {
  const keys = Object.keys(change) as (keyof T)[]
  return keys.every((key) => object[key] === change[key]) ? object : { ...object, ...change }
}

/** Same list if no item changes. */
export function mapped<T>(list: T[], change: (item: T) => T): T[] {
  const next = list.map(change)
  return next.every((item, i) => item === list[i]) ? list : next
}

export const changedIn = <T extends { id: string }>(list: T[], id: string, change: Partial<T>): T[] =>
  mapped(list, (item) => (item.id === id ? merged(item, change) : item))

/** Same list if it has no such id. */
export function without<T extends { id: string }>(list: T[], id: string): T[] {
  const next = list.filter((item) => item.id !== id)
  return next.length === list.length ? list : next
}

/** A new id `stem-n`, with n above all in use. */
export function freshId(stem: string, list: readonly { id: string }[]): string {
  const numbers = list.map(({ id }) => Number(id.startsWith(`${stem}-`) ? id.slice(stem.length + 1) : 0) || 0)
  return `${stem}-${Math.max(0, ...numbers) + 1}`
}

/** The number at the end of such an id. */
export const numberOf = (id: string): number => Number(id.slice(id.lastIndexOf('-') + 1))
