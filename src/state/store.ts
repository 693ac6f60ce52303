import { openDB, type IDBPDatabase } from 'idb'
import type { RouteChoice } from '../model/route/reading'
import type { Stretch } from '../model/route/travelled'

/** A route file as it was opened; readings of it with other choices share it. */
export interface RouteFile {
  bytes: Uint8Array
  fileName: string
}

export interface KeptFile extends RouteFile {
  choice: RouteChoice
}

/** What was kept last; a half that is missing or not as it was kept is undefined. */
export interface Kept {
  file: KeptFile | undefined
  /** The plan as text, to be validated like any other. */
  plan: string | undefined
}

/** A half of what was kept that could not be used, just as it was. */
export interface SetAside {
  half: 'file' | 'plan'
  value: unknown
  /** Unix time, ms. */
  at: number
}

const table = 'desk'
const halves = ['file', 'plan'] as const
const asidePrefix = 'aside '

/** Plan and route file in the browser, IndexedDB, always both of one moment. A browser that forbids it keeps nothing, and that is told. */
export class Store {
  private database: Promise<IDBPDatabase | undefined>
  private opened: IDBPDatabase | undefined

  constructor(name = 'wattfare') {
    this.database = open(name).then(
      (database) => (this.opened = database),
      () => undefined,
    )
  }

  /** @returns undefined where nothing was kept; both halves undefined where it can't be read */
  async restore(): Promise<Kept | undefined> {
    const database = await this.database
    if (database === undefined) return undefined
    try {
      const { store } = database.transaction(table)
      const [file, plan] = (await Promise.all(halves.map((half) => store.get(half)))) as [unknown, unknown]
      if (file === undefined && plan === undefined) return undefined
      return { file: isKeptFile(file) ? file : undefined, plan: typeof plan === 'string' ? plan : undefined }
    } catch {
      return { file: undefined, plan: undefined }
    }
  }

  /**
   * Keeps plan and file in one transaction, on the disk when it is done where the browser grants that.
   *
   * @param file undefined where it is the one that is kept
   * @returns whether it is kept: false where storage is forbidden or full
   */
  async keep(plan: string, file: KeptFile | undefined): Promise<boolean> {
    // Where it is open nothing is waited for, so that all is on its way before a page that is left is gone.
    const database = this.opened ?? (await this.database)
    if (database === undefined) return false
    try {
      const transaction = database.transaction(table, 'readwrite', { durability: 'strict' })
      const { store, done } = transaction
      // Said here already, since a put may throw before anyone waits for it.
      done.catch(() => undefined)
      const puts = [...(file === undefined ? [] : [store.put(file, 'file')]), store.put(plan, 'plan')]
      transaction.commit()
      await Promise.all([...puts, done])
      return true
    } catch {
      return false
    }
  }

  /**
   * Puts what was kept aside as it is, so that nothing overwrites it.
   *
   * @returns whether it is safe there
   */
  async setAside(at: number): Promise<boolean> {
    const database = await this.database
    if (database === undefined) return false
    try {
      const transaction = database.transaction(table, 'readwrite', { durability: 'strict' })
      const { store } = transaction
      for (const half of halves) {
        const value: unknown = await store.get(half)
        if (value === undefined) continue
        await store.put({ half, value, at } satisfies SetAside, `${asidePrefix}${at} ${half}`)
        await store.delete(half)
      }
      await transaction.done
      return true
    } catch {
      return false
    }
  }

  /** All that was set aside, the latest first. */
  async aside(): Promise<SetAside[]> {
    const database = await this.database
    if (database === undefined) return []
    try {
      const range = IDBKeyRange.bound(asidePrefix, asidePrefix + '\uffff')
      const all = (await database.getAll(table, range)) as SetAside[]
      return all.sort((one, other) => other.at - one.at)
    } catch {
      return []
    }
  }
}

/** Async, so that a browser that throws at once is one that rejects. */
const open = async (name: string): Promise<IDBPDatabase> =>
  openDB(name, 1, { upgrade: (database) => void database.createObjectStore(table) })

/** A file with its name, whatever else there is. */
export function isRouteFile(value: unknown): value is RouteFile {
  if (typeof value !== 'object' || value === null) return false
  const { bytes, fileName } = value as Partial<Record<keyof RouteFile, unknown>>
  return bytes instanceof Uint8Array && typeof fileName === 'string'
}

function isKeptFile(value: unknown): value is KeptFile {
  if (!isRouteFile(value)) return false
  const { choice } = value as Partial<Record<keyof KeptFile, unknown>>
  if (typeof choice !== 'object' || choice === null) return false
  const { line, riddenGaps, marked } = choice as Partial<Record<keyof RouteChoice, unknown>>
  return (
    isLine(line) &&
    Array.isArray(riddenGaps) &&
    riddenGaps.every((gap) => typeof gap === 'number') &&
    (marked === undefined || (Array.isArray(marked) && marked.every(isStretch)))
  )
}

function isLine(value: unknown): value is RouteChoice['line'] {
  if (value === 'proposed' || value === 'joined') return true
  const numbers = Array.isArray(value) ? value : [value]
  return numbers.length > 0 && numbers.every((number) => Number.isInteger(number) && number >= 0)
}

function isStretch(value: unknown): value is Stretch {
  if (typeof value !== 'object' || value === null) return false
  const { from, to } = value as Partial<Record<keyof Stretch, unknown>>
  return Number.isFinite(from) && Number.isFinite(to)
}
